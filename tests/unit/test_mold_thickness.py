"""The finished glove's thickness against closed forms: balls in balls, a cone on the board, a prism."""

from __future__ import annotations

import math

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from sheets_fixture import ball

from moldwright.geometry.mesh import Mesh
from moldwright.mold.thickness import foot_of, sampled_mm, thickness_of

ORDERED_MM = 4.0


def standing_ball(radius_mm: float, up_mm: float, aside_mm: float = 0.0) -> Mesh:
    return ball(radius_mm, 5).moved((aside_mm, 0.0, up_mm))


def gloved_ball(aside_mm: float) -> tuple[Mesh, Mesh]:
    """A ball of 20 mm on a post, in one of 25 mm that stands aside, and a flange 4 mm thick."""
    post = m3.Manifold.cylinder(60.0, 8.0, 8.0, 96)
    body = post + bodies.solid(standing_ball(20.0, 60.0))
    walls = m3.Manifold.cylinder(60.0, 12.5, 12.5, 96) + bodies.solid(standing_ball(25.0, 60.0, aside_mm))
    flange = m3.Manifold.cylinder(ORDERED_MM, 50.0, 50.0, 96)
    return bodies.mesh(walls + flange), bodies.mesh(body)


def test_two_balls_leave_what_their_radii_and_their_middles_leave() -> None:
    """25 - 20 - 1.5 = 3.5 mm at the ball's left, 25 - 20 + 1.5 = 6.5 at its right; corners of an icosphere are on it,
    its faces up to 0.03 mm inside."""
    gloved, body = gloved_ball(1.5)
    found = thickness_of(gloved, body, ORDERED_MM, 0.0)
    assert found.least.mm == pytest.approx(3.5, abs=0.05)
    assert found.least.at == pytest.approx((-23.5, 0.0, 60.0), abs=1.5)
    assert found.most.mm == pytest.approx(6.5, abs=0.05)
    assert found.thin
    assert (found.foot, found.runs_out) == (None, False)


def test_a_glove_as_thick_as_ordered_is_not_thin() -> None:
    gloved, body = gloved_ball(0.0)
    found = thickness_of(gloved, body, ORDERED_MM, 1.0)
    assert found.least.mm == pytest.approx(ORDERED_MM, abs=0.01), "the flange, straight down to the board"
    assert not found.thin


@pytest.mark.parametrize("degrees", [20.0, 45.0])
def test_under_a_cone_that_stands_on_its_tip_the_rubber_runs_out(degrees: float) -> None:
    """A frustum that widens upward, its side so many degrees over the board: straight out from the side there is less
    than 4 mm to the board up to the height 4 cos(a), which is 4 / tan(a) along it; the area is that of a frustum's
    side."""
    a = math.radians(degrees)
    slope_mm, foot_mm = 60.0, 30.0
    high, wide = slope_mm * math.sin(a), slope_mm * math.cos(a)
    body = bodies.mesh(m3.Manifold.cylinder(high, foot_mm, foot_mm + wide, 720).refine_to_length(0.5))
    found = foot_of(body, ORDERED_MM)
    reach = ORDERED_MM / math.tan(a)
    assert found is not None
    assert found.reach_mm == pytest.approx(reach, abs=0.4)
    wider = foot_mm + reach * math.cos(a)
    assert found.area_mm2 == pytest.approx(math.pi * (foot_mm + wider) * reach, rel=0.05)


def test_nothing_runs_out_under_upright_walls() -> None:
    assert foot_of(bodies.mesh(m3.Manifold.cylinder(40.0, 30.0, 30.0, 96)), ORDERED_MM) is None
    assert foot_of(bodies.mesh(m3.Manifold.cylinder(40.0, 30.0, 20.0, 96)), ORDERED_MM) is None


def test_what_sampling_takes_is_a_chord_s_sagitta() -> None:
    """Closed form: r - sqrt(r^2 - c^2 / 4), to its first order c^2 / (8 r): along an edge of the grid and over its
    diagonal."""
    t, h = 4.0, 0.2
    exact = sum(t - math.sqrt(t * t - c * c / 4) for c in (h, math.sqrt(3) * h))
    assert sampled_mm(t, h) == pytest.approx(exact, rel=1e-3)
    assert np.isclose(sampled_mm(t, 2 * h), 4 * sampled_mm(t, h))
