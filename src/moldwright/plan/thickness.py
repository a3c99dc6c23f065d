"""How thick the finished glove is, as its plan tells it."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float, float]

THIN_SHARE = 0.9
"""Rubber of less than this share of what was ordered is told as thin; nearer no brush lays it: our own."""


@dataclass(frozen=True, slots=True)
class LengthAt:
    """A length that one place has, and the place over the board [mm]."""

    mm: float
    at: Point


@dataclass(frozen=True, slots=True)
class FootPlan:
    """Where the original overhangs the board so low that less rubber than ordered fits under it.

    `reach_mm`: how far in under it the rubber is thin, at most, from the mouth's edge; `at`: there [mm]; `area_mm2`:
    of the original, all round.
    """

    reach_mm: float
    at: Point
    area_mm2: float


@dataclass(frozen=True, slots=True)
class ThicknessPlan:
    """The finished glove, measured on its solid: from each place of its outside the least way to its inside.

    Parameters
    ----------
    ordered_mm : all coats together.
    sampled_mm : so much the solid may be thinner on sharp edges because it was sampled in steps, and no more.
    least, most : where it is thinnest and thickest, on its outside.
    foot : where it is thinner in under the original; None where nothing overhangs so low.
    """

    ordered_mm: float
    sampled_mm: float
    least: LengthAt
    most: LengthAt
    foot: FootPlan | None

    @property
    def thin(self) -> bool:
        """Whether it is somewhere so much thinner than ordered that hands are told."""
        return self.least.mm < THIN_SHARE * self.ordered_mm

    @property
    def runs_out(self) -> bool:
        """Whether it is thin so far in under the original that it tears there: farther than it is to be thick."""
        return self.foot is not None and self.foot.reach_mm >= self.ordered_mm
