"""What a sheet must stay outside of: the body, and for its pulled edge all that it must still clear."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.field import Sampled

Floats = NDArray[np.float64]

WAYS = 48
"""Level directions in which what is above is measured: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class Obstacle:
    """A body as its signed distance [mm] at the points `origin + step * (i, j, k)`, and for every layer k how far all
    that is at that height or above it reaches along each of `WAYS` level directions [mm]."""

    field: Floats
    origin: Floats
    step: float
    reach: Floats


def obstacle_of(sampled: Sampled) -> Obstacle:
    """A sampled body as an obstacle.

    Parameters
    ----------
    sampled : signed distance, negative inside [mm].

    Source: our own.
    """
    field = np.asarray(sampled.field, dtype=np.float64)
    grid = sampled.grid
    ways = level_ways()
    along = ways[:, 0, None, None] * grid.axis(0)[:, None] + ways[:, 1, None, None] * grid.axis(1)[None, :]
    reach = np.full((grid.shape[2], WAYS), -np.inf)
    for k in range(grid.shape[2]):
        inside = field[:, :, k] < 0
        if inside.any():
            reach[k] = (along - field[None, :, :, k])[:, inside].max(axis=1)
    above = np.maximum.accumulate(reach[::-1], axis=0)[::-1]
    return Obstacle(field, grid.origin, grid.step_mm, np.ascontiguousarray(above))


def level_ways() -> Floats:
    """(WAYS, 2) level directions, evenly.

    Source: our own.
    """
    turns = 2 * np.pi * np.arange(WAYS) / WAYS
    return np.stack([np.cos(turns), np.sin(turns)], axis=1)


@nb.njit(cache=True, inline="always")
def away(field: Any, origin: Any, step: float, px: float, py: float, pz: float) -> Any:
    """Distance to the body at a point and its gradient, by trilinear interpolation; far outside the grid."""
    u, v, w = (px - origin[0]) / step, (py - origin[1]) / step, (pz - origin[2]) / step
    i, j, k = int(np.floor(u)), int(np.floor(v)), int(np.floor(w))
    if i < 0 or j < 0 or k < 0 or i >= field.shape[0] - 1 or j >= field.shape[1] - 1 or k >= field.shape[2] - 1:
        return 1e9, 0.0, 0.0, 0.0
    u, v, w = u - i, v - j, w - k
    a, b = field[i, j, k], field[i + 1, j, k]
    c, d = field[i, j + 1, k], field[i + 1, j + 1, k]
    e, f = field[i, j, k + 1], field[i + 1, j, k + 1]
    g, h = field[i, j + 1, k + 1], field[i + 1, j + 1, k + 1]
    ab, cd, ef, gh = a + (b - a) * u, c + (d - c) * u, e + (f - e) * u, g + (h - g) * u
    low, high = ab + (cd - ab) * v, ef + (gh - ef) * v
    gx = ((b - a) * (1 - v) + (d - c) * v) * (1 - w) + ((f - e) * (1 - v) + (h - g) * v) * w
    gy = (cd - ab) * (1 - w) + (gh - ef) * w
    return low + (high - low) * w, gx / step, gy / step, (high - low) / step


@nb.njit(cache=True)
def keep_out(x: Any, v: Any, faces: Any, within: Any, field: Any, origin: Any, step: float) -> float:
    """Moves corners, and triangles by their middles, out of the body and stops what moves in; how much
    deeper than that a middle lay inside before [mm].

    Parameters
    ----------
    x, v : (n, 3) places [mm] and speeds, changed.
    faces : (m, 3). within : (m,) how far each one's middle may lie inside [mm], see `middles`.
    field, origin, step : see `Obstacle`.
    """
    for n in range(x.shape[0]):
        far, gx, gy, gz = away(field, origin, step, x[n, 0], x[n, 1], x[n, 2])
        if far < 0.0:
            _push(x, v, n, far, gx, gy, gz)
    deepest = 0.0
    for n in range(faces.shape[0]):
        i, j, k = faces[n, 0], faces[n, 1], faces[n, 2]
        px = (x[i, 0] + x[j, 0] + x[k, 0]) / 3
        py = (x[i, 1] + x[j, 1] + x[k, 1]) / 3
        pz = (x[i, 2] + x[j, 2] + x[k, 2]) / 3
        far, gx, gy, gz = away(field, origin, step, px, py, pz)
        far += within[n]
        deepest = max(deepest, -far)
        if far < 0.0:
            for m in (i, j, k):
                _push(x, v, m, far, gx, gy, gz)
    return deepest


@nb.njit(cache=True)
def middles(x: Any, faces: Any, field: Any, origin: Any, step: float, within: Any) -> None:
    """Sets `within` (m,) to how far each triangle's middle lies inside the body, its corners on the surface.

    Parameters
    ----------
    x, faces : the sheet where it fits. field, origin, step : see `Obstacle`.
    within : changed [mm].
    """
    for n in range(faces.shape[0]):
        i, j, k = faces[n, 0], faces[n, 1], faces[n, 2]
        p = (x[i] + x[j] + x[k]) / 3
        far, _, _, _ = away(field, origin, step, p[0], p[1], p[2])
        within[n] = max(0.0, -far)


@nb.njit(cache=True, inline="always")
def _push(x: Any, v: Any, n: int, far: float, gx: float, gy: float, gz: float) -> None:
    square = gx * gx + gy * gy + gz * gz
    if square < 1e-4:
        return
    by = -far / square
    x[n, 0] += by * gx
    x[n, 1] += by * gy
    x[n, 2] += by * gz
    inward = (v[n, 0] * gx + v[n, 1] * gy + v[n, 2] * gz) / square
    if inward < 0.0:
        v[n, 0] -= inward * gx
        v[n, 1] -= inward * gy
        v[n, 2] -= inward * gz


@nb.njit(cache=True)
def clear(x: Any, v: Any, edge: Any, z: float, short: float, reach: Any, ways: Any, origin: Any, step: float) -> float:
    """Holds the pulled edge at height z and outside of the hull of all that is above, less `short`; by how much it
    was moved outward at most [mm].

    Parameters
    ----------
    x, v : (n, 3) places [mm] and speeds, changed.
    edge : numbers of its corners.
    z : its height [mm].
    short : by how much it may still lie within [mm].
    reach, origin, step : see `Obstacle`; ways : see `level_ways`.
    """
    layer = max(int(np.floor((z - origin[2]) / step)), 0)
    moved = 0.0
    for n in edge:
        x[n, 2] = z
        v[n, 2] = 0.0
        if layer >= reach.shape[0] or reach[layer, 0] == -np.inf:
            continue
        over, which = -np.inf, 0
        for m in range(ways.shape[0]):
            by = x[n, 0] * ways[m, 0] + x[n, 1] * ways[m, 1] - reach[layer, m]
            if by > over:
                over, which = by, m
        out = -over - short
        if out > 0.0:
            moved = max(moved, out)
            inward = min(v[n, 0] * ways[which, 0] + v[n, 1] * ways[which, 1], 0.0)
            for axis in range(2):
                x[n, axis] += out * ways[which, axis]
                v[n, axis] -= inward * ways[which, axis]
    return moved
