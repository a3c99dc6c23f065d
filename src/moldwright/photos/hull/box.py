"""The box on the sheet that the piece fits in, by carving coarsely."""

from __future__ import annotations

from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.geometry.grid import Grid
from moldwright.photos.hull.carve import STRETCH
from moldwright.photos.hull.views import FlatViews, signed_mm
from moldwright.progress import Progress, silent

COARSE = 48
FINER = 2
MARGIN_STEPS = 4.0
NOTHING_LEFT = "The outlines do not meet in one body: nothing may be moved between photos, the piece neither."
Floats = NDArray[np.float64]


def standing_box(
    views: FlatViews, half_mm: tuple[float, float], top_mm: float, spare: int = 0, progress: Progress = silent
) -> Grid:
    """A grid from the board up about all that the views leave, its step a hundredth of the longest side or so.

    Parameters
    ----------
    views : poses and outlines.
    half_mm : how far from the sheet's middle the piece may reach, along x and y [mm].
    top_mm : how high it may be [mm].
    spare : how many views may be wrong: what only so many carve is kept.
    progress : told while looking.

    Raises InputRefused where nothing is left. Source: our own.
    """
    step = 2 * max(*half_mm, top_mm / 2) / COARSE
    low, high = np.array([-half_mm[0], -half_mm[1], 0.0]), np.array([half_mm[0], half_mm[1], top_mm])
    for _ in range(2):
        low, high = _left(views, low, high, step, spare, progress)
        step = float(max(high - low)) / COARSE / FINER
    return _standing(low, high, step, MARGIN_STEPS * step)


def refined(grid: Grid, step_mm: float) -> Grid:
    """A grid over the same room at another step.

    Parameters
    ----------
    grid : from the board up.
    step_mm : its step [mm].
    """
    last = grid.origin + grid.step_mm * (np.array(grid.shape) - 1)
    return _standing(grid.origin, last, step_mm, 0.0)


def _left(
    views: FlatViews, low: Floats, high: Floats, step: float, spare: int, progress: Progress
) -> tuple[Floats, Floats]:
    """Lowest and highest point of what all views but `spare` leave."""
    grid = _standing(low, high, step, 0.0)
    counts = np.empty(grid.shape, np.int16)
    reach = 0.5 * STRETCH * step * np.sqrt(3.0)
    for i in range(grid.shape[0]):
        _count_layer(counts, i, grid.origin, step, reach, spare, views.cameras, views.boxes, views.signed)
        progress("where the piece stands", (i + 1) / grid.shape[0])
    left = np.argwhere(counts <= spare)
    if not len(left):
        raise InputRefused("nothing-left-of-piece", len(views.cameras), None, "photos", NOTHING_LEFT)
    return grid.at(left.min(axis=0) - 1), grid.at(left.max(axis=0) + 1)


@nb.njit(cache=True)
def _count_layer(
    counts: Any, i: int, origin: Any, step: float, reach: float, spare: int, cameras: Any, boxes: Any, signed: Any
) -> None:
    """How many views carve each point of a layer with all that is about it; no more than `spare` + 1 are counted."""
    for j in range(counts.shape[1]):
        for k in range(counts.shape[2]):
            x, y, z = origin[0] + step * i, origin[1] + step * j, origin[2] + step * k
            count = 0
            for n in range(cameras.shape[0]):
                count += signed_mm(signed, boxes[n], cameras[n], x, y, z) > reach
                if count > spare:
                    break
            counts[i, j, k] = count


def _standing(low: Floats, high: Floats, step: float, margin: float) -> Grid:
    whole = Grid.around(low, high, step, margin)
    top = int(np.ceil((high[2] + margin) / step)) + 1
    return Grid((whole.origin_mm[0], whole.origin_mm[1], 0.0), step, (whole.shape[0], whole.shape[1], top))
