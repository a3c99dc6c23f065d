"""The legend of a quantity on a surface: eight leaves, limits between them, the share of the surface in each."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from moldwright.told.surfaces.scale import LENGTH, SurfaceScale
from moldwright.units import show_share
from moldwright.units.system import UnitSystem
from moldwright.words.speaker import say

Points = NDArray[np.float64]
LEAVES = 8
TOLD_OFF = 0.02
"""A limit may be printed so many steps off what it is: 3/64 of an inch is 0.047; our own."""
LEFT_OUT = 0.005
"""So much of the surface at either end does not widen the leaves: our own."""


@dataclass(frozen=True, slots=True)
class SurfaceLegend:
    """Leaves of even thickness.

    Parameters
    ----------
    limits_mm, limits : between the leaves and at both ends, as numbers and as printed without a unit.
    unit : what they are printed in.
    shares, shares_told : of the surface in each leaf, as numbers and in words; what lies beyond an end counts there.
    below, above : whether some of the surface lies beyond the ends.
    """

    limits_mm: tuple[float, ...]
    limits: tuple[str, ...]
    unit: str
    shares: tuple[float, ...]
    shares_told: tuple[str, ...]
    below: bool
    above: bool

    def leaves_told(self) -> tuple[str, ...]:
        """From where to where each leaf goes, without a unit; one that holds what lies beyond has one end."""
        told = [f"{low}–{high}" for low, high in pairwise(self.limits)]
        if self.below:
            told[0] = say("up to {limit}", limit=self.limits[1])
        if self.above:
            told[-1] = say("from {limit}", limit=self.limits[-2])
        return tuple(told)


def legend_of(
    values_mm: Points,
    areas: Points,
    units: UnitSystem,
    common_mm: float | None = None,
    scale: SurfaceScale = LENGTH,
) -> SurfaceLegend:
    """The legend of what a surface has; of another scale than lengths, values and limits are in that one's unit.

    Parameters
    ----------
    values_mm : (n,) of its places, NaN for none [mm].
    areas : (n,) what each place stands for.
    units : of who reads.
    common_mm : what most places have, which no limit may part; None for none such.
    scale : what they are measured in.
    """
    known = np.isfinite(values_mm)
    values, weights = values_mm[known], areas[known]
    limits = _limits(values, weights, units, common_mm, scale)
    leaf = np.clip(np.searchsorted(limits, values, side="right") - 1, 0, LEAVES - 1)
    shares = np.bincount(leaf, weights, LEAVES) / max(float(weights.sum()), 1e-12)
    told = [scale.show(float(limit), units) for limit in limits]
    return SurfaceLegend(
        limits_mm=tuple(float(limit) for limit in limits),
        limits=tuple(text.rpartition(" ")[0] for text in told),
        unit=told[0].rpartition(" ")[2],
        shares=tuple(float(share) for share in shares),
        shares_told=tuple(show_share(float(share), 0 if share >= 0.01 else 1) for share in shares),
        below=bool((values < limits[0] - 1e-9).any()),
        above=bool((values > limits[-1] + 1e-9).any()),
    )


def _limits(values: Points, weights: Points, units: UnitSystem, common_mm: float | None, scale: SurfaceScale) -> Points:
    """The thinnest leaves that hold nearly all of it."""
    if not len(values):
        return scale.steps[units][0] * np.arange(LEAVES + 1.0)
    order = np.argsort(values)
    part = np.cumsum(weights[order]) / max(float(weights.sum()), 1e-12)
    low, high = (_reached(values[order], part, share) for share in (LEFT_OUT, 1 - LEFT_OUT))
    steps = (scale.steps if common_mm is None else scale.halved)[units]
    every = [(_first(low, step, common_mm), step) for step in steps]
    wide = ((first, step) for first, step in every if first + LEAVES * step >= high)
    fits = ((first, step) for first, step in wide if _told_whole(first, step, units, scale))
    return _evenly(*next(fits, every[-1]))


def _evenly(first: float, step: float) -> Points:
    limits: Points = first + step * np.arange(LEAVES + 1.0)
    return limits


def _told_whole(first: float, step: float, units: UnitSystem, scale: SurfaceScale) -> bool:
    """Whether each limit is printed as what it is: a rounded one would tell another leaf."""
    return all(
        abs(scale.read(scale.show(each, units)) - each) <= TOLD_OFF * step for each in _evenly(first, step).tolist()
    )


def _reached(values: Points, part: Points, share: float) -> float:
    return float(values[min(int(np.searchsorted(part, share)), len(part) - 1)])


def _first(low: float, step: float, common_mm: float | None) -> float:
    """The first limit: a whole number of steps, or half a step more where a whole one would part what is common."""
    off = common_mm is not None and not 0.25 <= (common_mm / step) % 1.0 <= 0.75
    aside = step / 2 if off else 0.0
    return math.floor((low - aside) / step + 1e-6) * step + aside
