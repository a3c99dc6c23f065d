"""What a hull's volume tells of the piece's: the likely volume and how far it may be off."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from moldwright.geometry.grid import Grid
from moldwright.photos.hull.carve import carved
from moldwright.photos.hull.level import volume_under_mm3
from moldwright.photos.hull.views import FlatViews
from moldwright.progress import Progress, silent
from moldwright.ranges import Range

STEADY = 0.0065
"""Excess of half sets of a plain convex body with no recess at all."""
BIAS, BIAS_MOST = 4.5, 0.055
DOWN, DOWN_MORE, DOWN_MOST = 0.03, 7.5, 0.10
UP, UP_MORE, UP_MOST = 0.02, 4.0, 0.05
NOISE_EXCESS, NOISE_LOSS, NOISE_OFF = 0.42, 0.95, 0.3
NOISE_MOST = 0.04
"""Noise of outlines takes volume, more of it the more photos: the root of the share of outlines that it leaves without
anything behind them, at most this, adds to the excess of half sets, is lost to the hull and is in doubt."""
ONSET = 0.009
REFINED = Range(0.97, 1.015, 1.06)
"""The piece's volume over that of its hull with the recesses that speckles told."""


@dataclass(frozen=True, slots=True)
class Likely:
    """`half_excess` : by how much hulls of every second photo are larger, as a share; `of_hull` : the piece's volume
    over the hull's at 90 %; `refined` : whether recesses that speckles told are taken out of the hull already."""

    half_excess: float
    of_hull: Range
    refined: bool = False


def likely_volume(
    views: FlatViews, order: list[int], grid: Grid, noise_share: float, progress: Progress = silent
) -> Likely:
    """The piece's volume as a share of its hull's, from how much the hull still shrinks as photos are added.

    Parameters
    ----------
    views : that agree.
    order : their numbers, ring by ring and round each ring.
    grid : a coarse one about the hull, with room round it.
    noise_share : how much of the outlines has nothing behind it to the last.
    progress : told while carving.

    Source: our own, docs/decisions/0040.
    """
    whole = _volume_mm3(views, grid, progress)
    halves = [_volume_mm3(views.only(order[start::2]), grid, progress) for start in (0, 1)]
    excess = max(0.0, float(np.mean(halves)) / whole - 1.0)
    return Likely(excess, of_hull(excess, noise_share))


def of_hull(half_excess: float, noise_share: float = 0.0) -> Range:
    """The piece's volume over its hull's at 90 %.

    Parameters
    ----------
    half_excess : by how much the hulls of half of the photos are larger, as a share.
    noise_share : how much of the outlines has nothing behind it to the last.
    """
    noise = min(NOISE_MOST, noise_share**0.5)
    excess = max(0.0, half_excess - NOISE_EXCESS * noise)
    likely = (1.0 + NOISE_LOSS * noise) / (1.0 + min(BIAS * max(0.0, excess - STEADY), BIAS_MOST))
    more, doubt = max(0.0, excess - ONSET), NOISE_OFF * noise
    down, up = min(DOWN + DOWN_MORE * more, DOWN_MOST), min(UP + UP_MORE * more, UP_MOST)
    return Range(likely - down - doubt, likely, likely + up + doubt)


def _volume_mm3(views: FlatViews, grid: Grid, progress: Progress) -> float:
    return volume_under_mm3(carved(views, grid, 2 * grid.step_mm, progress))
