"""The original and its mouth, as the plan tells them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from moldwright.photos.ask import Ask
from moldwright.photos.told import PhotoTold
from moldwright.plan.flange import Point2
from moldwright.ranges import NO_SPREAD, Amount, Spread
from moldwright.scan.repairs import Repair

Point = tuple[float, float, float]


class HoleTreat(StrEnum):
    """What is done with a through-hole before the rubber: a divider set in it, or it is stopped with clay or wax."""

    DIVIDER = "divider"
    STOP = "stop"


TWO_COATS = 2.0
"""A hole narrower than so many thicknesses of the glove is stopped: the rubber of its two sides would meet in it."""


@dataclass(frozen=True, slots=True)
class Hole:
    """A through-hole (handle) of the original: its number, from 1, where it is narrowest and how wide there, and what
    is done with it before the rubber.

    `width_mm` is the greatest ball's that passes right through: what a rule across its narrowest place reads.
    `across_mm` : how large the hole is about there, longer side first: a divider's sheet covers it.
    """

    number: int
    at: Point
    width_mm: float
    treat: HoleTreat
    across_mm: tuple[float, float]

    @property
    def letter(self) -> str:
        """Its number as a letter, which none takes for a spot's number.

        >>> [Hole(n, (0.0, 0.0, 0.0), 5.0, HoleTreat.STOP, (6.0, 5.0)).letter for n in (2, 28)]
        ['B', 'AB']
        """
        left, text = self.number, ""
        while left > 0:
            left, place = divmod(left - 1, 26)
            text = chr(ord("A") + place) + text
        return text


def treat_of(width_mm: float, glove_mm: float) -> HoleTreat:
    """What is done with a through-hole.

    Parameters
    ----------
    width_mm : of its narrowest place [mm].
    glove_mm : thickness of all coats together [mm].

    >>> treat_of(1.8, 4.0), treat_of(12.0, 4.0)
    (<HoleTreat.STOP: 'stop'>, <HoleTreat.DIVIDER: 'divider'>)

    Source: common practice, no source.
    """
    return HoleTreat.STOP if width_mm < TWO_COATS * glove_mm else HoleTreat.DIVIDER


def divided(holes: Iterable[Hole]) -> tuple[Point, ...]:
    """Where the through-holes are that are opened, each by its divider or cut web [mm].

    Parameters
    ----------
    holes : of an original.
    """
    return tuple(hole.at for hole in holes if hole.treat is HoleTreat.DIVIDER)


class Source(StrEnum):
    """What an original is known by."""

    SCAN = "scan"
    PHOTOS = "photos"
    TAPE = "tape"
    WATER = "water"
    WEIGHT = "weight"


@dataclass(frozen=True, slots=True)
class OriginalPlan:
    """The original. Volume and area are ranges where it was not scanned, and `spread` holds the factors that they, and
    the rubber, are uncertain by; `source` gave the form, `also` what else narrowed its volume; `photos` tells each one;
    `asks` what may hide where no outline shows it.
    """

    volume_ml: Amount
    area_cm2: Amount
    height_mm: float
    watertight: bool
    source: Source
    repairs: tuple[Repair, ...]
    holes: tuple[Hole, ...]
    resolution_mm: float
    error_mm: float
    also: tuple[Source, ...] = ()
    photos: tuple[PhotoTold, ...] = ()
    asks: tuple[Ask, ...] = ()
    spread: Spread = NO_SPREAD


@dataclass(frozen=True, slots=True)
class PlinthPlan:
    """A block: its height, its sides as the least rectangle about it has them [mm], and its outline on the board."""

    height_mm: float
    length_mm: float
    breadth_mm: float
    outline: tuple[Point2, ...]
    volume_ml: float


@dataclass(frozen=True, slots=True)
class MouthPlan:
    area_mm2: float
    narrowest_mm: float
    loops: int
    plinth: PlinthPlan | None
