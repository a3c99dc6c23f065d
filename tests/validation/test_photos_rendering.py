"""Is what the renderer calls true also true of its pictures?

Against OpenCV's camera model (`projectPoints`, `undistortPoints`), its marker detector, and a ball's outline, which in
directions is a circular cone about the way to its middle (closed form).
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import cv2
import numpy as np
import pytest
import trimesh
from PIL import Image, ImageOps
from tests.photo_sets.camera import TrueView
from tests.photo_sets.shoot import Shoot, shoot, take
from tests.photo_sets.truth import Truth, read_truth

from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.sheet.sizes import SheetSize

SOURCE = (
    "Reference library OpenCV: projectPoints, undistortPoints, marker detection",
    "A ball's outline is a circular cone of directions; closed form",
)
RADIUS_MM = 40.0
HOW = Shoot(seed=4, width_px=1200, height_px=900, rings=((18.0, 2), (50.0, 1)))


@pytest.fixture(scope="module")
def ball_set(tmp_path_factory: pytest.TempPathFactory) -> Truth:
    """A fine ball on an A4 sheet, three photos; read back as others read it."""
    folder = tmp_path_factory.mktemp("ball")
    ball = trimesh.creation.icosphere(subdivisions=4, radius=RADIUS_MM)
    shoot(ball, SheetSize.A4, folder, HOW)
    return read_truth(folder)


def matrix(view: TrueView) -> np.ndarray:
    """OpenCV's camera matrix."""
    lens = view.lens
    return np.array([[lens.focal_px, 0, lens.center_px[0]], [0, lens.focal_px, lens.center_px[1]], [0, 0, 1.0]])


def bends(view: TrueView) -> np.ndarray:
    """OpenCV's distortion terms."""
    return np.array([view.lens.k1, view.lens.k2, 0, 0])


def picture(truth: Truth, view: TrueView) -> np.ndarray:
    """The photo upright, gray."""
    with Image.open(truth.folder / view.file) as image:
        return np.asarray(ImageOps.exif_transpose(image).convert("L"))


def test_a_point_is_where_opencv_sees_it(ball_set: Truth) -> None:
    points = np.array(ball_set.body.vertices[::50])
    for view in ball_set.views:
        turn, _ = cv2.Rodrigues(view.rotation)
        theirs, _ = cv2.projectPoints(points, turn, view.shift_mm, matrix(view), bends(view))
        assert view.seen_px(points) == pytest.approx(theirs.reshape(-1, 2), abs=1e-6)


def test_markers_are_found_where_the_true_poses_put_them(ball_set: Truth) -> None:
    sheet = photo_sheet(SheetSize.A4)
    asked = cv2.aruco.DetectorParameters()
    asked.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    finder = cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_250), asked)
    placed = {m.number: np.array([[*c, 0.0] for c in m.corners_mm(sheet.side_mm)]) for m in sheet.markers}
    off = []
    for view in ball_set.views:
        corners, numbers, _ = finder.detectMarkers(picture(ball_set, view))
        assert len(numbers) >= 10
        off += [c.reshape(4, 2) - view.seen_px(placed[int(n)]) for c, n in zip(corners, numbers.ravel(), strict=True)]
    every = np.concatenate(off)
    assert np.abs(np.median(every, axis=0)).max() < 0.1  # half a pixel of another convention would show
    assert np.median(np.linalg.norm(every, axis=1)) < 0.6  # the detector's own doubt


def test_a_ball_has_the_outline_of_its_cone(ball_set: Truth) -> None:
    middle = ball_set.body.bounds.mean(axis=0)
    for view in ball_set.views:
        mask = ball_set.mask(view) > 0
        v, u = np.mgrid[: mask.shape[0], : mask.shape[1]].astype(float)
        flat = cv2.undistortPoints(np.stack([u, v], -1).reshape(-1, 1, 2), matrix(view), bends(view)).reshape(-1, 2)
        rays = np.column_stack([flat, np.ones(len(flat))])
        way = view.rotation @ middle + view.shift_mm
        apart = rays @ way / np.linalg.norm(rays, axis=1) / np.linalg.norm(way)
        cone = (apart > np.sqrt(1 - (RADIUS_MM / np.linalg.norm(way)) ** 2)).reshape(mask.shape)
        assert (mask & cone).sum() / (mask | cone).sum() > 0.995


def test_the_piece_throws_a_shadow_on_the_sheet_beside_it(ball_set: Truth) -> None:
    """Of a set without the piece's shadow nothing could be told: the same paper is darker beside the piece."""
    sheet, view = photo_sheet(SheetSize.A4), ball_set.views[2]
    codes = picture(ball_set, view).astype(float)
    away = np.linspace(-0.45, 0.45, 25)
    paper = np.array([[x * sheet.middle_mm[0], y * sheet.middle_mm[1], 0.0] for x in away for y in away])
    middle = ball_set.body.bounds.mean(axis=0)
    far = np.hypot(*(paper - middle)[:, :2].T)
    at = view.seen_px(paper).round().astype(int)
    free = np.array([ball_set.mask(view)[y, x] == 0 for x, y in at]) & (np.abs(paper[:, :2]).max(axis=1) > 14)
    seen = np.array([codes[y, x] for x, y in at])
    near, wide = free & (far < 1.1 * RADIUS_MM), free & (far > 2 * RADIUS_MM)
    assert np.percentile(seen[near], 10) < 0.8 * np.median(seen[wide])


def test_a_seed_takes_the_same_photos_again(ball_set: Truth, tmp_path: Path) -> None:
    take(ball_set.body, again := replace(ball_set, folder=tmp_path), ball_set.views[:1], HOW)
    first, second = (picture(truth, truth.views[0]).astype(int) for truth in (ball_set, again))
    assert np.abs(first - second).mean() < 0.05
