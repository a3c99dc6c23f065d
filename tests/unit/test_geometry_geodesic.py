"""Sides of triangles before their edges are flipped; the ways themselves: `tests/validation/test_mold_peel.py`."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.geodesic import mollified


def test_sides_of_flat_triangles_are_made_a_little_longer() -> None:
    """A triangle of 3, 4 and 7 has no area: flips of intrinsic edges would never end."""
    sides = np.array([[3.0, 4.0, 7.0], [3.0, 4.0, 5.0]])
    made = mollified(sides)
    assert (made.sum(axis=1) - 2.0 * made.max(axis=1) > 0.0).all()
    assert np.allclose(made, sides, atol=1e-3)
