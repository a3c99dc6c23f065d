"""Which directions the photos cover and which are missing, ring by ring.

Directions are degrees clockwise as seen from above, from the sheet's front edge: 90 is its left side, 180 its back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
SPACING_DEG = 15.0
"""Between the photos of a ring of 24."""
WIDEST_DEG = 36.0
"""Directions between two neighbors that may be missing; two rings of 16 with a hand's unsteadiness still have it
(common practice, no source)."""
LOW_DEG, HIGH_DEG = (10.0, 35.0), (36.0, 62.0)
"""What a ring's height may be, as an angle from the sheet's middle; 20 and 50 are asked for."""
ABOVE_DEG = 66.0
APART_DEG = 12.0
"""Two rings nearer than this to one another are one."""
FEWEST = 8
"""Photos of a ring, or it counts as missing."""


class RingFault(StrEnum):
    """What is wrong with a ring as a whole."""

    MISSING = "missing"
    TOO_LOW = "too-low"
    TOO_HIGH = "too-high"


@dataclass(frozen=True, slots=True)
class MissingArc:
    """Directions without a photo: from, to, clockwise [deg]; `photos` : how many would fill it."""

    from_deg: float
    to_deg: float
    photos: int


@dataclass(frozen=True, slots=True)
class Ring:
    """One ring: how many photos, their median height above the sheet as an angle [deg], its gaps and faults."""

    photos: int
    elevation_deg: float
    gaps: tuple[MissingArc, ...]
    fault: RingFault | None


@dataclass(frozen=True, slots=True)
class Tally:
    """The low ring, the high ring, photos from above, and how many more photos would make it whole."""

    low: Ring
    high: Ring
    above: int
    more: int


def tally_of(eyes_mm: Floats) -> Tally:
    """What photos from these places cover.

    Parameters
    ----------
    eyes_mm : (n, 3), on the sheet [mm].

    >>> around = np.radians(np.arange(0, 360, 15))
    >>> ring = np.column_stack([np.sin(around), np.cos(around), 0 * around])
    >>> tally = tally_of(np.vstack([ring + (0, 0, 0.4), ring + (0, 0, 1.2)]))
    >>> tally.low.photos, tally.low.gaps, tally.high.fault, tally.more
    (24, (), None, 0)
    """
    around = np.degrees(np.arctan2(-eyes_mm[:, 0], -eyes_mm[:, 1])) % 360
    height = np.degrees(np.arctan2(eyes_mm[:, 2], np.hypot(eyes_mm[:, 0], eyes_mm[:, 1])))
    above = height > ABOVE_DEG
    low = ~above & (height < _parting(height[~above]))
    rings = _ring(around[low], height[low], LOW_DEG), _ring(around[~low & ~above], height[~low & ~above], HIGH_DEG)
    more = sum(arc.photos for ring in rings for arc in ring.gaps)
    return Tally(*rings, int(above.sum()), more)


def _parting(height: Floats) -> float:
    """The angle that parts low from high photos: where both sides spread least; a usual one if there is one ring."""
    ordered = np.sort(height)
    usual = (LOW_DEG[1] + HIGH_DEG[0]) / 2
    if len(ordered) < 2:
        return usual
    cuts = range(1, len(ordered))
    spread = [ordered[:k].var() * k + ordered[k:].var() * (len(ordered) - k) for k in cuts]
    k = 1 + int(np.argmin(spread))
    apart = float(ordered[k:].mean() - ordered[:k].mean())
    return float(ordered[k - 1] + ordered[k]) / 2 if apart >= APART_DEG else usual


def _ring(around: Floats, height: Floats, wanted: tuple[float, float]) -> Ring:
    middle = float(np.median(height)) if len(height) else 0.0
    fault = None
    if len(around) < FEWEST:
        fault = RingFault.MISSING
    elif middle < wanted[0]:
        fault = RingFault.TOO_LOW
    elif middle > wanted[1]:
        fault = RingFault.TOO_HIGH
    return Ring(len(around), middle, tuple(_gaps(np.sort(around))), fault)


def _gaps(around: Floats) -> Iterator[MissingArc]:
    if not len(around):
        yield MissingArc(0.0, 360.0, round(360 / SPACING_DEG))
        return
    for start, end in zip(around, np.roll(around, -1), strict=True):
        wide = (end - start) % 360 or 360.0
        if wide > WIDEST_DEG:
            yield MissingArc(float(start), float(end), max(1, round(wide / SPACING_DEG) - 1))
