"""Solids that an original could be: their volumes against those asked for, on bodies in closed form."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest

from moldwright.mold.could_be import CouldBe, could_be
from moldwright.mold.mouth import MouthLimits, mount, plinth_plan
from moldwright.plan.doubt import Shape
from moldwright.ranges import Range

VOLUME = Range(0.9, 1.0, 1.05)
WIDE, TALL = 60.0, 90.0
BLOCK_ML = WIDE * WIDE * TALL / 1000.0


def block() -> m3.Manifold:
    return m3.Manifold.cube((WIDE, WIDE, TALL), True).translate((0.0, 0.0, TALL / 2))


@pytest.fixture(scope="module")
def solids() -> dict[Shape, CouldBe]:
    return {each.shape: each for each in could_be(bodies.mesh(block()), 0.0, None, VOLUME)}


def test_each_solid_has_the_volume_that_its_range_allows(solids: dict[Shape, CouldBe]) -> None:
    """Of a block, in closed form; edges are rounded by a step of the grid, 1.4 mm. Recesses go as deep as they may, and
    so take volume off the full solid, no more than the lean one lacks."""
    shares = {shape: solid.volume_ml / BLOCK_ML for shape, solid in solids.items()}
    assert shares[Shape.LIKELY] == pytest.approx(1.0, abs=0.01)
    assert shares[Shape.LEAN] == pytest.approx(0.9, abs=0.015)
    assert shares[Shape.FULL] == pytest.approx(1.05, abs=0.015)
    assert 0.885 <= shares[Shape.HOLLOWED] <= 0.98


def test_recesses_lie_in_flat_sides_and_not_on_edges(solids: dict[Shape, CouldBe]) -> None:
    """A line of sight touches an edge, wherever along it, and passes over a side."""
    inward, full = solids[Shape.HOLLOWED].inward, solids[Shape.FULL].inward
    deep = inward.field - full.field
    x, y, z = (inward.grid.axis(n) for n in range(3))
    low, high = (z > 20.0) & (z < 70.0), np.abs(np.abs(x) - WIDE / 2) < 1.0
    edges = deep[np.ix_(high, np.abs(np.abs(y) - WIDE / 2) < 1.0, low)]
    sides = deep[np.ix_(high, np.abs(y) < 15.0, low)]
    assert edges.size
    assert edges.max() < 0.4 * sides.max()


def test_what_it_stands_on_is_known() -> None:
    """A ball on a plinth: below the ball every solid is the plinth."""
    mounted = mount(bodies.mesh(bodies.ball(30, 96, (0, 0, 29.5)).trim_by_plane((0, 0, 1), 0)), MouthLimits())
    plinth = plinth_plan(mounted)
    assert plinth is not None
    lift_mm = float(mounted.original.bounds_mm[0][2])
    below = bodies.solid(mounted.body).trim_by_plane((0, 0, -1), -lift_mm)
    for solid in could_be(mounted.original, lift_mm, plinth, VOLUME):
        same = bodies.solid(solid.body).trim_by_plane((0, 0, -1), -lift_mm)
        assert same.volume() == pytest.approx(below.volume(), rel=1e-3)  # its outline is told to a hundredth


def test_a_body_on_a_thin_leg_keeps_it() -> None:
    """A tenth of its volume off all over would take a leg of 3 mm away, and leave a ball in the air."""
    leg = m3.Manifold.cylinder(60.0, 3.0, 3.0, 32)
    made = could_be(bodies.mesh(leg + bodies.ball(40.0, 64, (0.0, 0.0, 95.0))), 0.0, None, VOLUME)
    assert [float(each.body.bounds_mm[0][2]) for each in made] == pytest.approx([0.0] * len(made), abs=1e-6)
