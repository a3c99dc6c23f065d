"""Markers in rendered photos of the sheet: corners against the pinhole equations, gates, and the whole way to poses."""

from __future__ import annotations

from pathlib import Path

import cv2
import numpy as np
import pytest
from photo_files import encoded, exif
from photo_scenes import Camera, photograph, ring, turned

from moldwright.errors import InputRefused
from moldwright.photos.poses.detect import marks_in
from moldwright.photos.poses.find import find_poses
from moldwright.photos.poses.gates import sheet_in, sift
from moldwright.photos.poses.marks import Marks
from moldwright.photos.reading.photo import Photo
from moldwright.photos.reading.read import read_photos
from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.photos.told import PhotoReason

SHEET = photo_sheet(SheetSize.A5)
SMALL = {"width_px": 800, "height_px": 600, "focal_px": 720.0, "off_px": (4.0, -3.0)}
CAMERAS = [turned(c, **SMALL) for c in ring(13, 22, 290, 0, 1) + ring(13, 50, 290, 9, 2)]


def photo(folder: Path, pixels: np.ndarray, name: str = "a") -> Photo:
    np.save(folder / f"{name}.npy", pixels)
    return Photo(name, pixels.shape[1], pixels.shape[0], 0, None, "", folder / f"{name}.npy")


def seen(folder: Path, pixels: np.ndarray, name: str = "a") -> Marks:
    return marks_in(photo(folder, pixels, name))


def off_px(marks: Marks, camera: Camera) -> tuple[float, np.ndarray]:
    """Median and 90th percentile of the corners' distance from where the equations put them; and the mean offset."""
    at = {marker.number: marker.corners_mm(SHEET.side_mm) for marker in SHEET.markers}
    drawn = np.array([at[number] for number in marks.numbers])
    true = camera.seen_px(np.dstack([drawn, np.zeros(drawn.shape[:2])]).reshape(-1, 3)).reshape(-1, 4, 2)
    away = marks.corners_px - true
    return float(np.median(np.linalg.norm(away, axis=2))), away.mean(axis=(0, 1))


@pytest.mark.parametrize(("camera", "most"), [(0, 0.15), (5, 0.15), (15, 0.1), (22, 0.1)])
def test_corners_are_where_the_equations_put_them(camera: int, most: float, tmp_path: Path) -> None:
    """The detector alone is off by 0.5 px and more; markers here are 15 to 50 px large."""
    marks = seen(tmp_path, photograph(CAMERAS[camera], SHEET, seed=camera))
    assert len(marks.numbers) >= 18
    away, mean = off_px(marks, CAMERAS[camera])
    assert away <= most
    assert np.abs(mean).max() <= 0.03


def test_edges_that_ink_and_tone_move_go_along_what_is_told(tmp_path: Path) -> None:
    """Ink that runs 0.5 px wider moves corners by half of `outward_px`, and none of what is left."""
    camera = turned(CAMERAS[14], width_px=1600, height_px=1200, focal_px=1440.0, off_px=(8.0, -6.0))
    whole = photograph(camera, SHEET, blur_px=0.0, noise=0.0)
    wide = cv2.erode(whole, np.ones((3, 3), np.uint8))
    before, after = (seen(tmp_path, cv2.GaussianBlur(pixels, (0, 0), 1.0)) for pixels in (whole, wide))
    both = np.intersect1d(before.numbers, after.numbers)
    assert len(both) >= 18
    before, after = (each.only(np.isin(each.numbers, both)) for each in (before, after))
    moved = after.corners_px - before.corners_px
    share = float((moved * before.outward_px).sum() / (before.outward_px**2).sum())
    assert 0.8 <= share <= 1.5, "a square of three px goes one px to the side and 1.4 px along its diagonal"
    assert np.median(np.linalg.norm(moved - share * before.outward_px, axis=2)) <= 0.25


def test_softness_is_the_blur(tmp_path: Path) -> None:
    """A pixel's own width and the sampling add a little to the blur that was laid on."""
    camera = turned(CAMERAS[14], width_px=1200, height_px=900, focal_px=1080.0)
    for blur in (0.8, 1.6):
        soft = seen(tmp_path, photograph(camera, SHEET, blur_px=blur, noise=1.0)).soft_px
        assert blur <= soft <= blur + 0.35
    sharp = photograph(camera, SHEET, blur_px=0.8, noise=1.0)
    streak = cv2.filter2D(sharp, -1, np.ones((1, 9), np.float32) / 9)
    assert seen(tmp_path, streak).soft_px >= 1.8, "a hand that moved to one side"


def test_gates_tell_each_its_reason(tmp_path: Path) -> None:
    other = photo_sheet(SheetSize.LETTER)
    spoiled = {
        "soft": photograph(CAMERAS[3], SHEET, blur_px=2.6),
        "lost": photograph(CAMERAS[3], SHEET, blur_px=6.0),
        "dark": photograph(CAMERAS[3], SHEET, light=0.002, noise=1.0),
        "dusk": photograph(CAMERAS[3], SHEET, light=0.006, noise=0.3),
        "other": photograph(turned(CAMERAS[3], eye_mm=tuple(1.4 * np.array(CAMERAS[3].eye_mm))), other),
        "none": np.full((600, 800, 3), 140, np.uint8),
    }
    covered = photograph(CAMERAS[16], SHEET)
    covered[:, 200:] = 140
    spoiled["covered"] = covered
    good = [seen(tmp_path, photograph(CAMERAS[k], SHEET, seed=k), f"good-{k}") for k in (1, 8, 15, 20)]
    marks = tuple(good + [seen(tmp_path, pixels, name) for name, pixels in spoiled.items()])
    sheet = sheet_in(marks)
    assert sheet is SHEET
    sifted = sift(marks, sheet)
    assert [each.photo.file for each in sifted.kept] == ["good-1", "good-8", "good-15", "good-20"]
    assert {each.file: each.reason for each in sifted.told} == {
        "soft": PhotoReason.SOFT,
        "lost": PhotoReason.SOFT,
        "dark": PhotoReason.DARK,
        "dusk": PhotoReason.DARK,
        "other": PhotoReason.OTHER_SHEET,
        "none": PhotoReason.FEW_MARKERS,
        "covered": PhotoReason.FEW_MARKERS,
    }


def test_a_folder_of_photos_becomes_poses(tmp_path: Path) -> None:
    """As a phone leaves them: JPEG, every third stood upright by its EXIF, one blurred, one that is no photo."""
    for k, camera in enumerate(CAMERAS):
        pixels = photograph(camera, SHEET, seed=k, blur_px=3.0 if k == 4 else 0.7)
        data = encoded(pixels, quality=92, exif=exif(6 if k % 3 == 0 else 1, 32))
        (tmp_path / f"{k:02d}.jpg").write_bytes(data)
    (tmp_path / "99.jpg").write_bytes(b"%PDF-1.7")
    fractions: list[float] = []
    with read_photos(tmp_path) as photos:
        poses = find_poses(photos, 100.0, lambda stage, fraction: fractions.append(fraction))
        assert [(each.file, each.reason) for each in photos.told] == [("99.jpg", PhotoReason.WRONG_TYPE)]
    assert [(each.file, each.reason) for each in poses.told] == [("04.jpg", PhotoReason.SOFT)]
    assert poses.sheet is SHEET
    assert fractions == sorted(fractions)
    assert fractions[-1] == 1.0
    points = np.random.default_rng(0).uniform((-35, -55, 0), (35, 55, 100), (100, 3))
    for view in poses.views:
        camera = CAMERAS[int(view.file[:2])]
        true = camera.seen_px(points)
        if int(view.file[:2]) % 3 == 0:
            true = np.column_stack([camera.height_px - 1 - true[:, 1], true[:, 0]])
        assert np.median(np.linalg.norm(view.seen_px(points) - true, axis=1)) <= 0.2
    assert poses.views[1].lens.focal_px == pytest.approx(720, rel=2e-3)


def test_photos_without_a_sheet_are_refused(tmp_path: Path) -> None:
    plain = [photo(tmp_path, np.full((300, 400, 3), 140, np.uint8), str(k)) for k in range(3)]
    with pytest.raises(InputRefused) as caught:
        find_poses(plain)
    assert caught.value.code == "no-sheet-in-photos"


def test_cancelling_stops_between_two_photos(tmp_path: Path) -> None:
    def cancel(stage: str, fraction: float) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        find_poses([photo(tmp_path, np.full((300, 400, 3), 140, np.uint8))], progress=cancel)
