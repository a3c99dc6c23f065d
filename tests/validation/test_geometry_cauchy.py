"""Integral geometry: Cauchy's mean projected area and the Cauchy-Crofton formula.

The mean projected area of a convex body over all directions is a quarter of its surface: 1.5 for the unit cube, pi r^2
for a ball. The weights of cut links are Lindblad's, whose estimate of a border errs by a few percent by its
orientation.
"""

from __future__ import annotations

import numpy as np
import pytest

from moldwright.geometry.cut import _half_neighbors
from moldwright.geometry.directions import hull_normals, upper_directions
from moldwright.geometry.shadow import binary_shadow

SOURCE = (
    "A. Cauchy, Memoire sur la rectification des courbes et la quadrature des surfaces courbes (1832; from memory)",
    "Lindblad, Surface area estimation of digitized 3D objects (2005; from memory)",
)


def test_the_86_directions_are_even_enough_for_cauchy() -> None:
    """Mean of the cube's projected area |x| + |y| + |z| over the directions; 0.5 % for 86 instead of all."""
    normals = hull_normals()
    assert np.linalg.norm(normals, axis=1) == pytest.approx(1.0)
    assert float(np.abs(normals).sum(axis=1).mean()) == pytest.approx(1.5, rel=0.005)


def test_a_digital_shadow_has_the_projected_area() -> None:
    """A ball of radius 20 steps hides, far below it, pi r^2 of the ground's area |d_a| r^2: a quarter of 4 pi r^2.

    Counted on the first slice along the line's axis: cells = pi r^2 / |d_axis|. 3 %: cells are counted whole and the
    line's steps are rounded.
    """
    n, r = 121, 20.0
    x = np.arange(n) - n // 2
    inside = (x[:, None, None] ** 2 + x[None, :, None] ** 2 + x[None, None, :] ** 2) <= r**2
    for direction in upper_directions(8, (0, 36)):
        axis = int(np.argmax(np.abs(direction)))
        if 60 * np.abs(np.delete(direction, axis)).max() / abs(direction[axis]) > 60 - r - 2:
            continue
        shadow = np.moveaxis(binary_shadow(inside, direction), axis, 0)
        first = shadow[0 if direction[axis] > 0 else -1]
        assert float(first.sum()) == pytest.approx(np.pi * r**2 / abs(direction[axis]), rel=0.03)


def test_cut_links_measure_the_area_of_a_sphere() -> None:
    """Area of the border that separates a ball of radius 20 steps from the rest: 4 pi r^2 within 2 %."""
    n, r = 52, 20.0
    x = np.arange(n) - n / 2 + 0.27
    inside = (x[:, None, None] ** 2 + x[None, :, None] ** 2 + x[None, None, :] ** 2) <= r**2
    area = sum(
        weight * float((np.roll(inside, [-s for s in step], (0, 1, 2)) != inside).sum())
        for step, weight in _half_neighbors()
    )
    assert area == pytest.approx(4 * np.pi * r**2, rel=0.02)
