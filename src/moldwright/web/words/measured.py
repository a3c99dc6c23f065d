"""Figures of a refusal in their reader's units."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType

from moldwright.units.printing import show_length, show_mass, show_temperature, show_volume
from moldwright.units.system import UnitSystem
from moldwright.units.tables import factor_of
from moldwright.ways import plain_figure
from moldwright.words.speaker import say, with_mark

READ_AS: Mapping[str, Callable[[float, str], str]] = MappingProxyType(
    {"mm": show_length, "g": show_mass, "ml": show_volume, "degC": show_temperature}
)
"""How people read what is in a unit of the house; other units are the same everywhere."""
SMALL = MappingProxyType({"mm": ("length", "in"), "g": ("mass", "oz"), "ml": ("volume", "fl oz")})
"""What is told in decimals of which unit where a rule or a scale would show two figures alike."""
MOST_DECIMALS = 6


def measured(units: UnitSystem, values: Sequence[float], unit: str) -> tuple[str, ...]:
    """Figures that are compared, in their reader's units: as one measures them, closer where two that differ would read
    alike. In the house's own units they stand as they were found.

    Parameters
    ----------
    units : of who reads.
    values : in the unit.
    unit : "mm", "g", "ml", "degC", or any other.

    >>> measured(UnitSystem.US, (8.0, 12.0), "mm"), measured(UnitSystem.US, (11.99, 12.0), "mm")
    (('5/16 in', '15/32 in'), ('0.4720 in', '0.4724 in'))
    """
    if units is UnitSystem.METRIC or unit not in READ_AS:
        return tuple(with_mark(plain_figure(value, say(unit) if unit else "")) for value in values)
    shown = tuple(READ_AS[unit](value, units) for value in values)
    return shown if len(set(shown)) == len(set(values)) or unit not in SMALL else _closely(values, *SMALL[unit])


def _closely(values: Sequence[float], dimension: str, small: str) -> tuple[str, ...]:
    """In decimals, so many that no two figures that differ read alike."""
    figures = [value / factor_of(dimension, small) for value in values]
    told = [[f"{each:.{decimals}f}" for each in figures] for decimals in range(1, MOST_DECIMALS + 1)]
    apart = next((each for each in told if len(set(each)) == len(set(values))), told[-1])
    return tuple(with_mark(f"{each} {small}") for each in apart)
