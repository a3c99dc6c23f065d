"""How many casts a mold gives, and by what that is reckoned."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import ceil

from moldwright.ranges import Range


class Wears(StrEnum):
    """What makes a mold last longer or shorter than its rubber's class."""

    TEAR = "tear strength"
    STRETCH = "stretch"
    THIN = "thin rubber"
    SLIT = "a cut"
    FINS = "thin fins"
    POURED = "poured rubber"
    HEAT = "heat of the cast"


@dataclass(frozen=True, slots=True)
class WearFactor:
    """What one thing does to the casts of a mold: a factor, and where it comes from."""

    of: Wears
    factor: Range
    source: str


@dataclass(frozen=True, slots=True)
class LifePlan:
    """How long a mold lasts.

    Parameters
    ----------
    casts : that it gives until its face is worn.
    of_class : those that its rubber's class gives with what is cast in it, and `source`, where that comes from.
    source : of the class's casts.
    factors : on the class's casts, for this mold; those that change nothing are left out.
    heat_c : how hot the cast may get, none of its heat lost to the mold [°C].
    molds : that the edition takes, at the likely casts.
    look_after_days : after so long on the shelf it is looked over before the next cast.
    """

    casts: Range
    of_class: Range
    source: str
    factors: tuple[WearFactor, ...]
    heat_c: Range
    molds: int
    look_after_days: int


def molds_for(count: int, casts: Range) -> int:
    """How many molds an edition takes, at the likely casts of each.

    Parameters
    ----------
    count : casts of the edition.
    casts : that a mold gives.

    >>> molds_for(24, Range(15.0, 35.0, 80.0)), molds_for(36, Range(15.0, 35.0, 80.0))
    (1, 2)
    """
    return ceil(count / max(casts.likely, 1.0))
