"""Photos of a printed sheet alone, made from the pinhole equations: the pose and the lens behind each are known.

Every pixel's ray is undistorted by fixed-point iteration, met with the sheet (flat, or bent to a known height) and
takes the drawing's color there. No code of the program is used but the sheet's layout.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import cv2
import numpy as np
import numpy.typing as npt

from moldwright.photos.sheet.layout import INK_RGB, PAPER_RGB, PhotoSheet

PER_MM = 5
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


def drawing(sheet: PhotoSheet) -> npt.NDArray[np.uint8]:
    """The sheet's print, `PER_MM` px per mm, top row at its back edge."""
    wide, long = round(sheet.size.breadth_mm * PER_MM), round(sheet.size.length_mm * PER_MM)
    picture = np.empty((long, wide, 3), np.uint8)
    picture[:] = PAPER_RGB
    for marker in sheet.markers:
        corners = (
            np.array(marker.corners_mm(sheet.side_mm)) * (1, -1) + (wide / PER_MM / 2, long / PER_MM / 2)
        ) * PER_MM
        bits = DICTIONARY.getMarkerBits(marker.number) if hasattr(DICTIONARY, "getMarkerBits") else None
        _draw(picture, corners, marker.number, bits)
    return picture


def _draw(picture: npt.NDArray[np.uint8], corners: Floats, number: int, bits: object) -> None:
    """A marker whose edges fall between pixels: drawn large, then laid down by area."""
    del bits
    cells = cv2.aruco.generateImageMarker(DICTIONARY, number, 6)
    fine = cv2.resize(cells, (1200, 1200), interpolation=cv2.INTER_NEAREST)
    (x0, y0), (x1, y1) = corners[0], corners[2]
    left, top, right, bottom = int(np.floor(x0)), int(np.floor(y0)), int(np.ceil(x1)), int(np.ceil(y1))
    many = 8
    xs = (np.arange(left * many, right * many) + 0.5) / many
    ys = (np.arange(top * many, bottom * many) + 0.5) / many
    u, v = (xs - x0) / (x1 - x0) * 1200, (ys - y0) / (y1 - y0) * 1200
    inside = ((u >= 0) & (u < 1200))[None] & ((v >= 0) & (v < 1200))[:, None]
    black = (fine[np.clip(v, 0, 1199).astype(int)[:, None], np.clip(u, 0, 1199).astype(int)[None]] == 0) & inside
    share = black.reshape(bottom - top, many, right - left, many).mean(axis=(1, 3))[..., None]
    patch = share * INK_RGB + (1 - share) * PAPER_RGB
    picture[top:bottom, left:right] = np.round(patch)


def photograph(
    camera: Camera,
    sheet: PhotoSheet,
    print_scale: tuple[float, float] = (1.0, 1.0),
    height_mm: object = None,
    blur_px: float = 0.7,
    noise: float = 2.0,
    light: float = 1.0,
    seed: int = 0,
) -> npt.NDArray[np.uint8]:
    """The photo, (height, width, 3), of a sheet whose print came out at another scale or lies bent.

    `height_mm` : a callable of (x, y) [mm] that gives the height of the paper [mm].
    """
    texture = drawing(sheet)
    x, y = _on_sheet(camera, height_mm)
    u = (x / print_scale[0] + sheet.size.breadth_mm / 2) * PER_MM - 0.5
    v = (sheet.size.length_mm / 2 - y / print_scale[1]) * PER_MM - 0.5
    picture = cv2.remap(
        texture, u.astype(np.float32), v.astype(np.float32), cv2.INTER_LINEAR, borderValue=(120, 140, 120)
    )
    picture = cv2.resize(picture, (camera.width_px, camera.height_px), interpolation=cv2.INTER_AREA).astype(np.float64)
    if blur_px:
        picture = cv2.GaussianBlur(picture, (0, 0), blur_px)
    grain = np.random.default_rng(seed).normal(0, noise, picture.shape)
    return np.clip(np.round(picture * light + grain), 0, 255).astype(np.uint8)


def _on_sheet(camera: Camera, height_mm: object) -> tuple[Floats, Floats]:
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
    rays = np.stack([x, y, np.ones_like(x)], axis=-1) @ camera.rotation
    eye = np.array(camera.eye_mm)
    height = np.zeros(x.shape)
    for _ in range(1 if height_mm is None else 12):
        far = (height - eye[2]) / np.minimum(rays[..., 2], -1e-6)
        at = eye + far[..., None] * rays
        if height_mm is not None:
            height = height_mm(at[..., 0], at[..., 1])
    above = rays[..., 2] > -1e-6
    return np.where(above, 1e6, at[..., 0]), np.where(above, 1e6, at[..., 1])


def turned(camera: Camera, **other: object) -> Camera:
    """The camera with something else."""
    return replace(camera, **other)
