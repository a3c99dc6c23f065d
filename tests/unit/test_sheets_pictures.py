"""Pictures against what is known of simple bodies: a ball's disk, the seam of two halves, the areas of a cut."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import geometry_bodies as bodies
import manifold3d
import numpy as np
import pytest
from sheets_fixture import ball, mold_meshes, pictures, pixels, plan

from moldwright.geometry.mesh import Mesh
from moldwright.plan.mold import SmallSpots
from moldwright.sheets.camera import camera_around, directions
from moldwright.sheets.cut_open import cut_open
from moldwright.sheets.fill_map import fill_map
from moldwright.sheets.fill_page import fill_page
from moldwright.sheets.marks_apart import apart
from moldwright.sheets.picture import Axis, Mark, MarkKind
from moldwright.sheets.pictures import draw
from moldwright.sheets.scene import Scene, look
from moldwright.sheets.seam_views import level_camera, piece_of_pixels, seam_views
from moldwright.sheets.shading import render
from moldwright.units.system import UnitSystem


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


CORNER = {Axis.RIGHT: plan().flange.frame.left_mm, Axis.BACK: plan().flange.frame.front_mm}


@pytest.mark.parametrize("units", UnitSystem)
def test_places_are_read_from_the_pictures_rules(units: UnitSystem) -> None:
    """Every number and letter stands where the rules beside its picture say its place is: two marks of a rule give its
    scale, from the corner of the frame that the table counts from (numpy's straight line through the printed marks)."""
    unit_mm = 25.4 if units is UnitSystem.US else 1.0
    points = {str(n): at for n, at in enumerate(mold_meshes().spots, start=1)} | dict(mold_meshes().holes)
    found = 0
    page = fill_page(plan(units), pictures(), 250.0, {})
    for shown in page["pictures"]:
        across = [(tick["at"], number(tick["text"], unit_mm)) for tick in shown["across"]]
        up = [(tick["at"], number(tick["text"], unit_mm)) for tick in shown["up"]]
        assert len(across) >= 2
        assert up[0][1] == 0.0
        slope, start = np.polyfit(*np.array(across).T, 1)
        rise, ground = np.polyfit(*np.array(up).T, 1)
        assert (slope > 0) == shown["rightward"]
        for mark in shown["marks"]:
            x, y = mark["to"] or (mark["x"], mark["y"])
            at, axis = points[mark["text"]], shown["axis"]
            assert start + slope * x + CORNER[axis] == pytest.approx(at[axis is Axis.BACK], abs=1.5)
            assert ground + rise * (1 - y) == pytest.approx(at[2], abs=1.5)
            found += 1
    assert found == len(points)


def number(text: str, unit_mm: float) -> float:
    """A printed length [mm]."""
    return float(sum(Fraction(part) for part in text.replace("−", "-").split())) * unit_mm


def test_a_place_of_the_table_is_its_rules_on_the_board() -> None:
    """Counted from the frame's front left corner, (-65, -60): no number is below 0 where the piece is on the frame."""
    rows = fill_page(plan(), pictures(), 250.0, {})
    (x, y, z) = plan().glove.spots[1].at
    assert rows["spots"][1]["at"] == f"{x + 65:.0f}, {y + 60:.0f}, {z:.0f}"
    assert [hole["at"] for hole in rows["holes"]] == ["73, 60, 84", "41, 30, 21"]
    assert not any("−" in row["at"] for row in (*rows["spots"], *rows["holes"]))


@pytest.mark.parametrize("room_mm", [120.0, 250.0])
def test_no_mark_covers_another_or_leaves_its_picture(room_mm: float) -> None:
    """Thirty spots and a hole about one place, at the printed size: disks and squares of 4.8 mm."""
    rng = np.random.default_rng(7)
    spots = [(float(x), float(y), float(z)) for x, y, z in rng.normal((52.0, 14.0, 105.0), 4.0, (30, 3))]
    original = mold_meshes().original
    shown = fill_map([original], mold_meshes().gloved, spots, [("A", spots[0])])
    page = fill_page(plan(), replace(pictures(), fill=shown), room_mm, {})
    assert sum(len(each["marks"]) for each in page["pictures"]) == 31
    for each in page["pictures"]:
        size = np.array([each["paper_mm"], each["paper_mm"] * each["height_mm"] / each["width_mm"]])
        places = np.array([(mark["x"], mark["y"]) for mark in each["marks"]]) * size
        assert (places >= 2.4 - 1e-9).all()
        assert (places <= size - 2.4 + 1e-9).all()
        between = np.linalg.norm(places[:, None] - places[None], axis=2) + 99 * np.eye(len(places))
        assert between.min() >= 4.8


@pytest.mark.parametrize("gap_mm", [0.0, 2.0, 4.0])
def test_a_mark_that_moved_stands_clear_of_its_point_and_no_other_lies_on_it(gap_mm: float) -> None:
    """Five numbers and a letter in a row, so near that their disks touch: each stands on its own point and on no
    other's, or off all points (a disk's radius, 2.4 mm, by the form) with a line to where it stood."""
    row = [(20.0 + gap_mm * n, 30.0) for n in range(6)]
    kinds = [MarkKind.LETTER, *[MarkKind.NUMBER] * 5]
    marks = [Mark(str(n), x / 60, y / 60, kind=kind) for n, ((x, y), kind) in enumerate(zip(row, kinds, strict=True))]
    for mark, (x, y) in zip(apart(marks, 60.0, 60.0), row, strict=True):
        far = [np.hypot(60 * mark.x - a, 60 * mark.y - b) for a, b in row if (a, b) != (x, y)]
        assert all(each >= 2.4 for each in far)
        if mark.to is None:
            assert np.hypot(60 * mark.x - x, 60 * mark.y - y) < 1.0
        else:
            assert mark.to == pytest.approx((x / 60, y / 60))
            assert np.hypot(60 * mark.x - x, 60 * mark.y - y) >= 3.0


def test_small_places_are_told_by_the_coat_that_they_follow() -> None:
    """1.2 g after coat 2, 0.5 g after coat 3: two sums."""
    its = plan()
    second, third = (coat.id for coat in its.glove.coats[1:3])
    small = tuple(SmallSpots(4, net_g, net_g, coat) for coat, net_g in ((second, 1.2), (third, 0.5)))
    page = fill_page(replace(its, glove=replace(its.glove, small_spots=small)), pictures(), 250.0, {})
    assert page["small"] == [{"after": "2", "grams": "1.2 g"}, {"after": "3", "grams": "0.5 g"}]


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
