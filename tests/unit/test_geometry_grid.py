"""Points of one grid at those of another, against the nearest of all points by their distance; no other source."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.grid import Grid


def test_each_point_of_another_grid_has_its_nearest() -> None:
    grid, other = Grid((0.0, -3.0, 1.0), 2.0, (3, 4, 2)), Grid((-1.7, -2.5, 0.4), 1.3, (6, 7, 4))
    found = np.arange(24).reshape(grid.shape)[grid.nearest_to(other)]
    points = grid.at(np.argwhere(np.ones(grid.shape)))
    apart = np.linalg.norm(other.at(np.argwhere(np.ones(other.shape)))[:, None] - points[None], axis=2)
    assert found.shape == other.shape
    assert np.array_equal(found.ravel(), apart.argmin(axis=1))
