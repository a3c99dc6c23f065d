"""Where a bowl could hide: wide, level tops of a hull, of which outlines show no more than the rim."""

from __future__ import annotations

from dataclasses import astuple, dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.mesh import Mesh
from moldwright.photos.ask import Ask, AskKind, AskName

LEVEL_COSINE = 0.9
CELLS, CELL_STEPS = 96, 1.6
"""Cells along the longest side, but none so small that no triangle has its middle there: our own."""
LEAST_ACROSS = 0.22
DEEPEST_SHARE, NEARLY_WIDEST = 0.8, 0.97


@dataclass(frozen=True, slots=True)
class _Place:
    """A level top: where [mm], how wide [mm], what a bowl there could hold [ml]."""

    at_mm: tuple[float, float, float]
    across_mm: float
    most_ml: float


def bowls(hull: Mesh, fine_mm: float) -> tuple[Ask, ...]:
    """Level tops so wide that a bowl in one of them would matter, the widest first.

    Parameters
    ----------
    hull : closed, on the board z = 0 [mm].
    fine_mm : about as large as its triangles [mm].

    Source: our own.
    """
    low, high = hull.bounds_mm
    step = max(float(max(high - low)) / CELLS, CELL_STEPS * fine_mm)
    top, level = _seen_from_above(hull, low, step)
    labels, count = ndimage.label(level)
    places = [_place(labels == n, top, low, step) for n in range(1, count + 1)]
    wide = [one for one in places if one.across_mm >= LEAST_ACROSS * float(max(high - low))]
    widest = sorted(wide, key=lambda one: -one.most_ml)
    return tuple(Ask(name, AskKind.BOWL, *astuple(one)) for name, one in zip(AskName, widest, strict=False))


def _seen_from_above(
    hull: Mesh, low: NDArray[np.float64], step: float
) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    """Highest point over each cell of a grid [mm], and whether the surface is level there."""
    a, b, c = hull.corners.transpose(1, 0, 2)
    normal = np.cross(b - a, c - a)
    length = np.linalg.norm(normal, axis=1)
    middle = (a + b + c) / 3
    facing = (normal[:, 2] > LEVEL_COSINE * length) & (middle[:, 2] > 2 * step)
    up = normal[:, 2] > 0
    cell = ((middle[:, :2] - low[:2]) / step).astype(np.int64)
    shape = tuple(int(n) for n in cell.max(axis=0) + 1)
    top = np.zeros(shape)
    np.maximum.at(top, tuple(cell[up].T), middle[up, 2])
    level = np.zeros(shape, np.bool_)
    highest = middle[:, 2] >= top[tuple(cell.T)] - 0.5 * step
    level[tuple(cell[facing & highest].T)] = True
    return top, level


def _place(place: NDArray[np.bool_], top: NDArray[np.float64], low: NDArray[np.float64], step: float) -> _Place:
    """What a bowl in one level place could hold: a cylinder as wide as the disk that fits in it, nearly to the board.

    Its height is that of the place's rim: outlines from above the rim leave a flat dome on it that is not there.
    """
    room = ndimage.distance_transform_edt(np.pad(place, 1))[1:-1, 1:-1]
    radius = float(room.max()) * step
    middle = _middle(room)
    x, y = (float(low[axis] + (middle[axis] + 0.5) * step) for axis in (0, 1))
    z = float(np.median(top[place & ~ndimage.binary_erosion(np.pad(place, 1))[1:-1, 1:-1]]))
    most = np.pi * radius**2 * DEEPEST_SHARE * z
    at_mm = round(x, 1), round(y, 1), round(z, 1)
    return _Place(at_mm, round(2 * radius, 1), round(float(most) / 1000, 1))


def _middle(room: NDArray[np.float64]) -> tuple[float, float]:
    """Cell of the place's widest room; the middle of a long one."""
    widest, _ = ndimage.label(room >= NEARLY_WIDEST * room.max())
    cells = np.argwhere(widest == widest[np.unravel_index(int(np.argmax(room)), room.shape)])
    return float(cells[:, 0].mean()), float(cells[:, 1].mean())
