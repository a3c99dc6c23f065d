"""How far points lie in under what overhangs them, seen along a direction."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import Rays

Points = NDArray[np.float64]
OFF_MM = 0.02
"""A ray begins so far off its surface: far above single precision, far below a scan's."""


@dataclass(frozen=True, slots=True, eq=False)
class _Tops:
    """The body's farthest reach along a direction on a grid square to it; nothing there: minus infinity."""

    right: Points
    up: Points
    low: Points
    height: NDArray[np.float64]
    step_mm: float


def overhung_mm(body: Mesh, points: Points, normals: Points, direction: Points, step_mm: float) -> Points:
    """(n,) how far each point must go sideways, square to a direction, until nothing bars its way along it [mm].

    0 where nothing bars it from the start. Places that it could go to are tried on a grid: the result is too large by a
    step and a half at most, and never too small by more than that.

    Parameters
    ----------
    body : what is in the way, closed [mm].
    points : (n, 3) on or off the body [mm].
    normals : (n, 3) outward unit vectors at the points.
    direction : (3,) unit vector of the way out.
    step_mm : spacing of the places that are tried [mm], > 0.

    Source: our own.
    """
    found = np.zeros(len(points))
    rays = Rays([body])
    barred = np.flatnonzero(rays.first_hits(points + OFF_MM * normals, direction).solid >= 0)
    if len(barred):
        tops, mine = _tops(body, rays, direction, step_mm), points[barred]
        u, v = (mine @ tops.right - tops.low[0]) / step_mm, (mine @ tops.up - tops.low[1]) / step_mm
        steps = np.empty(len(mine))
        _search(u, v, mine @ direction, tops.height, _offsets(max(tops.height.shape)), steps)
        found[barred] = steps * step_mm
    return found


def _tops(body: Mesh, rays: Rays, direction: Points, step_mm: float) -> _Tops:
    right = np.cross(direction, np.eye(3)[np.argmin(np.abs(direction))])
    right /= np.linalg.norm(right)
    up = np.cross(direction, right)
    flat = np.stack([body.vertices @ right, body.vertices @ up], axis=1)
    low = flat.min(axis=0) - 2 * step_mm
    wide, tall = (int(np.ceil(span / step_mm)) + 3 for span in np.ptp(flat, axis=0) + 2 * step_mm)
    reach = body.vertices @ direction
    top = float(reach.max()) + 1.0
    u, v = np.meshgrid(low[0] + step_mm * np.arange(wide), low[1] + step_mm * np.arange(tall), indexing="ij")
    origins = u.reshape(-1, 1) * right + v.reshape(-1, 1) * up + top * direction
    away = rays.first_hits(origins, -direction).distance_mm.astype(np.float64)
    return _Tops(right, up, low, (top - away).reshape(wide, tall), step_mm)


def _offsets(reach: int) -> NDArray[np.int32]:
    """Steps to all places of a grid, the nearest first."""
    one = np.arange(-reach, reach + 1, dtype=np.int32)
    i, j = np.meshgrid(one, one, indexing="ij")
    order = np.argsort(i.ravel() ** 2 + j.ravel() ** 2, kind="stable")
    return np.stack([i.ravel()[order], j.ravel()[order]], axis=1)


@nb.njit(cache=True)
def _search(u: Any, v: Any, height: Any, tops: Any, offsets: Any, out: Any) -> None:
    """The nearest place from which a point's height looks out over the body [steps]."""
    wide, tall = tops.shape
    for n in range(u.shape[0]):
        a, b = int(np.rint(u[n])), int(np.rint(v[n]))
        best = 1e18
        for k in range(offsets.shape[0]):
            di, dj = offsets[k, 0], offsets[k, 1]
            nearest = np.sqrt(float(di * di + dj * dj)) - 0.71
            if nearest > 0.0 and nearest * nearest >= best:
                break
            i, j = a + di, b + dj
            if i < 0 or j < 0 or i >= wide or j >= tall or tops[i, j] > height[n]:
                continue
            best = min(best, (i - u[n]) ** 2 + (j - v[n]) ** 2)
        out[n] = np.sqrt(best)
