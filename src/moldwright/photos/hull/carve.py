"""The carved field: how far each point lies outside of what the views show, the board below counted too."""

from __future__ import annotations

from typing import Any

import numba as nb
import numpy as np

from moldwright.geometry.field import Sampled
from moldwright.geometry.grid import Grid
from moldwright.photos.hull.views import FlatViews, signed_mm
from moldwright.progress import Progress, silent

BLOCK = 8
STRETCH = 1.2
"""Signed distances times depth by focal length change by at most this per millimeter: off the middle of a photo a ray
stands askew to its plane, and a lens bends."""


def carved(views: FlatViews, grid: Grid, band_mm: float, progress: Progress = silent) -> Sampled:
    """`max over views of (signed distance x depth / focal length)`, true within +-`band_mm`, beyond it of its sign.

    Points are taken in blocks: one whose middle is surely out or in is not looked at closely, and of the others only
    the views that can be the largest somewhere in it.

    Parameters
    ----------
    views : poses and outlines.
    grid : where to ask; nothing below the board is carved here.
    band_mm : up to where values are wanted [mm], > 0.
    progress : told after every layer of blocks; it may raise to cancel.

    Source: visual hull, Laurentini 1994, "The visual hull concept for silhouette-based image understanding" (from
    memory); as a signed field our own.
    """
    field = np.empty(grid.shape, np.float32)
    origin = grid.origin
    for first in range(0, grid.shape[0], BLOCK):
        _carve_layer(field, first, origin, grid.step_mm, band_mm, views.cameras, views.boxes, views.signed)
        progress("carving the piece", min(1.0, (first + BLOCK) / grid.shape[0]))
    return Sampled(field, grid)


@nb.njit(cache=True, inline="always")
def middle_of_block(
    origin: Any, step: float, i0: int, i1: int, j0: int, j1: int, k0: int, k1: int
) -> tuple[float, float, float, float]:
    """Middle of a block of points and how far its corners are from there [mm]; the upper bounds are not in it."""
    x = origin[0] + step * 0.5 * (i0 + i1 - 1)
    y = origin[1] + step * 0.5 * (j0 + j1 - 1)
    z = origin[2] + step * 0.5 * (k0 + k1 - 1)
    half = 0.5 * step * np.sqrt((i1 - i0 - 1.0) ** 2 + (j1 - j0 - 1.0) ** 2 + (k1 - k0 - 1.0) ** 2)
    return x, y, z, half


@nb.njit(cache=True)
def _carve_layer(
    field: Any, i0: int, origin: Any, step: float, band: float, cameras: Any, boxes: Any, signed: Any
) -> None:
    """All blocks of points from `i0` on along x."""
    nx, ny, nz = field.shape
    count = cameras.shape[0]
    at_middle = np.empty(count)
    active = np.empty(count, np.int64)
    i1 = min(i0 + BLOCK, nx)
    for j0 in range(0, ny, BLOCK):
        j1 = min(j0 + BLOCK, ny)
        for k0 in range(0, nz, BLOCK):
            k1 = min(k0 + BLOCK, nz)
            x, y, z, half = middle_of_block(origin, step, i0, i1, j0, j1, k0, k1)
            reach = STRETCH * half
            most = -1e9
            for n in range(count):
                at_middle[n] = signed_mm(signed, boxes[n], cameras[n], x, y, z)
                most = max(most, at_middle[n])
                if most > reach + band:
                    break
            if most > reach + band or most < -reach - band:
                field[i0:i1, j0:j1, k0:k1] = min(max(most, -band), band)
                continue
            few = 0
            least = max(most - reach, -band) - reach
            for n in range(count):
                if at_middle[n] >= least:
                    active[few] = n
                    few += 1
            for i in range(i0, i1):
                for j in range(j0, j1):
                    for k in range(k0, k1):
                        x, y, z = origin[0] + step * i, origin[1] + step * j, origin[2] + step * k
                        worst = -band
                        for m in range(few):
                            n = active[m]
                            worst = max(worst, signed_mm(signed, boxes[n], cameras[n], x, y, z))
                            if worst >= band:
                                break
                        field[i, j, k] = min(worst, band)
