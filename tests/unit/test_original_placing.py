"""Scale, up axis and board. Sizes are exact for boxes and frustums."""

from __future__ import annotations

import numpy as np
import pytest
from original_files import Shape, box, box_3mf, frustum, glb, off, stl
from original_scans import read, refused, scan_of

from moldwright.original.standing.direction import rotation_to_z
from moldwright.original.standing.file_units import unit_mm
from moldwright.original.standing.place import place
from moldwright.original.standing.stance import BoardBy, ScaleBy, UpBy
from moldwright.scan.repairs import RepairCode

MILLIMETERS = [("mm", 1), ("cm", 10), ("in", 25.4), ("um", 0.001), ("ft", 304.8), ("m", 1000)]
BOX = scan_of(box())
CONE = scan_of(frustum(30, 10, 80))
OPEN_CONE = scan_of(frustum(30, 10, 80, bottom=False))


@pytest.mark.parametrize(("unit", "mm"), MILLIMETERS)
def test_a_unit_scales(unit: str, mm: float) -> None:
    """International inch 25.4 mm and foot 304.8 mm (exact by definition)."""
    points, faces = box()
    placed = place(scan_of((points / 20 * 50 / mm, faces)), unit=unit, up="+z")
    assert np.ptp(placed.mesh.vertices[:, 0]) == pytest.approx(50)


def test_the_formats_own_unit() -> None:
    inch = place(read("a.3mf", box_3mf("inch")))
    assert np.ptp(inch.mesh.vertices[:, 2]) == pytest.approx(40 * 25.4)
    assert inch.stance.scale_by is ScaleBy.FORMAT
    points, faces = box()
    meter = place(read("a.glb", glb(points / 1000, faces)))
    np.testing.assert_allclose(np.ptp(meter.mesh.vertices, axis=0), [20, 40, 30], rtol=1e-5)
    assert (meter.stance.up, meter.stance.up_by) == ("+y", UpBy.FORMAT)


def test_a_stated_unit_goes_before_the_formats() -> None:
    placed = place(read("a.3mf", box_3mf("inch")), unit="mm")
    assert np.ptp(placed.mesh.vertices[:, 2]) == pytest.approx(40)


def test_true_height_is_board_to_top() -> None:
    placed = place(BOX, height_mm=160, up="+z")
    assert placed.mesh.vertices[:, 2].min() == pytest.approx(0)
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(160)


def test_true_height_counts_after_the_cut() -> None:
    """A piece that is 160 mm above a cut 10 mm high is 170 mm in all."""
    placed = place(BOX, height_mm=160, up="+z", board_mm=10)
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(160)
    assert placed.mesh.vertices[:, 2].min() == pytest.approx(-10)
    assert placed.stance.board_mm == pytest.approx(10.0)
    assert placed.stance.board_by is BoardBy.COMMISSION


def test_unit_and_board() -> None:
    placed = place(BOX, unit="mm", up="+z", board_mm=10)
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(30)


@pytest.mark.parametrize(("height", "board"), [(40.3, None), (39.7, None), (30.2, 10.0)])
def test_unit_and_height_may_differ_a_little(height: float, board: float | None) -> None:
    placed = place(BOX, height_mm=height, unit="mm", up="+z", board_mm=board)
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(height)


@pytest.mark.parametrize(("height", "board"), [(40.5, None), (39.5, None), (40.0, 10.0), (1016.0, None)])
def test_unit_and_height_must_agree(height: float, board: float | None) -> None:
    error = refused(BOX, height_mm=height, unit="mm", up="+z", board_mm=board)
    assert error.code == "height-and-unit-disagree"
    assert ('unit = "in"' in error.remedy) == (height == 1016.0)


def test_the_formats_unit_and_height_must_agree() -> None:
    assert refused(read("a.3mf", box_3mf()), height_mm=160).code == "height-and-unit-disagree"


def test_an_unclear_size_names_the_candidates() -> None:
    """0.19 in = 4.8 mm is below 10 mm; 0.19 m = 190 mm and 0.19 ft = 57.9 mm are possible."""
    points, faces = box()
    error = refused(scan_of((points / 40 * 0.19, faces)), up="+z")
    assert error.code == "size-unclear"
    assert "0.19 m or 0.19 ft tall" in error.remedy
    assert 'unit = "m" or unit = "ft"' in error.remedy
    assert '"in"' not in error.remedy
    assert '"mm"' not in error.remedy


def test_an_unclear_size_without_a_clear_up() -> None:
    error = refused(scan_of(box(30, 30, 30)))
    assert error.code == "size-unclear"
    assert "at its longest" in error.remedy


@pytest.mark.parametrize(
    ("up", "sizes"),
    [
        ("+z", (20, 30, 40)),
        ("-z", (20, 30, 40)),
        ("+y", (20, 40, 30)),
        ("-y", (20, 40, 30)),
        ("x", (40, 30, 20)),
        ((-2, 0, 0), (40, 30, 20)),
    ],
)
def test_up_as_told(up: object, sizes: tuple[float, ...]) -> None:
    placed = place(BOX, unit="mm", up=up)  # type: ignore[arg-type]
    np.testing.assert_allclose(np.ptp(placed.mesh.vertices, axis=0), sizes, atol=1e-12)
    assert placed.mesh.volume_mm3 == pytest.approx(24_000)


def test_the_shortest_rotation() -> None:
    """+y up turns about x alone, so x stays; any turn is a rotation that takes its direction to z."""
    np.testing.assert_allclose(rotation_to_z(np.array([0.0, 1, 0])) @ [1, 0, 0], [1, 0, 0], atol=1e-15)
    rng = np.random.default_rng(3)
    for direction in [*rng.normal(size=(20, 3)), np.array([0, 0, -1.0]), np.array([1e-9, 0, -1.0])]:
        unit = direction / np.linalg.norm(direction)
        turn = rotation_to_z(unit)
        np.testing.assert_allclose(turn @ unit, [0, 0, 1], atol=1e-7)
        np.testing.assert_allclose(turn @ turn.T, np.eye(3), atol=1e-7)
        assert np.linalg.det(turn) == pytest.approx(1)
        assert np.arccos(np.clip((np.trace(turn) - 1) / 2, -1, 1)) == pytest.approx(np.arccos(unit[2]), abs=1e-6)


@pytest.mark.parametrize("up", ["up", "+w", "", (0, 0, 0), (1, 2), (np.nan, 0, 1)])
def test_an_up_that_is_no_direction(up: object) -> None:
    assert refused(BOX, unit="mm", up=up).code == "up-unclear"


@pytest.mark.parametrize("name", ["+x", "-x", "+y", "-y", "+z", "-z"])
def test_the_widest_base_is_found(name: str) -> None:
    """A frustum stands on its large end, whichever way it lies in the file."""
    points, faces = frustum(30, 20, 80)
    axis = np.eye(3)["xyz".index(name[1])] * (1 if name[0] == "+" else -1)
    placed = place(scan_of((points, faces), turn=rotation_to_z(axis)), unit="mm")
    assert placed.stance.up == name
    assert placed.stance.up_by in (UpBy.ONLY_SIDE, UpBy.FLATTEST_SIDE)
    base = placed.mesh.vertices[np.isclose(placed.mesh.vertices[:, 2], 0)]
    assert np.linalg.norm(base[:, :2], axis=1).max() == pytest.approx(30)


def test_the_base_is_found_in_any_direction() -> None:
    points, faces = frustum(30, 20, 80)
    axis = np.array([0.48, 0.6, 0.64])
    placed = place(scan_of((points, faces), turn=rotation_to_z(axis)), unit="mm")
    assert np.ptp(placed.mesh.vertices[:, 2]) == pytest.approx(80)


def test_it_stands_on_its_flat_and_not_on_a_wider_hull() -> None:
    """An angle of 60 x 55, 10 thick, 30 long: 1800 mm2 lie below; the hull's slope of 2018 mm2 touches nothing."""
    ring = [(0, 0), (60, 0), (60, 10), (10, 10), (10, 55), (0, 55)]
    points = np.array([(x, y, z) for z in (0, 30) for x, y in ring], float)
    sides = [(k, (k + 1) % 6, (k + 1) % 6 + 6, k + 6) for k in range(6)]
    scan = read("a.off", off(points, [tuple(range(5, -1, -1)), tuple(range(6, 12)), *sides]))
    assert place(scan, unit="mm").stance.up == "+y"


@pytest.mark.parametrize("shape", [box(30, 30, 30), frustum(20, 20, 80), box(20, 30, 40)])
def test_a_tie_names_its_candidates(shape: Shape) -> None:
    error = refused(scan_of(shape), unit="mm")
    assert error.code == "up-unclear"
    assert "up = " in error.remedy
    assert error.actual in (2, 6)


def test_what_falls_over_is_no_way_to_stand() -> None:
    """A leaning prism: over its foot the center of mass is 45 to the side of a foot of 10, so it lies on a side."""
    points, faces = box(20, 21, 60)
    points[:, 0] += points[:, 2] * 1.5
    remedy = refused(scan_of((points, faces)), unit="mm").remedy
    assert "[0.5547, 0, -0.8321]" in remedy
    assert '"+z"' not in remedy


def test_an_open_base_is_cut_just_above_its_rim() -> None:
    """The rim is at the lowest point; the cut is a thousandth of the height above it."""
    placed = place(OPEN_CONE, unit="mm", up="+z")
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(80 - 0.08)
    assert placed.stance.board_by is BoardBy.RIM
    tall = place(OPEN_CONE, height_mm=160, up="+z")
    assert tall.mesh.vertices[:, 2].max() == pytest.approx(160)


def test_a_ragged_rim_is_cut_above_its_highest_point() -> None:
    points, faces = frustum(30, 10, 80, bottom=False)
    points[:48, 2] += np.linspace(0, 9, 48)
    placed = place(scan_of((points, faces)), unit="mm", up="+z")
    assert placed.mesh.vertices[:, 2].min() == pytest.approx(-9.08)
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(80 - 9.08)


def test_an_open_top_is_no_open_base() -> None:
    points, faces = frustum(30, 30, 80)
    placed = place(scan_of((points, np.delete(faces, np.arange(96, 144), axis=0))), unit="mm", up="+z")
    assert placed.mesh.vertices[:, 2].min() == pytest.approx(0)
    assert not [r for r in placed.repairs if r.code is RepairCode.HOLE_CLOSED]  # told once, where it is closed


def test_a_stated_board_goes_before_the_rim() -> None:
    placed = place(OPEN_CONE, unit="mm", up="+z", board_mm=0)
    assert placed.mesh.vertices[:, 2].min() == pytest.approx(0)


def test_an_open_base_is_found_as_what_it_stands_on() -> None:
    assert place(OPEN_CONE, unit="mm").stance.up == "+z"


def test_centered_over_the_board() -> None:
    points, faces = box()
    placed = place(scan_of((points + np.array((500, -300, 7)), faces)), unit="mm", up="+z")
    np.testing.assert_allclose(placed.mesh.bounds_mm, [(-10, -15, 0), (10, 15, 40)], atol=1e-9)


@pytest.mark.parametrize(
    ("shape", "given", "code"),
    [
        (box(9, 9, 9), {"unit": "mm", "up": "+z"}, "too-small"),
        (box(9, 9, 12), {"unit": "mm", "up": "+z", "board_mm": 3}, "too-small"),
        (box(1, 1, 4), {"unit": "m", "up": "+z"}, "too-large"),
        (box(), {"height_mm": 3001, "up": "+z"}, "too-large"),
        (box(50, 50, 0.9), {"unit": "mm", "up": "+z"}, "too-thin"),
        (box(50, 0.9, 50), {"unit": "mm", "up": "+z"}, "too-thin"),
        (box(50, 0, 50), {"unit": "mm", "up": "+z"}, "flat"),
        (box(), {"unit": "mm", "up": "+z", "board_mm": 40}, "nothing-above-board"),
        (box(), {"unit": "mm", "up": "+z", "board_mm": 400}, "nothing-above-board"),
        (box(), {"unit": "ell", "up": "+z"}, "unit-unknown"),
        (box(), {"height_mm": 0, "up": "+z"}, "height-not-possible"),
        (box(), {"height_mm": float("nan"), "up": "+z"}, "height-not-possible"),
        (box(), {"unit": "mm", "up": "+z", "board_mm": -1}, "board-not-possible"),
    ],
)
def test_what_cannot_stand_is_refused(shape: Shape, given: dict[str, object], code: str) -> None:
    points, faces = shape
    assert refused(read("a.stl", stl(points, faces)), **given).code == code


def test_a_thin_sheet_is_thin_however_it_lies() -> None:
    points, faces = box(50, 50, 0.9)
    turn = rotation_to_z(np.array([0.48, 0.6, 0.64]))
    assert refused(scan_of((points, faces), turn=turn), unit="mm", up="+z").code == "too-thin"


@pytest.mark.parametrize(("word", "unit"), [("inches", "in"), ("Inch", "in"), ("feet", "ft"), ("microns", "um")])
def test_unit_words(word: str, unit: str) -> None:
    assert unit_mm(word) == unit_mm(unit)


def test_a_format_that_brings_a_wrong_unit_is_told_how_to_lose_it() -> None:
    remedy = refused(read("a.3mf", box_3mf()), height_mm=161.7).remedy
    assert "STL" in remedy
    assert "leave it out" in remedy
