"""What a sheet must stay outside of: the body, and for its pulled edge all that it must still clear."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.field import Sampled

Floats = NDArray[np.float64]

WAYS = 48
"""Level directions in which what is above is measured: our own."""
SPREADS = 1.0
"""Hands spread the edge aslant, outward as much as upward: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class Obstacle:
    """What the sheet is drawn off.

    field : its signed distance [mm] at the points `origin + step * (i, j, k)`.
    reach : for every layer k how far out the edge is held there along each of `WAYS` level directions, so that it
        clears all that is at that height or above [mm]: outward by `SPREADS` for each millimeter that it still rises.
    """

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
    for k in range(grid.shape[2] - 2, -1, -1):
        reach[k] = np.maximum(reach[k], reach[k + 1] - SPREADS * grid.step_mm)
    return Obstacle(field, grid.origin, grid.step_mm, reach)


def level_ways() -> Floats:
    """(WAYS, 2) level directions, evenly.

    Source: our own.
    """
    turns = 2 * np.pi * np.arange(WAYS) / WAYS
    return np.stack([np.cos(turns), np.sin(turns)], axis=1)
