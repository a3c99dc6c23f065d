"""Undercuts that are packed down to the smallest that matters, and what is told of each place."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest

from moldwright.mold.bare_fill import undercut_fill_ml
from moldwright.mold.spots import spot_of, spots_of

UP = np.array([[0.0, 0.0, 1.0]])


@pytest.mark.parametrize("side", [6.0, 8.0])
def test_a_small_pocket_is_packed(side: float) -> None:
    """A square blind hole in a post's side, drawn straight up: side^3, within 15 % at a step of 1 mm."""
    post = bodies.box(30, 30, 30) - m3.Manifold.cube((side, side, side)).translate((15 - side, -side / 2, 12.0))
    assert undercut_fill_ml(bodies.mesh(post), UP) == pytest.approx(side**3 / 1000, rel=0.15)


def test_a_cube_is_as_deep_as_it_is_wide() -> None:
    """Seen straight inward 12 mm; volume 12^3, its middle known."""
    found = spot_of(bodies.mesh(bodies.box(12, 12, 12)).moved((1.0, 2.0, 30.0)))
    assert found.depth_mm == pytest.approx(12.0, abs=0.01)
    assert found.volume_ml == pytest.approx(1.728)
    assert found.at == pytest.approx((1.0, 2.0, 36.0))


def test_spots_below_a_tenth_of_a_milliliter_are_left_out() -> None:
    small, large = bodies.mesh(bodies.box(4, 4, 4)), bodies.mesh(bodies.box(6, 6, 6))
    piece = bodies.mesh(bodies.box(30, 30, 40))
    assert [spot.volume_ml for spot in spots_of([large, small], 0.05, piece, 4.0)] == pytest.approx([0.216])
    crevice = spots_of([], 0.3, piece, 4.0)[0]
    assert (crevice.volume_ml, crevice.depth_mm) == (0.3, 3.0)
    assert crevice.at == pytest.approx((0.0, 0.0, 20.0))
