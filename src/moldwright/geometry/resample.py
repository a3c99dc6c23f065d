"""Fields carried from one grid to another by trilinear interpolation."""

from __future__ import annotations

from typing import Any

import numba as nb
import numpy as np

from moldwright.geometry.field import Sampled
from moldwright.geometry.grid import Field, Grid


@nb.njit(cache=True)
def _trilinear(source: Any, start: Any, ratio: float, out: Any) -> None:
    sx, sy, sz = source.shape
    for i in range(out.shape[0]):
        x = min(max(start[0] + ratio * i, 0.0), sx - 1.001)
        a = int(x)
        u = np.float32(x - a)
        for j in range(out.shape[1]):
            y = min(max(start[1] + ratio * j, 0.0), sy - 1.001)
            b = int(y)
            v = np.float32(y - b)
            for k in range(out.shape[2]):
                z = min(max(start[2] + ratio * k, 0.0), sz - 1.001)
                c = int(z)
                w = np.float32(z - c)
                low = (source[a, b, c] * (1 - u) + source[a + 1, b, c] * u) * (1 - v) + (
                    source[a, b + 1, c] * (1 - u) + source[a + 1, b + 1, c] * u
                ) * v
                high = (source[a, b, c + 1] * (1 - u) + source[a + 1, b, c + 1] * u) * (1 - v) + (
                    source[a, b + 1, c + 1] * (1 - u) + source[a + 1, b + 1, c + 1] * u
                ) * v
                out[i, j, k] = low * (1 - w) + high * w


def resampled(source: Sampled, grid: Grid) -> Field:
    """The field at the points of another grid; beyond its own grid the nearest border value holds.

    Parameters
    ----------
    source : a field with its grid.
    grid : where its values are wanted.

    Source: trilinear interpolation.
    """
    start = (grid.origin - source.grid.origin) / source.grid.step_mm
    out = np.empty(grid.shape, np.float32)
    _trilinear(np.ascontiguousarray(source.field), start, grid.step_mm / source.grid.step_mm, out)
    return out
