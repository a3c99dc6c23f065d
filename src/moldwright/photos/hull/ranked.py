"""At every point the view that carves most, how much, and how much the next one would."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.grid import Field, Grid
from moldwright.photos.hull.carve import BLOCK, STRETCH, middle_of_block
from moldwright.photos.hull.views import COLUMNS, FIRST, FOCAL, LEFT, ROWS, TOP, FlatViews, pixel_of, signed_mm
from moldwright.photos.outlines.outline import PARTS_OF_A_PIXEL
from moldwright.progress import Progress, silent

FURTHEST_STEPS = 8.0
"""How far carved a point may be and still be looked at, in steps of the grid."""
ENOUGH_MM = 500.0


@dataclass(frozen=True, slots=True, eq=False)
class Ranked:
    """`first`, `second` : the largest and second largest carving of a view at each point [mm], true near the surface;
    `who` : whose the first is."""

    first: Field
    second: Field
    who: NDArray[np.int16]
    grid: Grid

    def alone_share(self, count: int) -> NDArray[np.float64]:
        """(count,) what each view takes away that all others leave, as a share of what is left.

        Parameters
        ----------
        count : of the views.
        """
        only = self.who[(self.first > 0) & (self.second < 0)]
        left = max(1, int(np.count_nonzero(self.first < 0)))
        return np.asarray(np.bincount(only, minlength=count) / left)


def ranked(views: FlatViews, grid: Grid, progress: Progress = silent) -> Ranked:
    """The two views that carve most at every point of a coarse grid.

    Parameters
    ----------
    views : poses and outlines, two or more.
    grid : where to ask.
    progress : told after every layer of blocks; it may raise to cancel.

    Source: our own.
    """
    first, second = np.empty(grid.shape, np.float32), np.empty(grid.shape, np.float32)
    who = np.empty(grid.shape, np.int16)
    for i in range(0, grid.shape[0], BLOCK):
        _rank_layer(first, second, who, i, grid.origin, grid.step_mm, views.cameras, views.boxes, views.signed)
        progress("photos held against each other", min(1.0, (i + BLOCK) / grid.shape[0]))
    return Ranked(first, second, who, grid)


@nb.njit(cache=True)
def _rank_layer(
    first: Any, second: Any, who: Any, i0: int, origin: Any, step: float, cameras: Any, boxes: Any, signed: Any
) -> None:
    """All blocks of points from `i0` on along x; those surely far out or in are not looked at closely."""
    nx, ny, nz = first.shape
    i1 = min(i0 + BLOCK, nx)
    for j0 in range(0, ny, BLOCK):
        j1 = min(j0 + BLOCK, ny)
        for k0 in range(0, nz, BLOCK):
            k1 = min(k0 + BLOCK, nz)
            x, y, z, half = middle_of_block(origin, step, i0, i1, j0, j1, k0, k1)
            most, next_most, whose = _two_most(x, y, z, cameras, boxes, signed)
            if next_most > STRETCH * half + FURTHEST_STEPS * step or most < -STRETCH * half:
                first[i0:i1, j0:j1, k0:k1] = most
                second[i0:i1, j0:j1, k0:k1] = next_most
                who[i0:i1, j0:j1, k0:k1] = whose
                continue
            for i in range(i0, i1):
                for j in range(j0, j1):
                    for k in range(k0, k1):
                        x, y, z = origin[0] + step * i, origin[1] + step * j, origin[2] + step * k
                        most, next_most, whose = _two_most(x, y, z, cameras, boxes, signed)
                        first[i, j, k], second[i, j, k], who[i, j, k] = most, next_most, whose


@nb.njit(cache=True)
def _two_most(x: float, y: float, z: float, cameras: Any, boxes: Any, signed: Any) -> tuple[float, float, int]:
    most, next_most, whose = -1e9, -1e9, 0
    for n in range(cameras.shape[0]):
        value = signed_mm(signed, boxes[n], cameras[n], x, y, z)
        if value > most:
            most, next_most, whose = value, most, n
        elif value > next_most:
            next_most = value
        if next_most > ENOUGH_MM:
            break
    return most, next_most, whose


def unexplained(
    views: FlatViews, field: Ranked, tolerance_mm: float, pixel_steps: float = 1.25
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Shares of outlines behind which nothing is left: (n,) of each view's own, and (n,) by the view that took it.

    Every pixel of an outline must have a point behind it that all views leave. Where there is none, the view is blamed
    that carves the last point to go: the one that is carved least. Both are shares of one outline's area.

    Parameters
    ----------
    views : poses and outlines.
    field : of the same views.
    tolerance_mm : how deep a point may be carved and still count as left [mm].
    pixel_steps : side of the pixels that are asked, in steps of the grid; below about 1.2 points leave gaps.

    Source: our own.
    """
    count = len(views.cameras)
    own, blamed = np.zeros(count), np.zeros(count)
    for n in range(count):
        area = _missing_of(
            blamed, n, field.first, field.who, field.grid.origin, field.grid.step_mm, views.cameras[n],
            views.boxes[n], views.signed, tolerance_mm, pixel_steps,
        )  # fmt: skip
        own[n] = area
    return own, blamed


@nb.njit(cache=True)
def _missing_of(
    blamed: Any, own: int, first: Any, who: Any, origin: Any, step: float, camera: Any, box: Any, signed: Any,
    tolerance: float, steps: float,
) -> float:  # fmt: skip
    """Splat every point not far out on coarse pixels of one photo, keep the least carved of each; share without one."""
    nx, ny, nz = first.shape
    middle = origin + 0.5 * step * np.array([nx, ny, nz])
    _, _, depth = pixel_of(camera, middle[0], middle[1], middle[2])
    pitch = steps * step * camera[FOCAL] / max(depth, 1.0)
    rows, columns = int(box[ROWS] / pitch) + 1, int(box[COLUMNS] / pitch) + 1
    least = np.full((rows, columns), 1e9)
    whose = np.full((rows, columns), -1, np.int64)
    for i in range(nx):
        for j in range(ny):
            for k in range(nz):
                if first[i, j, k] > FURTHEST_STEPS * step:
                    continue
                px, py, depth = pixel_of(camera, origin[0] + step * i, origin[1] + step * j, origin[2] + step * k)
                row, column = int((py - box[TOP]) / pitch), int((px - box[LEFT]) / pitch)
                if depth > 0 and 0 <= row < rows and 0 <= column < columns and first[i, j, k] < least[row, column]:
                    least[row, column], whose[row, column] = first[i, j, k], who[i, j, k]
    return float(_blame(blamed, own, least, whose, box, signed, tolerance, pitch))


@nb.njit(cache=True)
def _blame(
    blamed: Any, own: int, least: Any, whose: Any, box: Any, signed: Any, tolerance: float, pitch: float
) -> float:
    inside, missing = 0, 0
    for pass_ in range(2):
        for row in range(least.shape[0]):
            for column in range(least.shape[1]):
                i = min(int((row + 0.5) * pitch), box[ROWS] - 1)
                j = min(int((column + 0.5) * pitch), box[COLUMNS] - 1)
                deep = signed[box[FIRST] + i * box[COLUMNS] + j] / PARTS_OF_A_PIXEL
                if pass_ == 0:
                    inside += deep < 0
                elif deep < -pitch and least[row, column] > tolerance:
                    missing += 1
                    if whose[row, column] >= 0 and whose[row, column] != own:
                        blamed[whose[row, column]] += 1.0 / inside
    return missing / max(1, inside)
