"""Pictures against what is known of simple bodies: a ball's disk, the seam of two halves, the areas of a cut."""

from __future__ import annotations

import math

import geometry_bodies as bodies
import manifold3d
import numpy as np
import pytest
from sheets_fixture import ball, mold_meshes, pictures, pixels

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import camera_around, directions
from moldwright.sheets.cut_open import cut_open
from moldwright.sheets.fill_map import fill_map
from moldwright.sheets.picture import MarkKind
from moldwright.sheets.pictures import draw
from moldwright.sheets.raycast import Scene, look
from moldwright.sheets.seam_views import level_camera, piece_of_pixels, seam_views
from moldwright.sheets.shading import render


def test_a_ball_is_drawn_as_its_disk() -> None:
    """The drawn area is pi r^2 (closed form), within the facets' and pixels' error, 1 %."""
    camera = camera_around([ball(30.0, 5)], 40.0, 25.0)
    image = pixels(render([(ball(30.0, 5), "#5b93c9")], camera, 400))
    share = (image.min(axis=2) < 250).mean()
    assert share * camera.width_mm * camera.height_mm == pytest.approx(math.pi * 30.0**2, rel=0.01)


def test_ground_is_white_and_light_comes_from_above() -> None:
    image = pixels(render([(ball(30.0), "#ffffff")], camera_around([ball(30.0)], 0.0, 0.0), 200))
    assert (image[0, 0] == 255).all()
    assert image[60, 100].mean() > image[140, 100].mean()


def test_depth_is_the_distance_along_the_ray() -> None:
    camera = camera_around([ball(30.0, 5)], 0.0, 0.0)
    hits = look(Scene([ball(30.0, 5)]), camera, 101, 101)
    assert hits.depth_mm[50, 50] == pytest.approx(camera.reach_mm - 30.0, abs=0.05)
    assert hits.normal[50, 50] == pytest.approx([0.0, -1.0, 0.0], abs=0.05)


@pytest.mark.parametrize(("azimuth", "right"), [(0, (1, 0, 0)), (90, (0, 1, 0)), (180, (-1, 0, 0)), (270, (0, -1, 0))])
def test_the_four_sides_are_seen_from_where_their_names_say(azimuth: float, right: tuple[float, ...]) -> None:
    assert directions(azimuth, 0.0)[1] == pytest.approx(right, abs=1e-12)
    assert directions(azimuth, 0.0)[2] == pytest.approx((0, 0, 1), abs=1e-12)


def _halves(joint_mm: float = 0.0) -> tuple[Mesh, tuple[Mesh, Mesh]]:
    """A ball of 30 mm in a shell of 6 mm with 0.3 mm of air between, split at x = 5 mm; piece 1 lies at x < 5."""
    hollow = manifold3d.Manifold.sphere(36.3, 128) - manifold3d.Manifold.sphere(30.3, 128)
    left = hollow.trim_by_plane((-1.0, 0.0, 0.0), -5.0 + joint_mm / 2)
    right = hollow.trim_by_plane((1.0, 0.0, 0.0), 5.0 + joint_mm / 2)
    return bodies.mesh(manifold3d.Manifold.sphere(30.0, 128)), (bodies.mesh(left), bodies.mesh(right))


def test_pixels_belong_to_the_piece_that_covers_them() -> None:
    gloved, shell = _halves()
    camera = level_camera(gloved, 0.0)
    hits = look(Scene([gloved]), camera, 200, 200)
    piece = piece_of_pixels(hits, camera, [Scene([half], smooth=False) for half in shell])
    columns = camera.center[0] + ((np.arange(200) + 0.5) / 200 - 0.5) * camera.width_mm
    assert set(np.unique(piece[:, columns < 4.0])) == {-1, 0}
    assert set(np.unique(piece[:, columns > 6.0])) == {-1, 1}


@pytest.mark.parametrize("joint_mm", [0.0, 1.0])
def test_the_seam_is_a_black_line_at_its_place(joint_mm: float) -> None:
    gloved, shell = _halves(joint_mm)
    front = seam_views(gloved, [Scene([half], smooth=False) for half in shell])[0]
    image = pixels(front.png)
    row = image[image.shape[0] // 2].mean(axis=1)
    middle = np.flatnonzero(row < 30)
    inner = middle[(middle > 0.1 * len(row)) & (middle < 0.9 * len(row))]
    x_mm = ((inner + 0.5) / len(row) - 0.5) * front.width_mm
    assert x_mm.mean() == pytest.approx(5.0, abs=0.4)
    assert np.ptp(x_mm) < 2.0
    assert {mark.text for mark in front.marks} == {"1", "2"}


def test_views_share_a_scale_and_stand_on_the_board() -> None:
    views = pictures().seam
    assert [view.name for view in views] == ["Front", "Right", "Back", "Left"]
    assert len({(view.width_mm, view.height_mm) for view in views}) == 1
    assert views[0].bottom_mm <= 0.0


def _marks(kind: MarkKind) -> list[str]:
    return sorted(mark.text for picture in pictures().fill for mark in picture.marks if mark.kind is kind)


def test_every_spot_has_its_number_and_every_hole_its_letter_once() -> None:
    assert _marks(MarkKind.NUMBER) == ["1", "2", "3"]
    assert _marks(MarkKind.LETTER) == ["A", "B"]


LEVEL = {"Front": ("right", 1.0), "Right": ("back", 1.0), "Back": ("right", -1.0), "Left": ("back", -1.0)}


def test_the_tables_axes_are_drawn_from_its_origin() -> None:
    """Seen from in front x runs to the right, from behind to the left; y from the right side to the right; z up."""
    assert pictures().fill
    for picture in pictures().fill:
        axes = {mark.text: mark for mark in picture.marks if mark.kind is MarkKind.AXIS}
        name, sense = LEVEL[picture.name]
        assert set(axes) == {name, "up"}
        (start,) = {mark.to for mark in axes.values()}
        assert start is not None
        assert (1 - start[1]) * picture.height_mm + picture.bottom_mm == pytest.approx(0.0, abs=1e-6)
        assert axes[name].y == pytest.approx(start[1])
        assert np.sign(axes[name].x - start[0]) == sense
        assert axes["up"].x == pytest.approx(start[0])
        assert axes["up"].y < start[1]


def test_a_number_stands_where_its_coordinates_are() -> None:
    """Right and up of a spot, read from the picture's scale from the axes' start; the numbers here are apart enough."""
    for picture in pictures().fill:
        start = next(mark.to for mark in picture.marks if mark.kind is MarkKind.AXIS)
        assert start is not None
        for mark in picture.marks:
            if mark.kind is not MarkKind.NUMBER:
                continue
            x, y = mark.to or (mark.x, mark.y)
            at = mold_meshes().spots[int(mark.text) - 1]
            name, sense = LEVEL[picture.name]
            across_mm = at[("right", "back").index(name)]
            assert sense * (x - start[0]) * picture.width_mm == pytest.approx(across_mm, abs=0.9)
            assert (start[1] - y) * picture.height_mm == pytest.approx(at[2], abs=0.9)


def test_a_spot_is_drawn_on_a_side_from_which_it_is_seen() -> None:
    """Behind a wall toward +x a point at the right is shown in front; without the wall at the right."""
    post, wall = manifold3d.Manifold.cube((20, 20, 40)), manifold3d.Manifold.cube((4, 20, 40)).translate((30, 0, 0))
    for bare, side in ((post, "Right"), (post + wall, "Front")):
        (picture,) = fill_map([bodies.mesh(bare)], bodies.mesh(post + wall), [(24.0, 8.0, 20.0)])
        assert picture.name == side


def _ring(inner_mm: float, outer_mm: float) -> Mesh:
    out, hole = ball(outer_mm, 5), ball(inner_mm, 5)
    faces = np.concatenate([out.faces, hole.faces[:, ::-1] + len(out.vertices)]).astype(np.int32)
    return Mesh(np.concatenate([out.vertices, hole.vertices]), faces)


def test_the_cut_shows_three_materials() -> None:
    """Areas in the cut plane of balls (closed form): pi r^2 of the original, a ring of rubber, a ring of shell."""
    rings = [_ring(20.0, 26.0), _ring(26.0, 34.0)]
    cut = cut_open([Scene([ball(20.0, 5)])], Scene([rings[0]]), [Scene([rings[1]])], [(1.0, 0.0, 0.0)])
    image = pixels(cut.png)
    blue = (np.abs(image - [91, 147, 201]).max(axis=2) < 12).mean() * cut.width_mm * cut.height_mm
    assert blue == pytest.approx(math.pi * (26.0**2 - 20.0**2), rel=0.08)


def test_same_solids_same_bytes() -> None:
    assert draw(mold_meshes()) == pictures()
