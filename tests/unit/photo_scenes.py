"""Photos of a printed sheet alone, made from the pinhole equations: the pose and the lens behind each are known.

Every pixel's ray is undistorted by fixed-point iteration, met with the flat sheet and takes the drawing's color there.
No code of the program is used but the sheet's layout.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import cv2
import numpy as np
import numpy.typing as npt

from moldwright.photos.sheet.layout import INK_RGB, PAPER_RGB, PhotoSheet

PER_MM = 5
GAMMA = 2.2
TABLE_RGB = (120, 140, 120)
DICTIONARY = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_250)
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Camera:
    """A lens (focal length and principal point in px, k1, k2) at a place, looking at a point, rolled."""

    eye_mm: tuple[float, float, float]
    at_mm: tuple[float, float, float] = (0.0, 0.0, 0.0)
    roll_deg: float = 0.0
    width_px: int = 1000
    height_px: int = 750
    focal_px: float = 900.0
    off_px: tuple[float, float] = (6.0, -4.0)
    k1: float = 0.05
    k2: float = -0.08

    @property
    def center_px(self) -> tuple[float, float]:
        return (self.width_px - 1) / 2 + self.off_px[0], (self.height_px - 1) / 2 + self.off_px[1]

    @property
    def rotation(self) -> Floats:
        eye, at = np.array(self.eye_mm), np.array(self.at_mm)
        z = (at - eye) / np.linalg.norm(at - eye)
        side = np.cross(z, (0.0, 0.0, 1.0)) if abs(z[2]) < 0.999 else np.array((1.0, 0.0, 0.0))
        x = side / np.linalg.norm(side)
        y = np.cross(z, x)
        a = np.radians(self.roll_deg)
        return np.array([np.cos(a) * x + np.sin(a) * y, -np.sin(a) * x + np.cos(a) * y, z])

    def seen_px(self, points_mm: Floats) -> Floats:
        at = (points_mm - self.eye_mm) @ self.rotation.T
        x, y = at[:, 0] / at[:, 2], at[:, 1] / at[:, 2]
        r2 = x * x + y * y
        bent = 1 + self.k1 * r2 + self.k2 * r2 * r2
        return np.column_stack([self.focal_px * x * bent, self.focal_px * y * bent]) + self.center_px


def ring(
    count: int, elevation_deg: float, distance_mm: float, start_deg: float = 0.0, jitter: int | None = None
) -> list[Camera]:
    """Cameras round the sheet, clockwise from its front edge, with a hand's unsteadiness where `jitter` seeds it."""
    rng = np.random.default_rng(jitter)
    cameras = []
    for k in range(count):
        wobble = rng.normal(size=6) if jitter is not None else np.zeros(6)
        azimuth = np.radians(start_deg + 360 * k / count + 3 * wobble[0])
        elevation = np.radians(elevation_deg + 2 * wobble[1])
        out = np.array([-np.sin(azimuth) * np.cos(elevation), -np.cos(azimuth) * np.cos(elevation), np.sin(elevation)])
        eye = out * distance_mm * (1 + 0.05 * wobble[2])
        at = (8 * wobble[3], 8 * wobble[4], 20.0)
        cameras.append(Camera(tuple(eye), at, 3 * wobble[5]))
    return cameras


def two_rings(distance_mm: float, jitter: int | None = 1) -> list[Camera]:
    """24 photos low, 24 photos high."""
    return ring(24, 22, distance_mm, 0, jitter) + ring(24, 50, distance_mm, 7, jitter and jitter + 1)


@lru_cache(maxsize=2)
def drawing(sheet: PhotoSheet) -> npt.NDArray[np.uint8]:
    """The sheet's print, `PER_MM` px per mm, top row at its back edge."""
    wide, long = round(sheet.size.breadth_mm * PER_MM), round(sheet.size.length_mm * PER_MM)
    picture = np.empty((long, wide, 3), np.uint8)
    picture[:] = PAPER_RGB
    middle = np.array([wide, long]) / 2
    for marker in sheet.markers:
        corners = np.array(marker.corners_mm(sheet.side_mm)) * (PER_MM, -PER_MM) + middle
        _draw(picture, corners, cv2.aruco.generateImageMarker(DICTIONARY, marker.number, 6))
    return picture


def _draw(picture: npt.NDArray[np.uint8], corners: Floats, cells: npt.NDArray[np.uint8]) -> None:
    """A marker whose edges fall between pixels: each pixel takes the ink's share of its area."""
    (x0, y0), (x1, y1) = corners[0], corners[2]
    left, top, right, bottom = int(np.floor(x0)), int(np.floor(y0)), int(np.ceil(x1)), int(np.ceil(y1))
    many = 8
    column = (np.arange(left * many, right * many) + 0.5) / many
    row = (np.arange(top * many, bottom * many) + 0.5) / many
    u, v = np.floor((column - x0) / (x1 - x0) * 6).astype(int), np.floor((row - y0) / (y1 - y0) * 6).astype(int)
    inside = ((u >= 0) & (u < 6))[None] & ((v >= 0) & (v < 6))[:, None]
    black = (cells[np.clip(v, 0, 5)[:, None], np.clip(u, 0, 5)[None]] == 0) & inside
    share = black.reshape(bottom - top, many, right - left, many).mean(axis=(1, 3))[..., None]
    picture[top:bottom, left:right] = np.round(share * INK_RGB + (1 - share) * PAPER_RGB)


def photograph(
    camera: Camera,
    sheet: PhotoSheet,
    blur_px: float = 0.7,
    noise: float = 2.0,
    light: float = 1.0,
    seed: int = 0,
) -> npt.NDArray[np.uint8]:
    """The photo, (height, width, 3), of a flat sheet; `blur_px` is laid on linear light, `noise` on the levels."""
    x, y = _on_sheet(camera)
    u = (x + sheet.size.breadth_mm / 2) * PER_MM - 0.5
    v = (sheet.size.length_mm / 2 - y) * PER_MM - 0.5
    linear = (drawing(sheet) / 255.0).astype(np.float32) ** GAMMA
    far = tuple((np.array(TABLE_RGB) / 255.0) ** GAMMA)
    maps = u.astype(np.float32), v.astype(np.float32)
    picture = cv2.remap(linear, *maps, cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=far)
    picture = cv2.resize(picture, (camera.width_px, camera.height_px), interpolation=cv2.INTER_AREA)
    if blur_px:
        picture = cv2.GaussianBlur(picture, (0, 0), blur_px)
    levels = 255.0 * np.clip(picture * light, 0, 1) ** (1 / GAMMA)
    grain = np.random.default_rng(seed).normal(0, noise, levels.shape)
    return np.clip(np.round(levels + grain), 0, 255).astype(np.uint8)


def _on_sheet(camera: Camera) -> tuple[Floats, Floats]:
    """Where each ray meets the paper, rays at twice the pixels each way."""
    cx, cy = camera.center_px
    px = (np.arange(2 * camera.width_px) + 0.5) / 2 - 0.5
    py = (np.arange(2 * camera.height_px) + 0.5) / 2 - 0.5
    xd, yd = np.meshgrid((px - cx) / camera.focal_px, (py - cy) / camera.focal_px)
    x, y = xd.copy(), yd.copy()
    for _ in range(8):
        r2 = x * x + y * y
        bent = 1 + camera.k1 * r2 + camera.k2 * r2 * r2
        x, y = xd / bent, yd / bent
    down = [x * camera.rotation[0, k] + y * camera.rotation[1, k] + camera.rotation[2, k] for k in range(3)]
    far = -camera.eye_mm[2] / np.minimum(down[2], -1e-6)
    above = down[2] > -1e-6
    return (np.where(above, 1e6, camera.eye_mm[k] + far * down[k]) for k in range(2))


def turned(camera: Camera, **other: object) -> Camera:
    """The camera with something else."""
    return replace(camera, **other)
