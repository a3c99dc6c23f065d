"""A phone's camera: its lens with two radial terms, its pose, and where each point of its picture looks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
DIAGONAL_35_MM = 43.267
STEPS = 2000


@dataclass(frozen=True, slots=True)
class TrueLens:
    """`focal_px`, `center_px`, `k1`, `k2` on a picture of `width_px` x `height_px`; first pixel's middle at 0, 0."""

    width_px: int
    height_px: int
    focal_px: float
    center_px: tuple[float, float]
    k1: float
    k2: float

    @property
    def focal_35_mm(self) -> float:
        """By the diagonal, as phones tell it."""
        return self.focal_px * DIAGONAL_35_MM / float(np.hypot(self.width_px, self.height_px))


@dataclass(frozen=True, slots=True, eq=False)
class TrueView:
    """Where a photo was taken from: `x_camera = rotation x_sheet + shift_mm`; camera x right, y down, z ahead."""

    file: str
    lens: TrueLens
    rotation: Floats
    shift_mm: Floats

    @property
    def eye_mm(self) -> Floats:
        """The camera's place on the sheet [mm]."""
        return np.asarray(-self.rotation.T @ self.shift_mm)

    def seen_px(self, points_mm: Floats) -> Floats:
        """Where points are on the photo, (n, 2) [px]."""
        at = points_mm @ self.rotation.T + self.shift_mm
        flat = at[:, :2] / at[:, 2:]
        return np.asarray(self.lens.focal_px * bent(flat, self.lens) + self.lens.center_px)


def bent(flat: Floats, lens: TrueLens) -> Floats:
    """Directions as the lens shows them, from directions as they are (both as tangents)."""
    r2 = (flat**2).sum(axis=1, keepdims=True)
    return np.asarray(flat * (1 + lens.k1 * r2 + lens.k2 * r2**2))


def straight(seen: Floats, lens: TrueLens) -> Floats:
    """The other way: by Newton's method on the radius."""
    shown = np.sqrt((seen**2).sum(axis=1, keepdims=True))
    r = shown.copy()
    for _ in range(6):
        q = r * r
        r -= (r * (1 + q * (lens.k1 + q * lens.k2)) - shown) / (1 + q * (3 * lens.k1 + q * 5 * lens.k2))
    return np.asarray(seen * (r / np.maximum(shown, 1e-12)))


def looking(eye_mm: Floats, aim_mm: Floats, roll: float) -> tuple[Floats, Floats]:
    """Rotation and shift of a camera at `eye_mm` that aims at `aim_mm`, turned about its axis by `roll` [rad]."""
    ahead = (aim_mm - eye_mm) / np.linalg.norm(aim_mm - eye_mm)
    up = np.array([0.0, 0.0, 1.0]) if abs(ahead[2]) < 0.999 else np.array([0.0, 1.0, 0.0])
    right = np.cross(ahead, up)
    right /= np.linalg.norm(right)
    down = np.cross(ahead, right)
    turned = np.cos(roll) * right + np.sin(roll) * down, np.cos(roll) * down - np.sin(roll) * right
    rotation = np.stack([*turned, ahead])
    return rotation, -rotation @ eye_mm


def source_map(lens: TrueLens, frame_px: tuple[int, int], frame_focal_px: float) -> tuple[npt.NDArray[np.float32], ...]:
    """For each pixel of the photo, where it lies on a straight rendering with its axis in its middle (x, y maps)."""
    x = (np.arange(lens.width_px) - lens.center_px[0]) / lens.focal_px
    y = (np.arange(lens.height_px) - lens.center_px[1]) / lens.focal_px
    r2 = x[None, :] ** 2 + y[:, None] ** 2
    shown = np.linspace(0, np.sqrt(r2.max()), STEPS + 1)[1:]
    unbent = straight(np.column_stack([shown, 0 * shown]), lens)[:, 0] / shown
    ratio = np.interp(r2, np.concatenate([[0.0], shown**2]), np.concatenate([[1.0], unbent])) * frame_focal_px
    middle = (frame_px[0] - 1) / 2, (frame_px[1] - 1) / 2
    return (ratio * x[None, :] + middle[0]).astype(np.float32), (ratio * y[:, None] + middle[1]).astype(np.float32)


def widest(lens: TrueLens) -> tuple[float, float]:
    """Half the breadth and height of the straight rendering that holds the whole photo, as tangents."""
    w, h = lens.width_px - 1, lens.height_px - 1
    edge = [(x, y) for x in np.linspace(0, w, 41) for y in (0, h)] + [
        (x, y) for y in np.linspace(0, h, 41) for x in (0, w)
    ]
    at = np.abs(straight((np.array(edge) - lens.center_px) / lens.focal_px, lens))
    return float(at[:, 0].max()), float(at[:, 1].max())
