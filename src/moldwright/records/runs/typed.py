"""What is typed at the bench as numbers with or without a unit: bare ones take the unit of the plan's sheets."""

from __future__ import annotations

import re
from collections.abc import Callable

from moldwright.units import length_mm, mass_g, temperature_c, volume_ml
from moldwright.units.system import UnitSystem

BARE = {
    "mass": {UnitSystem.METRIC: "g", UnitSystem.US: "oz"},
    "length": {UnitSystem.METRIC: "mm", UnitSystem.US: "in"},
    "temperature": {UnitSystem.METRIC: "°C", UnitSystem.US: "°F"},
    "volume": {UnitSystem.METRIC: "ml", UnitSystem.US: "ml"},
}
"""The unit of a bare number; a syringe is marked in milliliters everywhere."""
READ: dict[str, Callable[[str, str], float]] = {
    "mass": mass_g,
    "length": length_mm,
    "temperature": temperature_c,
    "volume": volume_ml,
}
NUMBER = re.compile(r"[-+−]?\d*[.,]?\d+")
_BETWEEN = re.compile(r"\s+|;|(?<=\d)\s*[-–]\s*(?=\d)|,\s+")


def typed(text: str, dimension: str, units: UnitSystem, what: str) -> float:
    """A quantity in house units.

    Parameters
    ----------
    text : as it was typed: "32.6", "32,6 g", "1.15 oz".
    dimension : "mass", "length", "temperature" or "volume".
    units : the plan's.
    what : what it is, for a refusal.

    >>> typed("32,6", "mass", UnitSystem.METRIC, "it read"), round(typed("76", "temperature", UnitSystem.US, "shop"), 2)
    (32.6, 24.44)
    """
    plain = text.strip()
    bare = NUMBER.fullmatch(plain) is not None
    return READ[dimension](f"{plain} {BARE[dimension][units]}" if bare else plain, what)


def lengths(text: str, units: UnitSystem, what: str) -> tuple[float, ...]:
    """Several lengths in house units, the unit once behind them or behind each.

    Parameters
    ----------
    text : as they were typed: "1.2 1.6 1.4", "0.5-0.7 mm".
    units : the plan's.
    what : what they are, for a refusal.

    >>> lengths("0.5-0.7 mm", UnitSystem.METRIC, "thickness"), lengths("1,2 1,6", UnitSystem.METRIC, "thickness")
    ((0.5, 0.7), (1.2, 1.6))
    """
    plain = text.strip()
    unit = re.search(r"[a-z\"'″]+$", plain, re.IGNORECASE)
    told = unit.group() if unit else BARE["length"][units]
    bare = plain[: unit.start()].strip() if unit else plain
    parts = [part for part in _BETWEEN.split(bare) if part]
    if all(NUMBER.fullmatch(part) for part in parts) and parts:
        return tuple(length_mm(f"{part} {told}", what) for part in parts)
    return (length_mm(plain, what),)
