"""Where a bowl could hide: wide, level tops of a hull, of which outlines show no more than the rim."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.mesh import Mesh
from moldwright.photos.ask import Ask, AskKind

LEVEL_COSINE = 0.9
CELLS = 96
LEAST_ACROSS = 0.22
DEEPEST_SHARE = 0.8
MOST_ASKS = 3


def bowls(hull: Mesh) -> tuple[Ask, ...]:
    """Level tops so wide that a bowl in one of them would matter, the widest first.

    Parameters
    ----------
    hull : closed, on the board z = 0 [mm].

    Source: our own.
    """
    low, high = hull.bounds_mm
    step = float(max(high - low)) / CELLS
    top, level = _seen_from_above(hull, low, step)
    labels, count = ndimage.label(level)
    asks = [_ask(labels == n, top, low, step) for n in range(1, count + 1)]
    wide = [one for one in asks if one.across_mm >= LEAST_ACROSS * float(max(high - low))]
    return tuple(sorted(wide, key=lambda one: -one.most_ml)[:MOST_ASKS])


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


def _ask(place: NDArray[np.bool_], top: NDArray[np.float64], low: NDArray[np.float64], step: float) -> Ask:
    """What a bowl in one level place could hold: as wide as the ball that fits in it, nearly down to the board."""
    room = ndimage.distance_transform_edt(np.pad(place, 1))[1:-1, 1:-1]
    at = np.unravel_index(int(np.argmax(room)), room.shape)
    radius = float(room[at]) * step
    z = float(top[at])
    x, y = (float(low[axis] + (at[axis] + 0.5) * step) for axis in (0, 1))
    deep = min(DEEPEST_SHARE * z, radius)
    most = np.pi * deep * (3 * radius**2 + deep**2) / 6
    return Ask(
        AskKind.BOWL, (round(x, 1), round(y, 1), round(z, 1)), round(2 * radius, 1), round(float(most) / 1000, 1)
    )
