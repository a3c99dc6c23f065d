"""What a quantity on a surface is measured in: how values are printed, how thick the leaves of a legend may be."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from moldwright.units import length_mm, show_length
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem

Steps = Mapping[UnitSystem, tuple[float, ...]]


@dataclass(frozen=True, slots=True)
class SurfaceScale:
    """A measure.

    Parameters
    ----------
    show : a value as it is printed, its unit behind a space.
    read : what was printed as a value again.
    steps : leaves are so thick; halved : those of them whose halves are printed as what they are.
    """

    show: Callable[[float, UnitSystem], str]
    read: Callable[[str], float]
    steps: Steps
    halved: Steps


def show_times(times: float, system: str = "metric") -> str:
    """So many times as long, in any system.

    Parameters
    ----------
    times : the factor.
    system : of who reads; it makes no difference.

    >>> show_times(1.25), show_times(3.0)
    ('1.25 ×', '3 ×')
    """
    return f"{round(times, 2):g} ×"


def _read_times(text: str) -> float:
    return float(text.removesuffix(" ×"))


def show_percent(value: float, system: str = "metric") -> str:
    """So many percent, in any system.

    Parameters
    ----------
    value : [%].
    system : of who reads; it makes no difference.

    >>> show_percent(35.04)
    '35 %'
    """
    return f"{value:.0f} %"


def _read_percent(text: str) -> float:
    return float(text.removesuffix(" %"))


LENGTH = SurfaceScale(
    show_length,
    length_mm,
    MappingProxyType(
        {
            UnitSystem.METRIC: (0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 2.5, 5.0, 10.0, 20.0, 25.0, 50.0, 100.0),
            UnitSystem.US: tuple(
                INCH_MM * each for each in (1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1.0, 2.0, 4.0)
            ),
        }
    ),
    MappingProxyType(
        {
            UnitSystem.METRIC: (0.2, 1.0, 2.0, 10.0, 20.0, 100.0),
            UnitSystem.US: tuple(INCH_MM * each for each in (1 / 16, 1 / 8, 1 / 4, 1 / 2, 1.0, 2.0, 4.0)),
        }
    ),
)
"""What a rule tells at a glance; our own."""

_TIMES = (0.05, 0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0)
TIMES = SurfaceScale(
    show_times,
    _read_times,
    MappingProxyType(dict.fromkeys(UnitSystem, _TIMES)),
    MappingProxyType(dict.fromkeys(UnitSystem, (0.1, 0.2, 1.0, 2.0, 10.0))),
)
"""So many times as long: our own."""

_PERCENT = (1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0)
PERCENT = SurfaceScale(
    show_percent,
    _read_percent,
    MappingProxyType(dict.fromkeys(UnitSystem, _PERCENT)),
    MappingProxyType(dict.fromkeys(UnitSystem, (2.0, 10.0, 20.0, 100.0, 200.0))),
)
"""Hundredths: our own."""
