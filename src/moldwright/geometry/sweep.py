"""What a ball sweeps on a grid: how far each point is from the nearest of the points where its middle may be."""

from __future__ import annotations

from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.sign import Mask

FAR_STEPS = np.uint16(np.iinfo(np.uint16).max)
"""Squared distance of what is out of reach [steps^2]."""


def squared_steps_to(middles: Mask, reach_steps: float) -> NDArray[np.uint16]:
    """Squared distance of every point to the nearest marked one, in steps; `FAR_STEPS` out of reach.

    The grid counts as continued below its lowest layer, as a standing body is.

    Parameters
    ----------
    middles : (x, y, z) the marked points.
    reach_steps : how far is looked, in steps, 0 to 250.

    Source: our own.
    """
    most = int(reach_steps)
    axis = np.arange(-most, most + 1)
    offsets = np.stack(np.meshgrid(axis, axis, axis, indexing="ij"), axis=-1).reshape(-1, 3)
    squared = (offsets**2).sum(axis=1)
    near = squared <= reach_steps**2
    found = np.full(middles.shape, FAR_STEPS, np.uint16)
    _stamp(middles, offsets[near], squared[near].astype(np.uint16), found)
    return found


@nb.njit(cache=True)
def _inside(marked: Any, i: int, j: int, k: int) -> Any:
    """Whether all six neighbors are marked, those below the lowest layer with it."""
    sx, sy, sz = marked.shape
    if i == 0 or j == 0 or i == sx - 1 or j == sy - 1 or k == sz - 1:
        return False
    below = k == 0 or marked[i, j, k - 1]
    return (
        below
        and marked[i - 1, j, k]
        and marked[i + 1, j, k]
        and marked[i, j - 1, k]
        and marked[i, j + 1, k]
        and marked[i, j, k + 1]
    )


@nb.njit(cache=True)
def _stamp(marked: Any, offsets: Any, squared: Any, found: Any) -> None:
    """Every marked point is at 0; those on the border of the marked ones tell all points about them."""
    sx, sy, sz = marked.shape
    for i in range(sx):
        for j in range(sy):
            for k in range(sz):
                if not marked[i, j, k]:
                    continue
                found[i, j, k] = 0
                if _inside(marked, i, j, k):
                    continue
                for n in range(len(squared)):
                    x, y, z = i + offsets[n, 0], j + offsets[n, 1], k + offsets[n, 2]
                    if 0 <= x < sx and 0 <= y < sy and 0 <= z < sz and squared[n] < found[x, y, z]:
                        found[x, y, z] = squared[n]
