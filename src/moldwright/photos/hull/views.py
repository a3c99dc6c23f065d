"""Views and their outlines as flat arrays, so that compiled code runs over all of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.photos.outlines.outline import PARTS_OF_A_PIXEL, Outline
from moldwright.photos.view import Lens, View

FIRST, ROWS, COLUMNS, LEFT, TOP = range(5)
FOCAL, X0, Y0, K1, K2, R2_MOST = range(12, 18)
UNSEEN_MM = 1e6
"""How far outside a point is that the lens cannot see: the piece is wholly in the frame."""
BEYOND_FRAME = 1.3


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """A photo that is used: its pose, its outline, and where it can be matched the gray levels in its box."""

    view: View
    outline: Outline
    gray: NDArray[np.uint8] | None = None


@dataclass(frozen=True, slots=True, eq=False)
class FlatViews:
    """`cameras` : (n, 18) rotation by rows, shift [mm], focal length, middle, k1, k2, furthest radius squared;
    `boxes` : (n, 5) where each outline starts in `signed`, its rows and columns, its left and top pixel."""

    cameras: NDArray[np.float64]
    boxes: NDArray[np.int64]
    signed: NDArray[np.int16]

    def only(self, chosen: Sequence[int]) -> FlatViews:
        """Only some of the views; outlines are shared, not copied.

        Parameters
        ----------
        chosen : their numbers.
        """
        which = np.asarray(chosen, np.int64)
        return FlatViews(self.cameras[which], self.boxes[which], self.signed)


def flat_views(seen: Sequence[Seen]) -> FlatViews:
    """Views and outlines as flat arrays.

    Parameters
    ----------
    seen : photos that are used, one or more.
    """
    cameras = np.array([_camera(one.view) for one in seen])
    sizes = np.array([one.outline.signed.size for one in seen], np.int64)
    first = np.concatenate([[0], np.cumsum(sizes)[:-1]])
    boxes = [
        (int(start), *one.outline.signed.shape, one.outline.left_px, one.outline.top_px)
        for start, one in zip(first, seen, strict=True)
    ]
    return FlatViews(cameras, np.array(boxes, np.int64), np.concatenate([one.outline.signed.ravel() for one in seen]))


def _camera(view: View) -> NDArray[np.float64]:
    lens = view.lens
    tail = (lens.focal_px, *lens.center_px, lens.k1, lens.k2, _furthest_r2(lens))
    return np.concatenate([view.rotation.ravel(), view.shift_mm, tail])


def _furthest_r2(lens: Lens) -> float:
    """Up to where the lens is believed: past the frame's corner, before its radius would fold back."""
    x, y = lens.center_px
    corner = np.hypot(max(x, lens.width_px - x), max(y, lens.height_px - y)) / lens.focal_px
    r = np.linspace(0.0, 3.0 * corner, 600)
    bent = r * (1.0 + r**2 * (lens.k1 + r**2 * lens.k2))
    folds = np.flatnonzero(np.diff(bent) <= 0)
    past = np.flatnonzero(bent >= BEYOND_FRAME * corner)
    last = min(int(folds[0]) if len(folds) else 599, int(past[0]) if len(past) else 599)
    return float(r[last] ** 2)


@nb.njit(cache=True, inline="always")
def signed_at(signed: Any, box: Any, x: float, y: float) -> float:
    """Signed distance at a place of the photo [px], straight between pixels; outside the box what it is at least."""
    rows, columns = box[ROWS], box[COLUMNS]
    u, v = x - box[LEFT], y - box[TOP]
    cu, cv = min(max(u, 0.0), columns - 1.001), min(max(v, 0.0), rows - 1.001)
    i, j = int(cv), int(cu)
    a, b = cv - i, cu - j
    at = box[FIRST] + i * columns + j
    upper = signed[at] * (1.0 - b) + signed[at + 1] * b
    lower = signed[at + columns] * (1.0 - b) + signed[at + columns + 1] * b
    beyond = max(abs(u - cu), abs(v - cv))
    return float((upper * (1.0 - a) + lower * a) / PARTS_OF_A_PIXEL + beyond)


@nb.njit(cache=True, inline="always")
def pixel_of(camera: Any, x: float, y: float, z: float) -> tuple[float, float, float]:
    """Where a point on the sheet is on a photo [px], and its depth [mm]; depth 0 where the lens cannot see it."""
    depth = camera[6] * x + camera[7] * y + camera[8] * z + camera[11]
    if depth <= 1.0:
        return 0.0, 0.0, 0.0
    u = (camera[0] * x + camera[1] * y + camera[2] * z + camera[9]) / depth
    v = (camera[3] * x + camera[4] * y + camera[5] * z + camera[10]) / depth
    r2 = u * u + v * v
    if r2 > camera[R2_MOST]:
        return 0.0, 0.0, 0.0
    bent = 1.0 + r2 * (camera[K1] + r2 * camera[K2])
    return camera[FOCAL] * u * bent + camera[X0], camera[FOCAL] * v * bent + camera[Y0], depth


@nb.njit(cache=True, inline="always")
def signed_mm(signed: Any, box: Any, camera: Any, x: float, y: float, z: float) -> float:
    """How far a point on the sheet lies outside of what one view shows [mm]: all of it is before the camera and in the
    frame."""
    px, py, depth = pixel_of(camera, x, y, z)
    if depth == 0.0:
        return UNSEEN_MM
    return float(signed_at(signed, box, px, py) * depth / camera[FOCAL])
