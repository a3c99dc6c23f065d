"""Markers as photos would show them, straight from the pinhole equations: corners with noise and bleed, no pixels."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
from photo_scenes import Camera, Floats

from moldwright.photos.poses.marks import Marks
from moldwright.photos.reading.photo import Photo
from moldwright.photos.sheet.layout import PhotoSheet

Bent = Callable[[Floats, Floats], Floats]


def photo(camera: Camera, file: str, quarters: int = 0, focal_35mm: float | None = None) -> Photo:
    """A photo without pixels; with an odd number of quarter turns it stands."""
    sides = (camera.height_px, camera.width_px) if quarters % 2 else (camera.width_px, camera.height_px)
    return Photo(file, *sides, quarters, focal_35mm, "", Path(file))


def marks(
    camera: Camera,
    sheet: PhotoSheet,
    file: str,
    seed: int = 0,
    noise_px: float = 0.1,
    bleed_px: float = 0.2,
    stretch: float = 0.0,
    bent: Bent | None = None,
    quarters: int = 0,
    focal_35mm: float | None = None,
) -> Marks:
    """The markers in the frame; `quarters` : turns clockwise that the photo was then stood upright by."""
    rng = np.random.default_rng(seed)
    corners = np.array([marker.corners_mm(sheet.side_mm) for marker in sheet.markers])
    height = bent(corners[..., 0], corners[..., 1]) if bent else np.zeros(corners.shape[:2])
    lying = np.dstack([corners[..., 0] * (1 + stretch), corners[..., 1], height]).reshape(-1, 3)
    seen = camera.seen_px(lying).reshape(-1, 4, 2)
    outward = _outward(seen)
    seen = seen + bleed_px * outward + rng.normal(0, noise_px, seen.shape)
    inside = ((seen > 2) & (seen < (camera.width_px - 3, camera.height_px - 3))).all(axis=(1, 2))
    one, other = seen[:, 2] - seen[:, 0], seen[:, 3] - seen[:, 1]
    area = 0.5 * np.abs(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])
    side = np.linalg.norm(seen - np.roll(seen, 1, axis=1), axis=2).max(axis=1)
    told = photo(camera, file, quarters, focal_35mm)
    turned, out = _stood_up(seen, camera, quarters), _stood_up(outward, camera, quarters, way=True)
    numbers = np.array([marker.number for marker in sheet.markers])
    return Marks(told, numbers, turned, out, area / side, 1.0, 100.0).only(inside)


def stood_up(points: Floats, camera: Camera, quarters: int) -> Floats:
    """Points of the lying photo on the one that was stood upright."""
    return _stood_up(points, camera, quarters)


def _stood_up(points: Floats, camera: Camera, quarters: int, way: bool = False) -> Floats:
    """Quarter by quarter: a point (x, y) of a photo h high goes to (h - 1 - y, x)."""
    sides = [camera.width_px, camera.height_px]
    for _ in range(quarters):
        x, y = points[..., 0], points[..., 1]
        points = np.stack([-y if way else sides[1] - 1 - y, x], axis=-1)
        sides.reverse()
    return points


def _outward(seen: Floats) -> Floats:
    """How far corners, clockwise as seen, go where each side goes out by 1: (n1 + n2) / (1 + n1.n2), n its normals."""
    run = np.roll(seen, -1, axis=1) - seen
    run /= np.linalg.norm(run, axis=2, keepdims=True)
    after = np.stack([run[..., 1], -run[..., 0]], axis=-1)
    before = np.roll(after, 1, axis=1)
    return (after + before) / (1 + (after * before).sum(axis=-1, keepdims=True))
