"""Outlines of simple bodies in closed form, seen from known places, without a renderer.

A sphere is where a pixel's ray meets it; a box is the convex hull of its corners. Shares nothing with the carving but
the types of a lens, a view and an outline.
"""

from __future__ import annotations

import cv2
import numpy as np

from moldwright.photos.hull.views import Seen
from moldwright.photos.outlines.outline import outline_from
from moldwright.photos.view import Lens, View

FINE = 3


def lens(width: int = 400, height: int = 300, focal: float = 430.0) -> Lens:
    """A lens without distortion."""
    return Lens(width, height, focal, ((width - 1) / 2, (height - 1) / 2), 0.0, 0.0, 0.001)


def view_from(eye: np.ndarray, target: np.ndarray, through: Lens, name: str) -> View:
    """A photo taken from `eye`, its middle on `target`, level."""
    ahead = (target - eye) / np.linalg.norm(target - eye)
    right = np.cross(ahead, [0.0, 0.0, 1.0])
    right = right / np.linalg.norm(right)
    rotation = np.stack([right, np.cross(ahead, right), ahead])
    return View(name, through, rotation, -rotation @ eye, 0.3)


def ring(count: int, far: float, elevation_deg: float, target: np.ndarray, through: Lens, name: str) -> list[View]:
    """Views round a target."""
    up = np.radians(elevation_deg)
    views = []
    for n in range(count):
        turn = 2 * np.pi * n / count
        out = np.array([np.cos(turn) * np.cos(up), np.sin(turn) * np.cos(up), np.sin(up)])
        views.append(view_from(target + far * out, target, through, f"{name}{n:02d}.jpg"))
    return views


def _fine_rays(view: View) -> np.ndarray:
    """(rows, columns, 3) directions on the sheet of the middles of all fine pixels."""
    wide, tall = view.lens.width_px * FINE, view.lens.height_px * FINE
    x = (np.arange(wide) + 0.5) / FINE - 0.5 - view.lens.center_px[0]
    y = (np.arange(tall) + 0.5) / FINE - 0.5 - view.lens.center_px[1]
    grid = np.stack(np.broadcast_arrays(x[None] / view.lens.focal_px, y[:, None] / view.lens.focal_px, 1.0), axis=-1)
    return (grid @ view.rotation).astype(np.float32)


def _shares(mask: np.ndarray, view: View) -> np.ndarray:
    tall, wide = view.lens.height_px, view.lens.width_px
    return mask.reshape(tall, FINE, wide, FINE).mean(axis=(1, 3), dtype=np.float32)


def sphere_share(view: View, middle: np.ndarray, radius: float) -> np.ndarray:
    """(rows, columns) share of each pixel that a sphere covers."""
    rays = _fine_rays(view)
    to = (middle - view.eye_mm).astype(np.float32)
    along = rays @ to
    return _shares((along > 0) & (along**2 >= (to @ to - radius**2) * np.einsum("ijk,ijk->ij", rays, rays)), view)


def box_share(view: View, low: np.ndarray, high: np.ndarray) -> np.ndarray:
    """(rows, columns) share of each pixel that an upright box covers."""
    corners = np.array([[x, y, z] for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])])
    around = cv2.convexHull(view.seen_px(corners).astype(np.float32), clockwise=True)[:, 0].astype(np.float64)
    x = (np.arange(view.lens.width_px * FINE) + 0.5) / FINE - 0.5
    y = (np.arange(view.lens.height_px * FINE)[:, None] + 0.5) / FINE - 0.5
    inside = np.ones((y.size, x.size), np.bool_)
    for (ax, ay), (bx, by) in zip(around, np.roll(around, -1, axis=0), strict=True):
        inside &= (bx - ax) * (y - ay) - (by - ay) * (x - ax) <= 0
    assert inside.any()
    return _shares(inside, view)


def seen(view: View, covered: np.ndarray) -> Seen:
    """A view with the outline of what covers it."""
    outline = outline_from(covered)
    assert outline is not None
    return Seen(view, outline)
