"""A block's box, its rubber and what opens it: closed forms of boxes, balls and cones."""

from __future__ import annotations

from math import pi

import manifold3d as m3
import pytest

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import mesh_of
from moldwright.mold.block import block_about, wall_of
from moldwright.mold.opening import locked_upward
from moldwright.mold.slim import slim_of
from moldwright.mold.space import space_about


def box(x_mm: float, y_mm: float, z_mm: float) -> m3.Manifold:
    return m3.Manifold.cube([x_mm, y_mm, z_mm]).translate([-x_mm / 2, -y_mm / 2, 0.0])


def ball_on_stem() -> Mesh:
    """A ball of 40 mm on a stem of 12, 30 high: what hooks lies under the ball."""
    return mesh_of(m3.Manifold.cylinder(40, 6, 6, 64) + m3.Manifold.sphere(20, 64).translate([0, 0, 45]))


def test_a_box_about_a_box() -> None:
    """100 x 40 x 20 with 10 mm of rubber: 120 x 60 x 30 less the box; its walls 2 (120 + 60) x 30."""
    found = block_about(mesh_of(box(100.0, 40.0, 20.0).rotate([0, 0, 30])), 10.0)
    assert (found.length_mm, found.breadth_mm, found.height_mm) == pytest.approx((120.0, 60.0, 30.0), abs=1e-3)
    assert not found.round
    assert found.rubber_ml == pytest.approx(216.0 - 80.0, rel=1e-4)
    assert found.walls_mm2 == pytest.approx(10_800.0, rel=1e-4)


def test_a_tube_about_what_is_round() -> None:
    """A cylinder of 40, 50 high, with 10 mm: a tube of 60, 60 high, less it."""
    found = block_about(mesh_of(m3.Manifold.cylinder(50, 20, 20, 256)), 10.0)
    assert found.round
    assert found.rubber_ml == pytest.approx(pi * (30.0**2 * 60.0 - 20.0**2 * 50.0) / 1000.0, rel=2e-3)
    assert found.walls_mm2 == pytest.approx(pi * 60.0 * 60.0, rel=1e-3)


@pytest.mark.parametrize(("middle_mm", "wall_mm"), [(40.0, 10.0), (150.0, 15.0), (400.0, 25.0)])
def test_walls_grow_with_size_within_bounds(middle_mm: float, wall_mm: float) -> None:
    assert wall_of(mesh_of(box(20.0, middle_mm, 500.0))) == pytest.approx(wall_mm)


def test_what_opens_upward_locks_nothing() -> None:
    cone = mesh_of(m3.Manifold.cylinder(80, 30, 5, 128))
    assert locked_upward(space_about(cone, 10.0, 0.0, 3.0), 3.0).deep_ml < 0.05


def test_a_ball_on_a_stem_locks_under_its_equator() -> None:
    """What hooks reaches up to the equator, 45 mm, and is under the ball and beside the stem:
    no more than the cylinder of 20 about it, 45 high, less stem and lower half of the ball."""
    body = ball_on_stem()
    found = locked_upward(space_about(body, 10.0, 0.0, 2.0), 3.0)
    whole_ml = pi * (20.0**2 * 45.0 - 6.0**2 * 25.0 - 2.0 / 3.0 * 20.0**3) / 1000.0
    assert 0.3 * whole_ml < found.deep_ml < whole_ml
    assert 25.0 < found.upto_mm < 45.0


def test_thin_plates_and_narrow_gaps_by_their_share() -> None:
    """A plate of 2 mm is thin nearly all over; two blocks 2 mm apart have two of their twelve faces at the gap."""
    assert slim_of(mesh_of(box(60.0, 2.0, 60.0))).thin == pytest.approx(60 * 60 * 2 / (60 * 60 * 2 + 4 * 120), abs=0.02)
    apart = mesh_of(box(30.0, 20.0, 20.0).translate([0, -11, 0]) + box(30.0, 20.0, 20.0).translate([0, 11, 0]))
    assert slim_of(apart).gaps == pytest.approx(2 * 30 * 20 / (2 * (2 * 30 * 20 * 2 + 2 * 20 * 20)), abs=0.01)
    assert slim_of(mesh_of(m3.Manifold.sphere(30, 64))) == slim_of(mesh_of(m3.Manifold.sphere(30, 64)))
    assert slim_of(mesh_of(m3.Manifold.sphere(30, 64))).thin == 0.0
