"""What a hull's volume tells of the piece's: the likely volume and how far it may be off."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

import numpy as np

from moldwright.geometry.grid import Grid
from moldwright.geometry.level import body_at, volume_under_mm3
from moldwright.photos.hull.carve import carved
from moldwright.photos.hull.views import FlatViews
from moldwright.photos.hull.waver import waver
from moldwright.progress import Progress, silent
from moldwright.ranges import Range

STEADY, SURE = 0.008, 0.0135
"""Excess of half sets of bodies that hide nothing, and from where on a body hides as much as most do."""
USUAL_PHOTOS, FACETS = 48, 1.0 / 3.0
"""The excess of half sets falls with the square of the number of photos: what it would be with so many tells what
hides; a third of it is what facets between the views leave of the whole set."""
HIDDEN = 0.045
"""By how much the hull of most modeled forms is too large: by exact outlines, hulls of 16 packaged scans that are not
in the trial are 2.1 to 9.8 % too large, the middle one 5.3 %; of smooth bodies of our own 0.4 to 6 %."""
DOWN, DOWN_MORE = 0.03, 0.065
UP, UP_MORE = 0.015, 0.025
BEYOND, BEYOND_MOST = 0.8, 0.03
"""How far the likely value may be off where nothing hides, how much more where most do, and for each share of excess
beyond that, at most."""
WAVER, WAVER_FROM_PX, WAVER_DOUBT = 1.6, 0.22, 0.5
"""A hull's surface lies inward of one by exact outlines by so many times what rays miss it by, less what they miss even
a good one by; how much of that is in doubt."""
EXCESS, EXCESS_FROM_PX = 0.36, 0.12
"""The same for what it adds to the excess of half sets."""
EDGE_PX = 0.12
"""Half the range of where outlines lie, all alike: edges are soft, and a piece throws its color on the sheet."""
REFINED = Range(0.97, 1.015, 1.06)
"""The piece's volume over that of its hull with the recesses that speckles told."""


@dataclass(frozen=True, slots=True)
class Likely:
    """`half_excess` : by how much hulls of every second photo are larger, as a share; `of_hull` : the piece's volume
    over the hull's at 90 %; `refined` : whether recesses that speckles told are taken out of the hull already."""

    half_excess: float
    of_hull: Range
    refined: bool = False


def likely_volume(views: FlatViews, order: list[int], grid: Grid, progress: Progress = silent) -> Likely:
    """The piece's volume as a share of its hull's, from how much the hull still shrinks as photos are added, and from
    how far outlines miss it.

    Parameters
    ----------
    views : that agree.
    order : their numbers, ring by ring and round each ring.
    grid : a coarse one about the hull, with room round it.
    progress : told while carving.

    Source: our own, docs/decisions/0043.
    """
    field = carved(views, grid, 2 * grid.step_mm, progress)
    whole = volume_under_mm3(field)
    halves = [
        volume_under_mm3(carved(views.only(order[start::2]), grid, 2 * grid.step_mm, progress)) for start in (0, 1)
    ]
    excess = max(0.0, float(np.mean(halves)) / whole - 1.0)
    seen = waver(views, grid)
    skin = seen.px_mm * body_at(field).area_mm2 / whole
    return Likely(excess, of_hull(excess, seen.mean_px, skin, len(order)))


def of_hull(half_excess: float, waver_px: float = 0.0, px_share: float = 0.0, photos: int = USUAL_PHOTOS) -> Range:
    """The piece's volume over its hull's at 90 %.

    Parameters
    ----------
    half_excess : by how much the hulls of half of the photos are larger, as a share.
    waver_px : how far outlines miss the hull [px].
    px_share : what a skin of one pixel has of the hull's volume.
    photos : how many there are.
    """
    lost = WAVER * max(0.0, waver_px - WAVER_FROM_PX) * px_share
    excess = half_excess - EXCESS * max(0.0, waver_px - EXCESS_FROM_PX) * px_share
    usual = excess * (photos / USUAL_PHOTOS) ** 2
    hides = min(1.0, max(0.0, (usual - STEADY) / (SURE - STEADY)))
    likely = (1.0 + lost) / (1.0 + HIDDEN * hides + FACETS * (excess - usual))
    noise = hypot(WAVER_DOUBT * lost, EDGE_PX * px_share)
    more = min(BEYOND_MOST, BEYOND * max(0.0, usual - SURE))
    down, up = DOWN + DOWN_MORE * hides + more, UP + UP_MORE * hides + more
    return Range(likely - hypot(down, noise), likely, likely + hypot(up, noise))
