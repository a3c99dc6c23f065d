"""Lengths that a page sets or shows beside a mold: how far its pieces are drawn apart, the bar that tells its size."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.units import show_length
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem

STOP_MM = {UnitSystem.METRIC: 2.0, UnitSystem.US: INCH_MM / 8}
"""A slider goes from stop to stop: our own."""
BARS_MM = {
    UnitSystem.METRIC: (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0),
    UnitSystem.US: tuple(INCH_MM * each for each in (1 / 16, 1 / 8, 1 / 4, 1 / 2, 1.0, 2.0, 4.0, 8.0, 20.0)),
}


@dataclass(frozen=True, slots=True)
class ToldLengths:
    """Lengths and how they are printed, in one order."""

    mm: tuple[float, ...]
    told: tuple[str, ...]


def stops_to(most_mm: float, units: UnitSystem) -> ToldLengths:
    """From nothing to the first stop at or past a length.

    Parameters
    ----------
    most_mm : the length [mm].
    units : of who reads.

    >>> stops_to(3.0, UnitSystem.METRIC)
    ToldLengths(mm=(0.0, 2.0, 4.0), told=('0 mm', '2 mm', '4 mm'))
    """
    step = STOP_MM[units]
    return _told(tuple(step * n for n in range(int(-(-most_mm // step)) + 1)), units)


def bars(units: UnitSystem) -> ToldLengths:
    """Bars that tell the size of what is seen, the shortest first.

    Parameters
    ----------
    units : of who reads.
    """
    return _told(BARS_MM[units], units)


def _told(lengths_mm: tuple[float, ...], units: UnitSystem) -> ToldLengths:
    return ToldLengths(lengths_mm, tuple(show_length(each, units) for each in lengths_mm))
