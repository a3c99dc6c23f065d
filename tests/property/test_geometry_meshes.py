"""What makes a mesh a solid, cuts at the board that close again, and through-holes by their known number."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldwright.errors import ComputationFailed
from moldwright.geometry.clip import above_plane, capped, open_edges
from moldwright.geometry.handles import find_handles
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.sign import winding_numbers
from moldwright.geometry.solid import solid_of

BALL = bodies.mesh(bodies.ball(20, 24))


@given(st.integers(0, len(BALL.faces) - 1))
@settings(max_examples=25, deadline=None)
def test_a_missing_or_turned_triangle_is_told(which: int) -> None:
    opened = Mesh(BALL.vertices, np.delete(BALL.faces, which, axis=0))
    assert "open" in opened.why_invalid()
    faces = BALL.faces.copy()
    faces[which] = faces[which][::-1]
    assert "wound" in Mesh(BALL.vertices, faces).why_invalid()
    assert "wound" in Mesh(BALL.vertices, np.concatenate([BALL.faces, BALL.faces[which][None]])).why_invalid()


def test_inside_out_empty_and_not_finite_are_told() -> None:
    assert BALL.why_invalid() == ""
    assert "inside out" in bodies.flipped(BALL).why_invalid()
    assert "no triangles" in Mesh(BALL.vertices, np.zeros((0, 3), np.int32)).why_invalid()
    vertices = BALL.vertices.copy()
    vertices[3, 1] = np.nan
    assert "not numbers" in Mesh(vertices, BALL.faces).why_invalid()


def test_two_closed_bodies_are_still_a_solid() -> None:
    assert bodies.soup(BALL, BALL.moved((60.0, 0.0, 0.0))).why_invalid() == ""


def test_solids_are_refused_open_or_inside_out() -> None:
    with pytest.raises(ComputationFailed) as flipped:
        solid_of(bodies.flipped(BALL))
    assert flipped.value.code == "solid-inside-out"
    with pytest.raises(ComputationFailed) as opened:
        solid_of(Mesh(BALL.vertices, BALL.faces[1:]))
    assert opened.value.code == "solid-not-closed"


SHAPES = {
    "ball": bodies.mesh(bodies.ball(20, 32)),
    "torus on edge": bodies.mesh(bodies.torus(16, 5, 48, 24).rotate((90, 0, 0))),
    "tube": bodies.mesh(bodies.cone(15, 15, 30) - bodies.cone(10, 10, 30)),
    "two feet": bodies.mesh(bodies.box(8, 8, 30).translate((-12, 0, 0)) + bodies.box(8, 8, 30).translate((12, 0, 0))),
}


@given(st.sampled_from(sorted(SHAPES)), st.floats(-12, 12), st.floats(0, 360), st.floats(0, 40))
@settings(max_examples=30, deadline=None)
def test_a_cut_at_the_board_closes(name: str, down: float, turn: float, lean: float) -> None:
    """Cut surface and cap: no open edge, the volume and the winding numbers of the trimmed solid (manifold3d)."""
    whole = bodies.solid(SHAPES[name]).rotate((lean, 0, turn)).translate((0.1, 0.2, down))
    peer = whole.trim_by_plane((0, 0, 1), 0)
    cut = above_plane(bodies.mesh(whole), 0.0)
    if peer.volume() < 1.0:
        return
    closed = capped(cut)
    assert closed.volume_mm3 == pytest.approx(peer.volume(), rel=1e-9, abs=1e-6)
    low, high = bodies.mesh(peer).bounds_mm
    points = np.random.default_rng(5).uniform(low, high, (200, 3))
    peer_mesh = bodies.mesh(peer)
    inside = np.abs(winding_numbers(peer_mesh, points) - 1) < 0.1
    outside = np.abs(winding_numbers(peer_mesh, points)) < 0.1
    found = winding_numbers(closed, points)
    assert (found[inside] > 0.5).all()
    assert (found[outside] < 0.5).all()


def test_a_foot_that_is_a_little_uneven_meets_the_board_flat() -> None:
    body = bodies.mesh(bodies.cone(20, 10, 40, 24))
    rough = body.vertices.copy()
    foot = rough[:, 2] < 1e-9
    rough[foot, 2] += np.random.default_rng(1).uniform(-0.1, 0.1, int(foot.sum()))
    cut = above_plane(Mesh(rough, body.faces), 0.12)
    edges = open_edges(cut)
    assert len(edges) == 24
    assert (cut.vertices[edges, 2] == 0).all()


def test_nothing_below_the_board_stays() -> None:
    cut = above_plane(bodies.mesh(bodies.ball(10, 24, (0, 0, -20))), 0.0)
    assert len(cut.faces) == 0
    assert capped(cut) is cut


def double_torus() -> Mesh:
    one = bodies.torus(16, 5, 64, 32)
    return bodies.mesh(one.translate((-17, 0, 0)) + one.translate((17, 0, 0)))


def test_through_holes_of_known_number_and_place() -> None:
    """Genus 0, 1, 2 (sphere, torus, double torus); the holes' middles and widths are those of the rings' inside."""
    assert find_handles(bodies.mesh(bodies.ball(20, 48)), 0.5) == ()
    (one,) = find_handles(bodies.mesh(bodies.torus(20, 6, 64, 32)), 0.5)
    assert np.linalg.norm(one.at) < 3
    assert one.width_mm == pytest.approx(28, rel=0.15)
    two = sorted(find_handles(double_torus(), 0.5), key=lambda handle: handle.at[0])
    assert len(two) == 2
    for handle, x in zip(two, (-17, 17), strict=True):
        assert np.linalg.norm(np.array(handle.at) - (x, 0, 0)) < 4
        assert handle.width_mm == pytest.approx(22, rel=0.2)


def test_a_hole_is_as_wide_as_the_greatest_ball_that_passes_through() -> None:
    """A ring's hole: 2 (R - r). A frustum through a plate: its small end. A slot, and a bore that meets a wider one
    from below: the narrower. Euclid's geometry; the greatest ball may be 3 % off."""
    plate, up = bodies.box(60, 40, 12), (0, 0, -0.01)
    below = bodies.cone(12, 12, 6, 96).translate(up)
    made = {
        28.0: bodies.torus(20, 6, 96, 48),
        8.0: plate - bodies.cone(12, 4, 12.02, 96).translate(up),
        5.0: plate - bodies.box(30, 5, 30).translate((0, 0, -5)),
        9.0: plate - below - bodies.cone(4.5, 4.5, 30, 96),
    }
    for wide_mm, solid in made.items():
        (hole,) = find_handles(bodies.mesh(solid), 0.05)
        assert hole.width_mm == pytest.approx(wide_mm, rel=0.03)


@pytest.mark.parametrize("solid_mm", [(300, 200, 20, 3), (60, 40, 60, 4), (200, 140, 100, 4), (200, 140, 150, 10)])
@pytest.mark.parametrize("side_mm", [0.0, 3.0])
def test_a_bore_is_found_however_deep_and_however_large_the_triangles(
    solid_mm: tuple[float, float, float, float], side_mm: float
) -> None:
    """A bore through a block, its sides as they are or cut small. Euclid's geometry: a bore of 48 sides is 0.2 %
    narrower than a round one."""
    *block, wide_mm = solid_mm
    bore = bodies.cone(wide_mm / 2, wide_mm / 2, 400, 48).translate((0, 0, -200))
    made = bodies.box(*block).translate((0, 0, -block[2] / 2)) - bore
    (hole,) = find_handles(bodies.mesh(made.refine_to_length(side_mm) if side_mm else made), 0.0)
    assert hole.width_mm == pytest.approx(wide_mm, rel=0.03)
    assert np.linalg.norm(np.array(hole.at)[:2]) < 0.1 * wide_mm


def test_the_narrow_end_of_a_bore_that_widens_counts_however_its_body_is_cut() -> None:
    frustum = bodies.box(60, 40, 12) - bodies.cone(12, 4, 12.02, 96).translate((0, 0, -0.01))
    for coarse_mm in (0.0, 0.05):
        (hole,) = find_handles(bodies.mesh(frustum), coarse_mm)
        assert hole.width_mm == pytest.approx(8.0, rel=0.03)


def test_a_hole_is_as_large_as_the_outline_that_a_sheet_covers() -> None:
    """A ring's hole is round, 28 mm; a slot of 30 by 8 mm through a plate. Euclid's geometry."""
    (ring,) = find_handles(bodies.mesh(bodies.torus(20, 6, 96, 48)), 0.05)
    (slot,) = find_handles(bodies.mesh(bodies.box(60, 40, 2) - bodies.box(30, 8, 30).translate((0, 0, -5))), 0.05)
    assert ring.across_mm == pytest.approx((28.0, 28.0), rel=0.03)
    assert slot.across_mm == pytest.approx((30.0, 8.0), rel=0.05)


def test_a_hole_is_told_where_its_greatest_ball_passes() -> None:
    """A slot through a plate that widens from 8 mm to 20 mm: the ball of 20 mm passes at that end, not at the middle of
    the slot's edge, which lies 10 mm off."""
    ends = ((-16, 4), (10, 10))
    slot = m3.Manifold.batch_hull([bodies.cone(r, r, 30, 96).translate((x, 0, -9)) for x, r in ends])
    (hole,) = find_handles(bodies.mesh(bodies.box(60, 40, 12) - slot), 0.05)
    assert hole.width_mm == pytest.approx(20, rel=0.03)
    assert np.linalg.norm(np.array(hole.at)[:2] - (10, 0)) < 1
    assert 0 <= hole.at[2] <= 12


def test_the_greatest_ball_passes_askew_and_never_through_the_body() -> None:
    """A wire bent to a loop of 20 mm is turned at will; a bar of 6 mm across it leaves 7 mm on each side of it."""
    wire = bodies.torus(12, 2, 96, 32)
    barred = (wire + bodies.box(24, 6, 4).translate((0, 0, -2))).rotate((33, 21, 70))
    holes = find_handles(bodies.mesh(barred), 0.05)
    assert len(holes) == 2
    for hole in holes:
        assert hole.width_mm == pytest.approx(7, rel=0.03)


def test_a_blind_hole_is_no_through_hole() -> None:
    blind = bodies.box(30, 30, 30) - bodies.cone(5, 5, 20, 24).translate((0, 0, 15))
    assert find_handles(bodies.mesh(blind), 0.5) == ()
    through = bodies.box(30, 30, 30) - bodies.cone(5, 5, 40, 24).translate((0, 0, -5))
    assert len(find_handles(bodies.mesh(through), 0.5)) == 1
