"""Where a searched seam goes over the flange, before the shell is built along it."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy import ndimage
from shapely import Polygon

from moldwright.mold.flange import BareFlange
from moldwright.mold.split import CoarseSplit

NEAR_MM = 1.0
"""How far apart the flange is looked at [mm]."""


def seam_on_flange(split: CoarseSplit, flange: BareFlange) -> NDArray[np.float64]:
    """(n, 2) places of the flange at which one piece meets the other [mm].

    Parameters
    ----------
    split : the searched seam.
    flange : before its keys are cut.

    Source: our own.
    """
    outline, foot = Polygon(flange.outline), Polygon(flange.foot)
    left, front, right, back = outline.bounds
    x, y = np.arange(left, right + NEAR_MM, NEAR_MM), np.arange(front, back + NEAR_MM, NEAR_MM)
    places = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1)
    index = (places - split.grid.origin[:2]) / split.grid.step_mm
    at = np.moveaxis(index, -1, 0)
    sides = [
        ndimage.map_coordinates(side[:, :, 0].astype(np.float64), at, order=1, mode="nearest")
        for side in split.smooth_sides()
    ]
    taken = np.argmax(sides, axis=0)
    meets = np.zeros(taken.shape, dtype=bool)
    meets[1:] |= taken[1:] != taken[:-1]
    meets[:, 1:] |= taken[:, 1:] != taken[:, :-1]
    found = places[meets]
    on = shapely.contains_xy(outline, found[:, 0], found[:, 1]) & ~shapely.contains_xy(foot, found[:, 0], found[:, 1])
    chosen: NDArray[np.float64] = found[on]
    return chosen
