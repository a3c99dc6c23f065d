"""Bowls that the maker tells, taken out of the field that outlines gave."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.geometry.field import Sampled
from moldwright.geometry.level import volume_under_mm3
from moldwright.photos.ask import Ask, Bowl, BowlFloor
from moldwright.ranges import Range
from moldwright.ways import Deed, figure, own_name

POWER = {BowlFloor.ROUND: 2.0, None: 4.0, BowlFloor.FLAT: 24.0}
"""Of the superellipsoid that a bowl is taken for: half an ellipsoid, nearly a cylinder, and one between."""
FORM_SHARE = {BowlFloor.ROUND: 0.06, None: 0.18, BowlFloor.FLAT: 0.04}
"""Half the range of its volume by its form: half an ellipsoid has 0.76 and a cylinder 1.14 of the one between; of a
told floor common practice, no source."""
RULER_MM = 1.5
"""Half the range of a depth or a width that is measured in a bowl: common practice, no source."""
WIDER, DEEPER_MM = 1.5, 3.0
"""A bowl may be so many times as wide as its level place, and so much deeper than the piece is high there: our own."""
STEEP_LEAST = 1e-3
LIKE_MOST, LEAST_LEFT = 0.85, 0.1
"""How much of what an open question could hold at most is counted at 90 %, and what is left of the piece at least: our
own."""


@dataclass(frozen=True, slots=True)
class Told:
    """A question whose answer is a bowl, in the hull; its width is known."""

    ask: Ask
    bowl: Bowl
    width_mm: float

    @property
    def share(self) -> float:
        """Half the range of its volume at 90 %: by its form, its width twice, its depth."""
        across = 2.0 * RULER_MM / self.width_mm
        return hypot(FORM_SHARE[self.bowl.floor], across, RULER_MM / self.bowl.depth_mm)


def answered(asks: Sequence[Ask], bowls: Sequence[Bowl]) -> tuple[tuple[Told, ...], tuple[Ask, ...]]:
    """Bowls to dig, and the questions that are still open.

    Parameters
    ----------
    asks : what the hull asks.
    bowls : what the maker answered.

    Raises InputRefused for an answer to a question that was not asked, two to one, and a bowl that does not fit.
    """
    by_name = {ask.name: ask for ask in asks}
    names = [bowl.name for bowl in bowls]
    for n, bowl in enumerate(bowls):
        if bowl.name not in by_name or bowl.name in names[:n]:
            asked = ", ".join(by_name) or "none"
            remedy = "Each place that is asked about has a letter and wants one answer: look at the photos again"
            raise InputRefused("bowl-not-asked", bowl.name, asked, "", remedy, Deed.LOOK_AT_PHOTOS)
    told = tuple(_fitting(by_name[bowl.name], bowl) for bowl in bowls if bowl.depth_mm > 0)
    return told, tuple(ask for ask in asks if ask.name not in names)


def _fitting(ask: Ask, bowl: Bowl) -> Told:
    """The bowl in its place, refused where it does not fit."""
    at, up_mm, deep = own_name(bowl.name), ask.at_mm[2], figure(round(bowl.depth_mm, 1), "mm")
    if bowl.width_mm is None:
        remedy = f"Measure the bowl at {at} across its mouth too, and write width: it may be narrower than its place."
        raise InputRefused("bowl-without-width", f"{at}, {deep} deep", "its width", "", remedy)
    if bowl.depth_mm > up_mm + DEEPER_MM:
        limit = figure(round(up_mm, 1), "mm")
        remedy = f"Measure the bowl at {at} again, from its rim to its floor: the piece is {limit} high there."
        raise InputRefused("bowl-too-deep", f"{at}, {deep} deep", limit, "", remedy)
    if bowl.width_mm > (most_mm := WIDER * ask.across_mm):
        wide, limit = figure(round(bowl.width_mm, 1), "mm"), figure(round(most_mm, 1), "mm")
        remedy = f"Measure the bowl at {at} again, across its mouth: the level place is not so wide."
        raise InputRefused("bowl-too-wide", f"{at}, {wide} wide", limit, "", remedy)
    return Told(ask, bowl, bowl.width_mm)


def dug(sampled: Sampled, told: Sequence[Told]) -> Sampled:
    """The field without the bowls.

    Parameters
    ----------
    sampled : a field about as steep as a distance [mm].
    told : the bowls.

    Source: superellipsoid as an implicit surface, Barr 1981, "Superquadrics and angle-preserving transformations" (from
    memory); its distance to first order.
    """
    field = sampled.field
    for one in told:
        field = np.maximum(field, -_bowl_field(sampled, one))
    return Sampled(field, sampled.grid)


def _bowl_field(sampled: Sampled, told: Told) -> NDArray[np.float32]:
    """How far each point is outside of the bowl, which is open upward [mm]."""
    grid, (x0, y0, top) = sampled.grid, told.ask.at_mm
    x, y, z = (grid.axis(number) for number in range(3))
    power, radius, deep = POWER[told.bowl.floor], told.width_mm / 2.0, told.bowl.depth_mm
    across = np.hypot((x - x0)[:, None, None], (y - y0)[None, :, None])
    below = np.maximum(top - z, 0.0)[None, None, :]
    a, b = across / radius, below / deep
    level = np.power(a**power + b**power, 1.0 / power)
    safe = np.maximum(level, STEEP_LEAST)
    steep = np.hypot((a / safe) ** (power - 1.0) / radius, (b / safe) ** (power - 1.0) / deep)
    return np.asarray((level - 1.0) / np.maximum(steep, 0.5 / (radius + deep)), np.float32)


def lost_ml(sampled: Sampled, told: Sequence[Told]) -> float:
    """What the bowls take of a solid [ml].

    Parameters
    ----------
    sampled : its field.
    told : the bowls.
    """
    if not told:
        return 0.0
    return (volume_under_mm3(sampled) - volume_under_mm3(dug(sampled, told))) / 1000.0


def less_bowls(volume_ml: Range, lost: float, told: Sequence[Told], opened: Sequence[Ask]) -> Range:
    """A volume at 90 % without the bowls: those that are told, and downward what each open question could hold.

    Parameters
    ----------
    volume_ml : of the piece if it had none [ml].
    lost : what the told bowls take [ml].
    told : they.
    opened : the questions that are still open.
    """
    doubt = lost * hypot(*(one.share for one in told))
    down, up = hypot(volume_ml.likely - volume_ml.low, doubt), hypot(volume_ml.high - volume_ml.likely, doubt)
    likely = volume_ml.likely - lost
    low = likely - down - LIKE_MOST * sum(ask.most_ml for ask in opened)
    return Range(max(low, LEAST_LEFT * likely), likely, likely + up)


def wall_mm2(ask: Ask) -> float:
    """The area that a bowl at an open question could add at most: its wall, if it is as deep as it may be.

    Parameters
    ----------
    ask : the open question.

    Source: a cylinder of that volume and mouth has the wall 2 V / r, a half ellipsoid less.
    """
    return 2.0 * 1000.0 * ask.most_ml / (ask.across_mm / 2.0)
