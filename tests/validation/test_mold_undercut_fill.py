"""Undercut fill of bare cores in closed form, by hand; each test names its body's formula (a sphere of center height c
drawn straight up: pi c^3 / 3 for c <= r, and so on). No other source.

A core stands on the board without flange or bridged crevices; a rigid piece drawn along a direction needs all space
filled that the core hides along it. Tolerance 3 % at a step of 1 mm (the project's figure); where 0 is expected,
<= 0.3 ml, since the search for the seam works on a coarser grid.
"""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from mold_packing import packed_ml
from mold_splits import ACROSS_X

SOURCE = ("Solids of revolution and prisms in closed form; by hand",)

UP = np.array([[0.0, 0.0, 1.0]])
TOOTH, WIDE = 41.0, 18.0


def fill_ml(solid: m3.Manifold, draws: np.ndarray) -> float:
    return packed_ml(bodies.mesh(solid), draws)


def sphere(radius: float, center: float) -> m3.Manifold:
    return bodies.ball(radius, 128, (0, 0, center)).trim_by_plane((0, 0, 1), 0)


def grooved() -> m3.Manifold:
    """A cylinder of radius 40 with a ring groove down to radius 28, 18 mm high."""
    groove = bodies.cone(50, 50, 18, 128) - bodies.cone(28, 28, 18, 128)
    return bodies.cone(40, 40, 80, 128) - groove.translate((0, 0, 31))


def blind_holes() -> m3.Manifold:
    """A cylinder of radius 42, 100 high, with four square holes from |x|, |y| = 21 outward, z 41 to 59."""
    core = bodies.cone(42, 42, 100, 128)
    tool = m3.Manifold.cube((30, WIDE, WIDE), False).translate((21, -WIDE / 2, TOOTH))
    for turn in range(4):
        core -= tool.rotate((0, 0, 90 * turn))
    return core


def test_a_cone_needs_none() -> None:
    assert abs(fill_ml(bodies.cone(40, 5, 80, 96), UP)) <= 0.3
    assert abs(fill_ml(bodies.cone(40, 5, 80, 96), ACROSS_X)) <= 0.3


@pytest.mark.parametrize(("radius", "center"), [(40.0, 40.0), (40.0, 25.0)])
def test_a_sphere_drawn_up_needs_the_space_under_its_equator(radius: float, center: float) -> None:
    """pi c^3 / 3 for c <= r: the cylinder below the equator less the sphere's part there."""
    assert fill_ml(sphere(radius, center), UP) == pytest.approx(np.pi * center**3 / 3 / 1000, rel=0.03)


def test_a_sphere_in_two_pieces_needs_none() -> None:
    assert abs(fill_ml(sphere(40, 40), ACROSS_X)) <= 0.3


def test_a_ring_groove() -> None:
    """Drawn up, the groove itself: pi (40^2 - 28^2) 18 = 46.14 ml; in two pieces none."""
    assert fill_ml(grooved(), UP) == pytest.approx(46.14, rel=0.03)
    assert abs(fill_ml(grooved(), ACROSS_X)) <= 0.3


def test_four_blind_holes() -> None:
    """One piece drawn up 26.80 ml; two drawn along +-x fill the two holes along y: 12.98 ml; a third along +y leaves
    one of them, 6.49 ml; a fourth along -y none."""
    assert fill_ml(blind_holes(), UP) == pytest.approx(26.80, rel=0.03)
    assert fill_ml(blind_holes(), ACROSS_X) == pytest.approx(12.98, rel=0.03)
    assert fill_ml(blind_holes(), np.array([[1.0, 0, 0], [-1.0, 0, 0], [0, 1.0, 0]])) == pytest.approx(6.49, rel=0.03)
    assert abs(fill_ml(blind_holes(), np.array([[1.0, 0, 0], [-1.0, 0, 0], [0, 1.0, 0], [0, -1.0, 0]]))) <= 0.3
