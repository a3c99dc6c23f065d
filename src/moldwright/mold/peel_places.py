"""Where a glove is tight, the tightest first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.materials.peel_limits import SLIDES
from moldwright.mold.peel_parts import PeelPart, PeelParts, opened_handles, peel_parts
from moldwright.mold.peel_stretch import over_mm, round_all_mm, stretches
from moldwright.mold.peel_surface import PeelSurface
from moldwright.plan.peel import Point, TightPlace

Floats = NDArray[np.float64]

MOST_TOLD, APART_SHARE, APART_MM = 5, 0.15, 15.0
"""So many places are told at most, so far apart at least, as a share of the longest way and in millimeters: our
own."""
AS_TIGHT = 1e-3
"""Loops so little slacker, as a share, count as equally tight: the farthest is told."""


@dataclass(frozen=True, slots=True, eq=False)
class Peeled:
    """A glove as it comes off.

    Parameters
    ----------
    surface : its inner surface.
    parts : of it, from the board on.
    over : (k,) what each part's edge must pass [mm].
    stretch : (k,) how many times its own length it is stretched for that.
    """

    surface: PeelSurface
    parts: PeelParts
    over: Floats
    stretch: Floats

    @property
    def farthest_mm(self) -> float:
        """The longest way over the surface [mm]."""
        away = self.surface.away_mm
        return float(away[np.isfinite(away)].max())


def stretch_of_corners(peeled: Peeled) -> Floats:
    """(n,) how far each corner's loop is stretched: that of the farthest part that it is of, 1 before the first.

    Parameters
    ----------
    peeled : the glove as it comes off.

    Source: our own.
    """
    return np.append(peeled.stretch, 1.0)[peeled.parts.of_corner]


def peeled_of(surface: PeelSurface, divided: Sequence[Point]) -> Peeled:
    """How each place of a glove stretches as it comes off.

    Parameters
    ----------
    surface : its inner surface.
    divided : where the through-holes are that are opened by dividers or cut webs; all others are stopped [mm].

    Source: as `over_mm` and `stretches`.
    """
    parts = peel_parts(surface)
    over = over_mm(surface, parts)
    return Peeled(surface, parts, over, stretches(parts, over, opened_handles(parts, divided)))


def tight_places(peeled: Peeled) -> tuple[TightPlace, ...]:
    """The tightest places of a glove, apart from each other, the tightest first.

    Parameters
    ----------
    peeled : the glove as it comes off.

    Source: our own.
    """
    apart_mm = max(APART_MM, APART_SHARE * peeled.farthest_mm)
    told: list[TightPlace] = []
    for number in _tightest_first(peeled):
        place = _place(peeled, number)
        if all(np.linalg.norm(np.subtract(place.at, other.at)) >= apart_mm for other in told):
            told.append(place)
        if len(told) == MOST_TOLD:
            break
    return tuple(told)


def _tightest_first(peeled: Peeled) -> list[int]:
    """Loops that no neighbor is tighter than. Of equally tight ones the farthest is first: what it must pass lies right
    beyond it."""
    steps = np.round(np.log(peeled.stretch) / AS_TIGHT)
    below = np.array([part.below for part in peeled.parts.all])
    tightest = steps.copy()
    inner = np.flatnonzero(below >= 0)
    np.maximum.at(tightest, below[inner], steps[inner])
    np.maximum.at(tightest, inner, steps[below[inner]])
    order = np.lexsort((-np.arange(len(steps)), -steps))
    return [int(n) for n in order if peeled.stretch[n] >= SLIDES and steps[n] == tightest[n]]


def _place(peeled: Peeled, number: int) -> TightPlace:
    part: PeelPart = peeled.parts.all[number]
    loop = part.loops[0]
    x, y, z = (round(float(each), 1) for each in part.points.mean(axis=0))
    stretch, over = float(peeled.stretch[number]), float(peeled.over[number])
    around_mm = round_all_mm(part) if part.handle else loop.length_mm
    stiff_mm = sum(each.stiff_mm for each in part.loops)
    return TightPlace((x, y, z), part.away_mm, around_mm, stiff_mm, over, stretch)
