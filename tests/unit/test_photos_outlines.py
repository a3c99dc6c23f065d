"""The outline of a ball on the printed sheet, in pictures painted without a renderer: paper, ink and backdrop in their
places, the ball as a disk whose share of each pixel is known."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
from tests.photo_silhouettes import lens, sphere_share, view_from

from moldwright.photos.outlines.find import find_outline, given_outline
from moldwright.photos.outlines.outline import Outline, outline_from
from moldwright.photos.sheet.layout import INK_RGB, PAPER_RGB, photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.photos.view import View

SHEET = photo_sheet(SheetSize.A4)
BACKDROP_RGB = (150, 190, 150)
MIDDLE, RADIUS = np.array([0.0, 0.0, 40.0]), 32.0
COLORS = {
    "white plaster": (214, 212, 206),
    "gray": (128, 128, 130),
    "clay": (120, 92, 72),
    "terracotta": (172, 112, 82),
    "dark": (62, 50, 42),
}


def taken(up_deg: float = 35.0, target: np.ndarray = MIDDLE) -> View:
    up = np.radians(up_deg)
    return view_from(
        target + 330.0 * np.array([0.3, -np.cos(up), np.sin(up)]), target, lens(800, 600, 760.0), "one.jpg"
    )


def linear(rgb: tuple[int, int, int]) -> np.ndarray:
    level = np.array(rgb) / 255.0
    return np.where(level <= 0.04045, level / 12.92, ((level + 0.055) / 1.055) ** 2.4)


def flat(view: View, corners: object) -> np.ndarray:
    at = np.array(corners, np.float64)
    return np.rint(view.seen_px(np.column_stack([at, np.zeros(len(at))]))).astype(np.int32)


def painted(view: View, piece: np.ndarray, rgb: tuple[int, int, int], noise: float = 1.5) -> np.ndarray:
    """A photo: backdrop, sheet with its markers as full squares, a shadow on the sheet, the piece, noise."""
    light = np.empty((view.lens.height_px, view.lens.width_px, 3), np.float32)
    light[:] = linear(BACKDROP_RGB)
    wide, long = SHEET.size.breadth_mm / 2, SHEET.size.length_mm / 2
    cv2.fillPoly(
        light, [flat(view, [(-wide, -long), (wide, -long), (wide, long), (-wide, long)])], linear(PAPER_RGB).tolist()
    )
    for marker in SHEET.markers:
        cv2.fillPoly(light, [flat(view, marker.corners_mm(SHEET.side_mm))], linear(INK_RGB).tolist())
        cv2.fillPoly(light, [flat(view, marker.corners_mm(SHEET.side_mm / 3))], linear(PAPER_RGB).tolist())
    shadow = np.zeros(light.shape[:2], np.float32)
    cv2.fillPoly(shadow, [flat(view, [(-20, -30), (50, -30), (60, 40), (-20, 40)])], 1.0)
    light *= 1.0 - 0.6 * cv2.GaussianBlur(shadow, (0, 0), 6)[..., None]
    light += piece[..., None] * (linear(rgb).astype(np.float32) - light)
    seen = np.where(light <= 0.0031308, 12.92 * light, 1.055 * np.maximum(light, 1e-9) ** (1 / 2.4) - 0.055) * 255
    return np.clip(seen + np.random.default_rng(1).normal(0.0, noise, seen.shape), 0, 255).astype(np.uint8)


def overlap(found: Outline | PhotoTold, piece: np.ndarray) -> float:
    assert isinstance(found, Outline), found
    mask = np.zeros(piece.shape, np.bool_)
    rows, columns = found.signed.shape
    mask[found.top_px : found.top_px + rows, found.left_px : found.left_px + columns] = found.inside
    return float((mask & (piece >= 0.5)).sum() / (mask | (piece >= 0.5)).sum())


@pytest.mark.parametrize("color", COLORS)
def test_the_outline_of_a_ball_of_any_color(color: str) -> None:
    view = taken()
    piece = sphere_share(view, MIDDLE, RADIUS)
    assert overlap(find_outline(painted(view, piece, COLORS[color]), view, SHEET), piece) > 0.98


def test_a_hole_is_kept() -> None:
    view = taken()
    ring = sphere_share(view, MIDDLE, RADIUS) - sphere_share(view, MIDDLE, RADIUS / 2)
    assert overlap(find_outline(painted(view, ring, COLORS["gray"]), view, SHEET), ring) > 0.97


def test_a_stick_beside_the_sheet_is_no_part_of_the_piece() -> None:
    view = taken()
    piece = sphere_share(view, MIDDLE, RADIUS)
    both = np.maximum(piece, sphere_share(view, np.array([-150.0, 60.0, 10.0]), 12.0))
    assert overlap(find_outline(painted(view, both, COLORS["clay"]), view, SHEET), piece) > 0.98


@pytest.mark.parametrize("rgb", [BACKDROP_RGB, PAPER_RGB])
def test_a_piece_of_the_color_of_its_ground_has_no_outline(rgb: tuple[int, int, int]) -> None:
    view = taken()
    told = find_outline(painted(view, sphere_share(view, MIDDLE, RADIUS), rgb), view, SHEET)
    assert isinstance(told, PhotoTold)
    assert told.reason is PhotoReason.NO_OUTLINE
    assert told.figure < told.limit


def test_a_piece_cut_off_by_the_frame_is_told() -> None:
    view = taken(target=np.array([0.0, 0.0, -75.0]))
    piece = sphere_share(view, np.array([0.0, 0.0, 62.0]), 50.0)
    assert piece[0].any()
    told = find_outline(painted(view, piece, COLORS["gray"]), view, SHEET)
    assert isinstance(told, PhotoTold)
    assert told.reason is PhotoReason.AT_THE_FRAME


def test_a_given_mask_is_taken_as_it_is() -> None:
    view = taken()
    piece = sphere_share(view, MIDDLE, RADIUS)
    assert overlap(given_outline(piece >= 0.5, view), piece) > 0.995
    whole = given_outline(np.ones(piece.shape, np.bool_), view)
    none = given_outline(np.zeros(piece.shape, np.bool_), view)
    assert isinstance(whole, PhotoTold)
    assert isinstance(none, PhotoTold)
    assert (whole.reason, none.reason) == (PhotoReason.AT_THE_FRAME, PhotoReason.NO_OUTLINE)


def test_signed_distances_of_a_disk() -> None:
    """From the disk's equation: sqrt(x^2 + y^2) - r; smoothing by a Gaussian of 0.8 px moves its edge 0.8^2 / 2r."""
    at = np.indices((160, 200)) + 0.37
    far = np.hypot(at[0] - 80.0, at[1] - 101.0) - 40.0
    found = outline_from(np.clip(0.5 - far, 0.0, 1.0).astype(np.float32))
    assert found is not None
    rows, columns = found.signed.shape
    exact = far[found.top_px : found.top_px + rows, found.left_px : found.left_px + columns]
    near = np.abs(exact) < 15
    assert np.abs(found.signed / 64 - exact)[near].max() < 0.35
    assert abs((found.signed / 64 - exact)[near].mean()) < 0.03
    (line,) = found.lines_px()
    assert np.abs(np.hypot(line[:, 1] + 0.37 - 80.0, line[:, 0] + 0.37 - 101.0) - 39.5).max() < 0.8
