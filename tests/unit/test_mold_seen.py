"""What is told at each place of a mold, against closed forms: balls in balls, a slab on a stem, a ball drawn up."""

from __future__ import annotations

from dataclasses import replace

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
import trimesh

from moldwright.geometry.closest import away_from_lines
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.overhung import overhung_mm
from moldwright.mold.seen import SeenMold, packed_mm, piece_over, rubber_mm, seam_away_mm, strained_pct, undercut_mm

UP = np.array([0.0, 0.0, 1.0])
STEP_MM = 0.5
LEEWAY_MM = 1.5 * STEP_MM


def ball(radius_mm: float, subdivisions: int = 5) -> Mesh:
    made = trimesh.creation.icosphere(subdivisions, radius_mm)
    return Mesh(np.array(made.vertices) + np.array([0.0, 0.0, 100.0]), np.array(made.faces, np.int32))


NONE = np.zeros((0, 3))
"""Normals, where none is asked for."""


def _outward(mesh: Mesh) -> np.ndarray:
    """Of a ball about its middle."""
    away = mesh.vertices - np.array([0.0, 0.0, 100.0])
    return away / np.linalg.norm(away, axis=1, keepdims=True)


def seen(body: Mesh, coated: Mesh) -> SeenMold:
    left, right = (bodies.mesh(bodies.box(10, 10, 10).translate((x, 0, 0))) for x in (-100.0, 100.0))
    return SeenMold(
        body, coated, (left, right), ((-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)), (np.array([[0, -9.0, 0], [0, 9, 0]]),)
    )


def test_rubber_between_two_balls_is_what_their_radii_leave() -> None:
    """24.5 - 20 mm; an icosphere of 5 halvings lies at most R (1 - cos 1.6 deg) = 0.01 mm inside its ball."""
    inner, outer = ball(20.0), ball(24.5)
    np.testing.assert_allclose(rubber_mm(seen(inner, outer), outer.vertices, _outward(outer)), 4.5, atol=0.02)


def test_rubber_on_a_flange_ends_at_the_board() -> None:
    """Far off the body the least way is down to the board."""
    points = np.array([[60.0, 0.0, 4.0], [0.0, 80.0, 3.0]])
    up = np.array([[0.0, 0.0, 1.0], [0.0, 0.0, 1.0]])
    np.testing.assert_allclose(rubber_mm(seen(ball(20.0), ball(24.0)), points, up), [4.0, 3.0])


def test_the_flange_s_edge_has_no_thickness_of_its_own() -> None:
    """Its way in is the flange's width, which says nothing of the coats; a wall over it has."""
    mold = replace(seen(ball(20.0), ball(24.0)), flange_mm=4.0)
    points, level = np.array([[60.0, 0.0, 2.0], [24.0, 0.0, 100.0]]), np.array([[1.0, 0.0, 0.0], [1.0, 0.0, 0.0]])
    found = rubber_mm(mold, points, level)
    assert np.isnan(found[0])
    assert found[1] == pytest.approx(4.0, abs=0.02)


def test_a_place_is_strained_as_the_sheet_is_nearest_to_it_and_the_flange_has_no_sheet() -> None:
    """Two places of a sheet, 1.1 and 1.3 times as long: 10 and 30 %."""
    sheet = np.array([[0.0, 0.0, 90.0, 1.1], [0.0, 0.0, 10.0, 1.3]])
    mold = replace(seen(ball(20.0), ball(24.0)), flange_mm=4.0, strain=sheet)
    points = np.array([[2.0, 0.0, 60.0], [2.0, 0.0, 40.0], [2.0, 0.0, 4.1], [60.0, 0.0, 4.0], [62.0, 0.0, 2.0]])
    np.testing.assert_allclose(strained_pct(mold, points, NONE), [10.0, 30.0, 30.0, np.nan, np.nan])
    assert np.isnan(strained_pct(replace(mold, strain=None), points, NONE)).all()


def test_what_is_packed_is_told_over_the_coats() -> None:
    outer = ball(24.0)
    np.testing.assert_allclose(packed_mm(seen(ball(20.0), outer), outer.vertices, NONE), 0.0, atol=1e-6)
    np.testing.assert_allclose(packed_mm(seen(ball(20.0), outer), ball(26.0).vertices, NONE), 2.0, atol=0.03)


@pytest.mark.parametrize(
    ("at", "normal", "told"),
    [
        ((25.0, 0.0, 40.0), (0.0, 0.0, -1.0), 5.0),
        ((0.0, -28.0, 40.0), (0.0, 0.0, -1.0), 2.0),
        ((10.0, 0.0, 20.0), (1.0, 0.0, 0.0), 20.0),
        ((30.0, 0.0, 45.0), (1.0, 0.0, 0.0), 0.0),
        ((0.0, 0.0, 50.0), (0.0, 0.0, 1.0), 0.0),
    ],
    ids=["under the slab", "near its other edge", "on the stem", "on the slab's side", "on top"],
)
def test_a_slab_on_a_stem_catches_as_far_as_it_overhangs(
    at: tuple[float, float, float], normal: tuple[float, float, float], told: float
) -> None:
    """By hand: a slab 60 mm square, 40 to 50 mm up, on a stem 20 mm square; what is drawn up must first go out to x or
    y = 30 mm."""
    body = bodies.mesh(standing(20, 20, 41) + standing(60, 60, 10).translate((0, 0, 40)))
    found = overhung_mm(body, np.array([at]), np.array([normal]), UP, STEP_MM)
    assert found[0] == pytest.approx(told, abs=LEEWAY_MM)


def test_a_ball_that_is_drawn_up_catches_below_its_middle() -> None:
    """A place below the equator at radius r lies R - r in under the ball; one above it is free."""
    radius = 20.0
    whole = ball(radius)
    normals = (whole.vertices - [0.0, 0.0, 100.0]) / radius
    out = np.hypot(whole.vertices[:, 0], whole.vertices[:, 1])
    low = normals[:, 2] < 0
    found = overhung_mm(whole, whole.vertices, normals, UP, STEP_MM)
    assert not found[normals[:, 2] > 0.01].any()
    np.testing.assert_allclose(found[low], radius - out[low], atol=LEEWAY_MM)


def test_each_place_is_drawn_along_the_piece_over_it() -> None:
    """A wall whose left and right side face the two pieces catches neither; between them the nearer one decides."""
    wall = bodies.mesh(standing(40, 40, 40))
    points = np.array([[-20.0, 0.0, 20.0], [20.0, 0.0, 20.0]])
    mold = seen(wall, wall)
    assert piece_over(mold, points).tolist() == [0, 1]
    assert undercut_mm(mold, points, np.array([[-1.0, 0, 0], [1.0, 0, 0]])).tolist() == [0.0, 0.0]


def test_the_seam_s_distance_is_to_the_line_and_not_to_its_corners() -> None:
    """Pythagoras: beside the line 3 mm off and 4 mm up; beyond its end by 3 and 4."""
    mold = seen(ball(5.0), ball(6.0))
    assert seam_away_mm(mold, np.array([[3.0, 0.0, 4.0], [0.0, 12.0, 4.0]]), NONE) == pytest.approx([5.0, 5.0])
    assert np.isinf(away_from_lines(np.zeros((1, 3)), [])).all()


def standing(x: float, y: float, z: float) -> m3.Manifold:
    return m3.Manifold.cube((x, y, z), True).translate((0, 0, z / 2))
