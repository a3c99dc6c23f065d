"""How well photos match at points in and under the hull's surface, by the patches of speckles that they show there."""

from __future__ import annotations

from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import Rays
from moldwright.photos.hull.views import COLUMNS, FIRST, LEFT, ROWS, TOP, FlatViews, pixel_of
from moldwright.photos.refine.settings import RefineSettings
from moldwright.progress import Progress, silent

SIDE = 7
AT_ONCE = 500
OFF_MM = 1.0
Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def best_views(
    hull: Mesh, points: Floats, normals: Floats, eyes: Floats, settings: RefineSettings
) -> NDArray[np.int64]:
    """(n, views) numbers of the views that see each point most squarely with nothing of the hull between; -1 for none.

    Parameters
    ----------
    hull : closed [mm].
    points, normals : (n, 3) on its surface.
    eyes : (m, 3) where the photos were taken from [mm].
    settings : how many, and how squarely.
    """
    rays = Rays([hull])
    squarely = np.full((len(points), len(eyes)), -1.0)
    for view, eye in enumerate(eyes):
        to = eye - points
        far = np.linalg.norm(to, axis=1)
        to /= far[:, None]
        cosine = np.einsum("ij,ij->i", to, normals)
        asked = np.flatnonzero(cosine > settings.least_cosine)
        if len(asked):
            free = rays.first_hits(points[asked] + OFF_MM * normals[asked], to[asked]).distance_mm > far[asked]
            squarely[asked[free], view] = cosine[asked[free]]
    order = np.argsort(-squarely, axis=1, kind="stable")[:, : settings.views]
    return np.asarray(np.where(np.take_along_axis(squarely, order, axis=1) > 0, order, -1), np.int64)


def matches(
    points: Floats, normals: Floats, best: Ints, depths: Floats, half_mm: float, views: FlatViews,
    gray: NDArray[np.uint8], settings: RefineSettings, progress: Progress = silent,
) -> NDArray[np.float32]:  # fmt: skip
    """(n, depths) mean correlation of the patches that pairs of views show, -1 to 1; -1 where too few see the point.

    Parameters
    ----------
    points, normals : (n, 3) on the hull's surface.
    best : (n, views) which views see each.
    depths : how far under the surface [mm].
    half_mm : half side of a patch [mm].
    views : poses and boxes.
    gray : levels in those boxes.
    settings : noise, and how many views are needed.
    progress : told after every few points; it may raise to cancel.

    Source: normalized cross-correlation over tangent patches, as in Furukawa & Ponce 2010, "Accurate, dense, and robust
    multiview stereopsis" (from memory); the search along the hull's inward normal is our own.
    """
    along = np.cross(normals, [0.0, 0.0, 1.0])
    flat = np.linalg.norm(along, axis=1) < 1e-3
    along[flat] = [1.0, 0.0, 0.0]
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    across = np.cross(normals, along)
    found = np.full((len(points), len(depths)), -1.0, np.float32)
    for first in range(0, len(points), AT_ONCE):
        some = slice(first, first + AT_ONCE)
        _match(
            found[some], points[some], normals[some], along[some], across[some], best[some], depths, half_mm,
            views.cameras, views.boxes, gray, settings.noise, settings.least_views,
        )  # fmt: skip
        progress("matching", min(1.0, (first + AT_ONCE) / len(points)))
    return found


@nb.njit(cache=True)
def _match(
    found: Any, points: Any, normals: Any, along: Any, across: Any, best: Any, depths: Any, half: float, cameras: Any,
    boxes: Any, gray: Any, noise: float, least: int,
) -> None:  # fmt: skip
    patches = np.empty((best.shape[1], SIDE * SIDE))
    for n in range(points.shape[0]):
        for d in range(depths.shape[0]):
            middle = points[n] - depths[d] * normals[n]
            count = 0
            for k in range(best.shape[1]):
                if best[n, k] >= 0 and _patch(
                    patches[count],
                    middle,
                    along[n],
                    across[n],
                    half,
                    cameras[best[n, k]],
                    boxes[best[n, k]],
                    gray,
                    noise,
                ):
                    count += 1
            if count >= least:
                found[n, d] = _mean_correlation(patches, count)


@nb.njit(cache=True)
def _patch(
    patch: Any, middle: Any, along: Any, across: Any, half: float, camera: Any, box: Any, gray: Any, noise: float
) -> bool:
    """Gray levels over a patch in one view, mean 0 and length below 1; whether all of it is in the box."""
    total = 0.0
    for i in range(SIDE):
        for j in range(SIDE):
            a, b = half * (2.0 * i / (SIDE - 1) - 1.0), half * (2.0 * j / (SIDE - 1) - 1.0)
            at = middle + a * along + b * across
            x, y, depth = pixel_of(camera, at[0], at[1], at[2])
            u, v = x - box[LEFT], y - box[TOP]
            if depth == 0.0 or u < 0 or v < 0 or u >= box[COLUMNS] - 1 or v >= box[ROWS] - 1:
                return False
            row, column = int(v), int(u)
            f, g = v - row, u - column
            start = box[FIRST] + row * box[COLUMNS] + column
            upper = gray[start] * (1 - g) + gray[start + 1] * g
            lower = gray[start + box[COLUMNS]] * (1 - g) + gray[start + box[COLUMNS] + 1] * g
            patch[i * SIDE + j] = upper * (1 - f) + lower * f
            total += patch[i * SIDE + j]
    mean = total / (SIDE * SIDE)
    square = SIDE * SIDE * noise * noise
    for i in range(SIDE * SIDE):
        patch[i] -= mean
        square += patch[i] * patch[i]
    for i in range(SIDE * SIDE):
        patch[i] /= np.sqrt(square)
    return True


@nb.njit(cache=True)
def _mean_correlation(patches: Any, count: int) -> float:
    """Mean over pairs: the square of the sum less the squares."""
    whole, own = 0.0, 0.0
    for i in range(SIDE * SIDE):
        total = 0.0
        for k in range(count):
            total += patches[k, i]
            own += patches[k, i] * patches[k, i]
        whole += total * total
    return float((whole - own) / (count * (count - 1)))
