"""Poses, lens and sheet from markers placed by the pinhole equations, and what is dropped or refused.

Every expected value is what the cameras of `photo_scenes` were given; corners carry noise of 0.1 px and a bleed.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from photo_marks import marks, stood_up
from photo_scenes import Camera, ring, turned

from moldwright.errors import InputRefused
from moldwright.photos.poses.checks import check_bar
from moldwright.photos.poses.find import poses_of
from moldwright.photos.poses.gates import Sifted, sheet_in
from moldwright.photos.poses.marks import Marks
from moldwright.photos.poses.model import HEIGHTS, SHARED, PoseModel, Sights, misses, surfaces_over
from moldwright.photos.poses.poses import Poses, PoseWarning
from moldwright.photos.poses.solve import solve
from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.photos.told import PhotoReason

SHEET = photo_sheet(SheetSize.A4)
BIG = {"width_px": 2000, "height_px": 1500, "focal_px": 1605.0, "off_px": (11.0, -7.0)}
LOW = [turned(camera, **BIG) for camera in ring(14, 21, 430, 0, 1)]
HIGH = [turned(camera, **BIG) for camera in ring(14, 49, 430, 9, 2)]
CAMERAS = LOW + HIGH
POINTS = np.random.default_rng(0).uniform((-50, -80, 0), (50, 80, 150), (200, 3))


def sifted(cameras: list[Camera] = CAMERAS, **how: object) -> Sifted:
    return Sifted(tuple(marks(c, SHEET, f"{k:02d}", seed=k, **how) for k, c in enumerate(cameras)), ())


def changed(which: dict[int, Marks], base: Sifted | None = None) -> Sifted:
    kept = (base or sifted()).kept
    return Sifted(tuple(which.get(k, each) for k, each in enumerate(kept)), ())


def off_px(poses: Poses, cameras: list[Camera] = CAMERAS, quarters: dict[int, int] | None = None, up: float = 0.0):
    """Median distance of points of the piece's space from where the camera really sees them, of each view."""
    truth = POINTS + np.array([0, 0, up])
    found = {}
    for view in poses.views:
        camera = cameras[int(view.file)]
        seen = stood_up(camera.seen_px(truth), camera, (quarters or {}).get(int(view.file), 0))
        found[view.file] = float(np.median(np.linalg.norm(view.seen_px(POINTS) - seen, axis=1)))
    return np.array(list(found.values()))


def told(poses: Poses) -> dict[str, PhotoReason | None]:
    return {each.file: each.reason for each in poses.told}


def refused(given: Sifted, bar_mm: float = 100.0) -> InputRefused:
    with pytest.raises(InputRefused) as caught:
        poses_of(given, SHEET, bar_mm)
    assert caught.value.remedy
    return caught.value


def test_poses_and_lens_come_out() -> None:
    poses = poses_of(sifted(), SHEET)
    assert len(poses.views) == 28
    assert not poses.told
    assert not poses.warnings
    assert off_px(poses).max() <= 0.15
    lens = poses.views[0].lens
    assert lens.focal_px == pytest.approx(1605, rel=1e-3)
    assert lens.center_px == pytest.approx(CAMERAS[0].center_px, abs=1)
    assert (lens.k1, lens.k2) == pytest.approx((0.05, -0.08), abs=0.01)
    assert lens.focal_doubt <= 5e-4
    eyes = np.array([view.eye_mm for view in poses.views])
    assert np.abs(eyes - [camera.eye_mm for camera in CAMERAS]).max() <= 0.3


def test_a_bar_of_98_makes_everything_smaller() -> None:
    poses = poses_of(sifted(), SHEET, 98.0)
    assert poses.print_scale == pytest.approx((0.98, 0.98), abs=3e-4)
    eyes = np.array([view.eye_mm for view in poses.views])
    assert np.abs(eyes - 0.98 * np.array([camera.eye_mm for camera in CAMERAS])).max() <= 0.3


def test_standing_and_lying_photos_share_one_lens() -> None:
    quarters = {k: (0, 1, 3, 2)[k % 4] for k in range(28)}
    given = tuple(marks(c, SHEET, f"{k:02d}", seed=k, quarters=quarters[k]) for k, c in enumerate(CAMERAS))
    poses = poses_of(Sifted(given, ()), SHEET)
    assert off_px(poses, quarters=quarters).max() <= 0.15
    assert {(view.lens.width_px, view.lens.height_px) for view in poses.views} == {(2000, 1500), (1500, 2000)}


def test_standing_photos_that_do_not_say_so() -> None:
    """As an application leaves them that turns the pixels and drops the word; they are taken as the others are."""
    given = [marks(c, SHEET, f"{k:02d}", seed=k, quarters=3 * (k % 2)) for k, c in enumerate(CAMERAS)]
    for k in (1, 5, 9):
        given[k] = replace(given[k], photo=replace(given[k].photo, quarters=0))
    poses = poses_of(Sifted(tuple(given), ()), SHEET)
    assert off_px(poses, quarters={k: 3 * (k % 2) for k in range(28)}).max() <= 0.15


def test_a_smaller_copy_shares_the_lens() -> None:
    half = turned(CAMERAS[4], width_px=1000, height_px=750, focal_px=802.5, off_px=(5.5, -3.5))
    cameras = [half if k == 4 else camera for k, camera in enumerate(CAMERAS)]
    poses = poses_of(sifted(cameras), SHEET)
    assert len(poses.views) == 28
    assert off_px(poses, cameras).max() <= 0.15
    assert poses.views[4].lens.focal_px == pytest.approx(802.5, rel=2e-3)


def test_focus_that_differs_from_photo_to_photo() -> None:
    rng = np.random.default_rng(3)
    cameras = [turned(camera, focal_px=1605 * (1 + 0.004 * rng.normal())) for camera in CAMERAS]
    poses = poses_of(sifted(cameras), SHEET)
    assert off_px(poses, cameras).max() <= 0.2
    focals = np.array([view.lens.focal_px for view in poses.views])
    assert np.abs(focals / [camera.focal_px for camera in cameras] - 1).max() <= 2e-3


def test_a_print_that_is_stretched_is_measured_and_set_right() -> None:
    poses = poses_of(sifted(stretch=0.004), SHEET)
    assert poses.print_scale == pytest.approx((1.004, 1.0), abs=3e-4)
    assert [warning for warning, _ in poses.warnings] == [PoseWarning.PRINT_STRETCHED]
    assert off_px(poses).max() <= 0.15
    error = refused(sifted(stretch=0.015))
    assert (error.code, error.actual) == ("print-stretched", pytest.approx(1.5, abs=0.05))


@pytest.mark.parametrize("rise", [3.0, -3.0])
def test_a_bent_sheet_is_measured_and_its_middle_is_the_board(rise: float) -> None:
    """A parabola along the sheet: its middle is where the piece stands."""
    poses = poses_of(sifted(bent=lambda x, y: rise * (1 - (y / 148) ** 2)), SHEET)
    assert [warning for warning, _ in poses.warnings] == [PoseWarning.SHEET_CURLED]
    corners = np.array([marker.corners_mm(SHEET.side_mm) for marker in SHEET.markers]).reshape(-1, 2)
    height = rise * (1 - (corners[:, 1] / 148) ** 2)
    plane = np.column_stack([corners, np.ones(len(corners))])
    away = height - plane @ np.linalg.lstsq(plane, height)[0]
    assert poses.warnings[0][1] == pytest.approx(np.abs(away).max(), abs=0.1)
    assert off_px(poses, up=rise).max() <= 0.4


def test_sheets_that_are_refused() -> None:
    assert refused(sifted(bent=lambda x, y: 8 * (1 - (y / 148) ** 2))).code == "sheet-bent"
    assert refused(sifted(bent=lambda x, y: 9 * (x / 105) ** 2)).code == "sheet-bent"
    moved = replace(SHEET, markers=tuple(replace(m, x_mm=m.x_mm + 5 * (m.y_mm > 50)) for m in SHEET.markers))
    split = tuple(marks(c, moved, f"{k:02d}", seed=k) for k, c in enumerate(CAMERAS))
    assert refused(Sifted(split, ())).code in ("sheet-misjoined", "sheet-bent", "too-few-photos")


@pytest.mark.parametrize("zoom", [1.04, 1.15, 1.6])
def test_two_photos_of_another_zoom_are_named(zoom: float) -> None:
    cameras = [turned(c, focal_px=1605 * zoom) if k in (3, 17) else c for k, c in enumerate(CAMERAS)]
    poses = poses_of(sifted(cameras), SHEET)
    assert told(poses) == {"03": PhotoReason.OTHER_ZOOM, "17": PhotoReason.OTHER_ZOOM}
    assert off_px(poses).max() <= 0.15


def test_another_zoom_or_shape_by_the_photo_itself() -> None:
    """A photo from above hides its zoom, but its EXIF tells it; a cut photo is of another shape."""
    given = list(sifted(focal_35mm=26.0).kept)
    given[5] = marks(CAMERAS[5], SHEET, "05", focal_35mm=52.0)
    given[6] = marks(CAMERAS[6], SHEET, "06", focal_35mm=None)
    given[7] = marks(turned(CAMERAS[7], height_px=1125), SHEET, "07")
    poses = poses_of(Sifted(tuple(given), ()), SHEET)
    assert told(poses) == {"05": PhotoReason.OTHER_ZOOM, "07": PhotoReason.OTHER_ZOOM}


@pytest.mark.parametrize("zoom", [1.04, 1.15, 1.6])
@pytest.mark.parametrize("half", ["every second", "the high ring"])
def test_a_zoom_changed_midway_is_refused(zoom: float, half: str) -> None:
    """In the high ring alone it costs only 0.3 px at first sight: residuals do not tell."""
    other = {k for k in range(28) if (k % 2 if half == "every second" else k >= 14)}
    cameras = [turned(c, focal_px=1605 * zoom) if k in other else c for k, c in enumerate(CAMERAS)]
    assert refused(sifted(cameras)).code == "zoom-changed"


def test_a_photo_on_a_moved_sheet_and_one_without_sense_are_named() -> None:
    wavy = marks(CAMERAS[3], SHEET, "03", bent=lambda x, y: 6 * np.sin(x / 25) * np.sin(y / 25))
    lost = sifted().kept[9]
    scattered = np.random.default_rng(1).uniform(100, 1400, lost.corners_px.shape)
    poses = poses_of(changed({3: wavy, 9: replace(lost, corners_px=scattered)}), SHEET)
    assert told(poses) == {"03": PhotoReason.MOVED, "09": PhotoReason.NO_POSE}
    assert off_px(poses).max() <= 0.15


def test_markers_that_were_misread_do_not_move_a_pose() -> None:
    one = sifted().kept[3]
    corners = one.corners_px.copy()
    corners[2] += (15, -9)
    corners[7, 1] += (0, 6)
    poses = poses_of(changed({3: replace(one, corners_px=corners)}), SHEET)
    assert len(poses.views) == 28
    assert off_px(poses).max() <= 0.2


def test_sets_that_are_refused() -> None:
    assert refused(sifted(CAMERAS[:23])).code == "too-few-photos"
    assert refused(sifted(LOW + ring_of(14, 24))).code == "high-ring-missing"
    assert refused(sifted(HIGH + ring_of(14, 46))).code == "low-ring-missing"
    far = [turned(camera, **BIG) for camera in ring(14, 21, 2700, 0, 1) + ring(14, 49, 2700, 9, 2)]
    assert refused(sifted(far)).code == "markers-too-small"
    noisy = [turned(camera, **BIG) for camera in ring(14, 21, 1300, 0, 1) + ring(14, 49, 1300, 9, 2)]
    assert refused(sifted(noisy, noise_px=0.8)).code == "lens-doubtful"


def ring_of(count: int, elevation: float) -> list[Camera]:
    return [turned(camera, **BIG) for camera in ring(count, elevation, 430, 5, 4)]


@pytest.mark.parametrize("bar", [89.9, 110.1, float("nan"), -100.0])
def test_bars_that_no_print_has(bar: float) -> None:
    with pytest.raises(InputRefused) as caught:
        check_bar(bar)
    assert caught.value.code == "bar-out-of-range"
    check_bar(90.0)
    check_bar(110.0)


def test_the_sheet_is_that_of_most_photos() -> None:
    other = photo_sheet(SheetSize.LETTER)
    given = [marks(c, SHEET if k % 3 else other, f"{k:02d}") for k, c in enumerate(CAMERAS)]
    assert sheet_in(tuple(given)) is SHEET
    few = [each.only(np.arange(len(each.numbers)) < 3) for each in given]
    assert sheet_in(tuple(few)) is None


def test_the_equations_of_change_are_those_of_the_misses() -> None:
    """Every unknown moved a little either way: central differences are the reference."""
    given = solve(sifted(CAMERAS[:12] + CAMERAS[14:26]), SHEET, 100.0)
    model, sights = _shaken(given.adjusted.model, given.sights)
    exact = misses(model, sights)
    markers = len(sights.drawn_mm)
    for k in range(8):
        step = np.zeros((len(model.turns), 8))
        step[:, k] = h = 1e-5
        change = _difference(model, sights, np.zeros(SHARED + 2 * markers), step) / (2 * h)
        assert change == pytest.approx(exact.by_own[..., k], rel=1e-4, abs=2e-3)
    for k in range(SHARED):
        step = np.zeros(SHARED + 2 * markers)
        step[k] = h = 1e-5
        change = _difference(model, sights, step, np.zeros((len(model.turns), 8))) / (2 * h)
        assert change == pytest.approx(exact.by_shared[..., k], rel=1e-4, abs=2e-3)
    step = np.zeros(SHARED + 2 * markers)
    step[SHARED + 2 * 5 + 1] = h = 1e-5
    change = _difference(model, sights, step, np.zeros((len(model.turns), 8))) / (2 * h)
    assert change[:, 5] == pytest.approx(exact.by_place[:, 5, ..., 1], rel=1e-4, abs=2e-3)
    assert np.abs(change[:, 6]).max() == 0


def _shaken(model: PoseModel, sights: Sights) -> tuple[PoseModel, Sights]:
    rng = np.random.default_rng(2)
    shared = model.shared + rng.normal(0, 1, SHARED) * (20, 5, 5, 0.02, 0.02, 0.003, *[0.5] * HEIGHTS)
    moved = rng.normal(0, 0.3, model.moved_mm.shape)
    zoom = rng.normal(0, 0.01, model.zoom.shape)
    return replace(model, shared=shared, moved_mm=moved, zoom=zoom), sights


def _difference(model: PoseModel, sights: Sights, shared: np.ndarray, own: np.ndarray) -> np.ndarray:
    there = misses(model.stepped(shared, own), sights).miss_px
    return there - misses(model.stepped(-shared, -own), sights).miss_px


def test_surfaces_hold_no_plane() -> None:
    """Square to one another and to every plane at the corners, so that the sheet's own plane stays the sheet's."""
    drawn = np.zeros((24, 4, 3))
    drawn[..., :2] = [marker.corners_mm(SHEET.side_mm) for marker in SHEET.markers]
    surfaces = surfaces_over(drawn, drawn).reshape(96, HEIGHTS)
    plane = np.column_stack([drawn.reshape(-1, 3)[:, :2], np.ones(96)])
    assert np.abs(plane.T @ surfaces).max() <= 1e-6
    assert surfaces.T @ surfaces / 96 == pytest.approx(np.eye(HEIGHTS), abs=1e-9)


def test_solving_may_be_cancelled() -> None:
    """It asks more than once a second of its own work: for each photo while it seeks the lens, then at each round."""
    asked = []

    def tick() -> None:
        asked.append(1)
        if len(asked) == 58:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        poses_of(sifted(), SHEET, 100.0, tick)
    assert len(asked) == 58
