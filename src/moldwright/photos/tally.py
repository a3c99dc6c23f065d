"""Which directions the photos cover and which are missing, ring by ring.

Directions are degrees clockwise as seen from above, from the sheet's front edge: 90 is its left side, 180 its back.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


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
