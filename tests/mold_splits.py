"""Cores parted in the plane x = 0, without a search."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh
from moldwright.mold.split import CoarseSplit

ACROSS_X = np.array([[1.0, 0.0, 0.0], [-1.0, 0.0, 0.0]])
"""The draws of two pieces that part at a plane x."""


def parted(grid: Grid, draws: np.ndarray = ACROSS_X) -> CoarseSplit:
    """The points with x > 0 go to the first piece, all others to the second."""
    labels = np.ones(grid.shape, np.int8)
    labels[grid.axis(0) > 0] = 0
    return CoarseSplit(draws, grid, labels, 0.0, 0.0)


def outline_of(core: Mesh) -> np.ndarray:
    """The rectangle that a core takes up on the board."""
    (left, front), (right, back) = (corner[:2] for corner in core.bounds_mm)
    return np.array([[left, front], [right, front], [right, back], [left, back]])
