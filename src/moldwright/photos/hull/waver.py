"""By how much outlines miss the hull that all of them leave: what they waver by, and so what the hull has lost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numba as nb
import numpy as np

from moldwright.geometry.grid import Grid
from moldwright.photos.hull.views import COLUMNS, FIRST, FOCAL, K1, K2, LEFT, ROWS, TOP, X0, Y0, FlatViews, signed_mm
from moldwright.photos.outlines.outline import PARTS_OF_A_PIXEL

RAYS = 100
COARSE, FINE = 90, 8
EDGE_PX = 0.7
STEEP_LEAST = 0.6
UNBENDINGS = 8


@dataclass(frozen=True, slots=True)
class Waver:
    """`mean_px` : how far the rays through the edges of the outlines miss the hull, on the mean; `px_mm` : the size of
    a pixel on the piece."""

    mean_px: float
    px_mm: float


def waver(views: FlatViews, box: Grid) -> Waver:
    """How far outlines and hull are apart: 0 for outlines without noise, whose rays all touch it.

    Parameters
    ----------
    views : that agree.
    box : about the piece.

    Source: our own, docs/decisions/0043.
    """
    low = box.origin
    high = low + box.step_mm * (np.array(box.shape) - 1)
    found = _misses(low, high, views.cameras, views.boxes, views.signed)
    found = found[np.isfinite(found[:, 0])]
    return Waver(float(found[:, 0].mean()), float(found[:, 1].mean())) if len(found) else Waver(0.0, 0.0)


@nb.njit(cache=True)
def _misses(low: Any, high: Any, cameras: Any, boxes: Any, signed: Any) -> Any:
    """(rays, 2) miss [px] and size of a pixel where the ray is nearest [mm]; NaN where there is none."""
    out = np.full((len(cameras) * RAYS, 2), np.nan)
    for n in range(len(cameras)):
        box = boxes[n]
        stride = max(1, _edges(box, signed) // RAYS)
        edge, ray = 0, 0
        for i in range(1, box[ROWS] - 1):
            for j in range(1, box[COLUMNS] - 1):
                at = box[FIRST] + i * box[COLUMNS] + j
                if abs(signed[at]) >= EDGE_PX * PARTS_OF_A_PIXEL:
                    continue
                edge += 1
                if edge % stride or ray >= RAYS:
                    continue
                gx = (float(signed[at + 1]) - signed[at - 1]) / (2 * PARTS_OF_A_PIXEL)
                gy = (float(signed[at + box[COLUMNS]]) - signed[at - box[COLUMNS]]) / (2 * PARTS_OF_A_PIXEL)
                steep = gx * gx + gy * gy
                if steep < STEEP_LEAST**2:
                    continue
                off = signed[at] / PARTS_OF_A_PIXEL / steep
                x, y = box[LEFT] + j - off * gx, box[TOP] + i - off * gy
                miss, size = _miss(x, y, low, high, cameras[n], cameras, boxes, signed)
                out[n * RAYS + ray, 0], out[n * RAYS + ray, 1] = miss, size
                ray += 1
    return out


@nb.njit(cache=True)
def _edges(box: Any, signed: Any) -> int:
    count = 0
    for i in range(1, box[ROWS] - 1):
        for j in range(1, box[COLUMNS] - 1):
            count += abs(signed[box[FIRST] + i * box[COLUMNS] + j]) < EDGE_PX * PARTS_OF_A_PIXEL
    return count


@nb.njit(cache=True)
def _miss(
    x: float, y: float, low: Any, high: Any, camera: Any, cameras: Any, boxes: Any, signed: Any
) -> tuple[float, float]:
    """How far the ray through a place of a photo stays outside of the hull at least [px], and a pixel's size there."""
    bent_u, bent_v = (x - camera[X0]) / camera[FOCAL], (y - camera[Y0]) / camera[FOCAL]
    u, v = bent_u, bent_v
    for _ in range(UNBENDINGS):
        r2 = u * u + v * v
        bent = 1.0 + r2 * (camera[K1] + r2 * camera[K2])
        u, v = bent_u / bent, bent_v / bent
    start, way = np.empty(3), np.empty(3)
    for k in range(3):
        way[k] = camera[k] * u + camera[3 + k] * v + camera[6 + k]
        start[k] = -(camera[k] * camera[9] + camera[3 + k] * camera[10] + camera[6 + k] * camera[11])
    first, last = 1.0, 1e9
    for k in range(3):
        if abs(way[k]) > 1e-12:
            a, b = (low[k] - start[k]) / way[k], (high[k] - start[k]) / way[k]
            first, last = max(first, min(a, b)), min(last, max(a, b))
    if last <= first:
        return np.nan, np.nan
    least, near = 1e9, first
    span = (last - first) / COARSE
    for step in range(COARSE + 1):
        value = _carved_at(start, way, first + step * span, least, cameras, boxes, signed)
        if value < least:
            least, near = value, first + step * span
    middle = near
    for step in range(-FINE, FINE + 1):
        deep = middle + span * step / FINE
        value = _carved_at(start, way, deep, least, cameras, boxes, signed)
        if value < least:
            least, near = value, deep
    size = near / camera[FOCAL]
    return max(0.0, least) / size, size


@nb.njit(cache=True)
def _carved_at(start: Any, way: Any, deep: float, least: float, cameras: Any, boxes: Any, signed: Any) -> float:
    """How far a place on a ray is outside of the hull [mm]; from `least` on it is not looked at closely."""
    x, y, z = start[0] + deep * way[0], start[1] + deep * way[1], start[2] + deep * way[2]
    worst = -z
    for n in range(len(cameras)):
        worst = max(worst, signed_mm(signed, boxes[n], cameras[n], x, y, z))
        if worst >= least:
            break
    return float(worst)
