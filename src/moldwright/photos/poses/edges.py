"""Corners of markers to a tenth of a pixel: a straight line through each edge's steepest places, and where two meet.

Light is made linear first (IEC 61966-2-1); what a camera's own tone curve and the printer's ink still move all edges
outward or inward by is left to the poses, which know the markers' true size (`Marks.outward_px`).
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Bytes = npt.NDArray[np.uint8]
ALONG = np.linspace(0.1, 0.9, 24)
ACROSS = np.linspace(-1.0, 1.0, 17)
STEPS = (ACROSS[1:] + ACROSS[:-1]) / 2
REACH_MODULES, REACH_PX = 0.6, (1.5, 5.0)
WINDOW = 0.35
_SHARE = np.arange(256) / 255.0
LINEAR = (255.0 * np.where(_SHARE <= 0.04045, _SHARE / 12.92, ((_SHARE + 0.055) / 1.055) ** 2.4)).astype(np.float32)
BETWEEN = ALONG - 0.5


@dataclass(frozen=True, slots=True, eq=False)
class FittedEdges:
    """Corners (n, 4, 2) [px], how far each goes where every edge goes outward by 1 px; of each edge (n, 4) the whole
    rise from ink to paper (linear light, 255 at most) and the steepest, over one px."""

    corners_px: Floats
    outward_px: Floats
    rise: Floats
    steepest: Floats

    def soft_px(self) -> float:
        """Spread of the softer edges [px]: a blur of this standard deviation makes a step as steep as they are.

        Motion softens the edges across it alone, so the softer fifth tells; a wide blur hides part of the rise from
        all but the largest markers, so the larger rises tell how high the step is.
        """
        if not len(self.rise):
            return 0.0
        height, slope = np.percentile(self.rise, 80), np.percentile(self.steepest, 20)
        return float(height / np.sqrt(2 * np.pi) / max(slope, 1e-6))


def fit_edges(gray: Bytes, corners_px: Floats) -> FittedEdges:
    """The corners of dark squares on light paper, measured anew.

    Parameters
    ----------
    gray : (height, width), as the camera wrote it.
    corners_px : (n, 4, 2) to two pixels or so, clockwise as seen.
    """
    light = np.asarray(cv2.LUT(gray, LINEAR), dtype=np.float32)
    corners = np.asarray(corners_px, dtype=np.float64)
    for _ in range(2):
        sides = _Sides(corners)
        across, rise, steepest = _edges(light, sides)
        corners = sides.meet(across)
    return FittedEdges(corners, _Sides(corners).outward(), rise, steepest)


class _Sides:
    """The four sides of each square: starts, ends, outward normals, and how far out and in they are looked at."""

    def __init__(self, corners: Floats) -> None:
        self.start, self.end = corners, np.roll(corners, -1, axis=1)
        run = self.end - self.start
        self.length = np.maximum(np.linalg.norm(run, axis=2), 1e-6)
        along = run / self.length[..., None]
        self.normal = np.stack([along[..., 1], -along[..., 0]], axis=-1)
        self.reach = np.clip(self.length / 6 * REACH_MODULES, *REACH_PX)

    def samples(self) -> Floats:
        """(n, 4, along, across, 2) [px]."""
        on = self.start[:, :, None] + (self.end - self.start)[:, :, None] * ALONG[:, None]
        out = ACROSS * self.reach[..., None]
        return np.asarray(on[:, :, :, None] + self.normal[:, :, None, None] * out[:, :, None, :, None])

    def meet(self, across: Floats) -> Floats:
        """Corners where the sides meet once moved out by `across` px at their start and end, (n, 4, 2)."""
        first = self.start + self.normal * across[..., :1]
        run = self.end + self.normal * across[..., 1:] - first
        before, before_run = np.roll(first, 1, axis=1), np.roll(run, 1, axis=1)
        turn = _cross(before_run, run)
        turn = np.where(np.abs(turn) < 1e-9, 1e-9, turn)
        return np.asarray(before + before_run * (_cross(first - before, run) / turn)[..., None])

    def outward(self) -> Floats:
        """How far the corners go where every side goes outward by 1 px, (n, 4, 2)."""
        return self.meet(np.ones((*self.length.shape, 2))) - self.start


def _cross(a: Floats, b: Floats) -> Floats:
    return np.asarray(a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0])


def _edges(light: npt.NDArray[np.float32], sides: _Sides) -> tuple[Floats, Floats, Floats]:
    """How far out each side really is at its start and end, (n, 4, 2) [px], its rise and its steepest, (n, 4)."""
    at = sides.samples().astype(np.float32)
    flat = at.reshape(-1, ALONG.size * ACROSS.size, 2)
    seen = cv2.remap(light, flat[..., 0], flat[..., 1], cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    rise = np.maximum(np.diff(np.asarray(seen, dtype=np.float64).reshape(at.shape[:4]), axis=3), 0.0)
    whole = rise.sum(axis=3)
    middle = (rise * STEPS).sum(axis=3) / np.maximum(whole, 1e-6)
    for _ in range(2):
        near = rise * np.exp(-0.5 * ((STEPS - middle[..., None]) / WINDOW) ** 2)
        middle = (near * STEPS).sum(axis=3) / np.maximum(near.sum(axis=3), 1e-6)
    clear = whole > 0.5 * np.median(whole, axis=2, keepdims=True)
    step_px = sides.reach * (ACROSS[1] - ACROSS[0])
    steepest = np.median(rise, axis=2).max(axis=2) / step_px
    return _line(middle * sides.reach[..., None], clear), np.median(whole, axis=2), steepest


def _line(out: Floats, clear: npt.NDArray[np.bool_]) -> Floats:
    """A straight line through offsets along a side, strays weighed down: its offsets at the start and the end."""
    weight = clear.astype(np.float64)
    ends = np.zeros((*out.shape[:2], 2))
    for _ in range(4):
        s0, s1, s2 = ((weight * BETWEEN**k).sum(axis=2) for k in range(3))
        t0, t1 = ((weight * BETWEEN**k * out).sum(axis=2) for k in range(2))
        whole = np.maximum(s0 * s2 - s1 * s1, 1e-9)
        level, slope = (s2 * t0 - s1 * t1) / whole, (s0 * t1 - s1 * t0) / whole
        stray = np.abs(out - level[..., None] - slope[..., None] * BETWEEN)
        usual = 1.5 * np.median(stray, axis=2, keepdims=True) + 0.02
        weight = clear / (1 + (stray / (2 * usual)) ** 2) ** 2
        ends = np.stack([level - slope / 2, level + slope / 2], axis=-1)
    return ends
