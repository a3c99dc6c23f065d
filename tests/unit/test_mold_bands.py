"""What a piece of a shell covers, band by band, and that it stands beyond the rubber's edge."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh
from moldwright.mold.bands import bands_of


def cylinder(radius_mm: float, height_mm: float, around: int = 720, rings: int = 30) -> Mesh:
    """The wall of a cylinder on the board and its flat top."""
    turn = np.arange(around) * 2 * np.pi / around
    ring = np.stack([radius_mm * np.cos(turn), radius_mm * np.sin(turn)], axis=1)
    points = [np.column_stack([ring, np.full(around, z)]) for z in np.linspace(0.0, height_mm, rings + 1)]
    faces, top = [], around * (rings + 1)
    for k in range(around):
        m = (k + 1) % around
        for j in range(rings):
            a, b, c, d = j * around + k, j * around + m, (j + 1) * around + k, (j + 1) * around + m
            faces += [(a, b, d), (a, d, c)]
        faces.append((rings * around + k, rings * around + m, top))
    return Mesh(np.concatenate([*points, [[0.0, 0.0, height_mm]]]), np.array(faces, np.int32))


def test_half_a_cylinder() -> None:
    """pi r round and 2 pi r h / 2 of wall for each half; the flat top counts for the last band."""
    grid = Grid((-60.0, -60.0, -4.0), 4.0, (31, 31, 40))
    away = np.broadcast_to(grid.axis(0)[:, None, None] + 1e-3, grid.shape).astype(np.float32)
    both = bands_of(cylinder(50.0, 120.0), (away, -away), grid, 4.0)
    assert len(both) == 2
    for bands in both:
        walls = bands[1:10]
        assert [band.girth_mm for band in walls] == pytest.approx([pi * 50.0] * 9, rel=2e-3)
        assert sum(band.area_mm2 for band in bands) == pytest.approx(pi * 50.0 * 116.0 + pi * 50.0**2 / 2, rel=2e-2)
