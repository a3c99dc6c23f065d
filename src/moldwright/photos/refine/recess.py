"""The hull with the recesses that speckles tell, as a field."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from moldwright.geometry.field import Sampled, standing_band
from moldwright.geometry.level import body_at
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import hit_distances
from moldwright.photos.hull.views import FlatViews
from moldwright.photos.refine.match import best_views, matches
from moldwright.photos.refine.settings import RefineSettings
from moldwright.progress import Progress, silent

Floats = NDArray[np.float64]
SEED = 8
BASE_STEPS = 1.0
SMOOTHINGS = 2
SAME_SIDE = 0.5
BEFORE_SHARE = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Recessed:
    """`clear_share` : how many points of the surface match clearly; `field` : with recesses, None where too few."""

    clear_share: float
    field: Sampled | None


def recessed(
    hull: Mesh,
    carved: Sampled,
    views: FlatViews,
    gray: NDArray[np.uint8],
    band_mm: float,
    settings: RefineSettings,
    progress: Progress = silent,
) -> Recessed:
    """The field of the hull with recesses, where the piece is speckled enough for photos to be matched.

    Points of the surface are moved along their inward normals to where the patches of the views that see them agree
    best; those that match clearly and as their neighbors do move the surface about them.

    Parameters
    ----------
    hull : closed, on the board [mm].
    carved : the field that it was cut from.
    views : poses and boxes.
    gray : levels in those boxes.
    band_mm : up to where the field is wanted [mm].
    settings : figures.
    progress : told while matching; it may raise to cancel.

    Source: our own, docs/decisions/0041; see `matches`.
    """
    size = float(max(hull.bounds_mm[1] - hull.bounds_mm[0]))
    body, field, share = hull, carved, 0.0
    for _ in range(settings.rounds):
        points, normals, deep, share = _recesses(body, views, gray, settings, progress)
        if share < settings.clear_share:
            break
        moved = _moved(body, points, normals, deep, carved.grid.step_mm, settings.unsure_share * size)
        inner = standing_band(moved, carved.grid, band_mm)
        field = Sampled(np.maximum(field.field, inner), carved.grid)
        before, body = body, body_at(field)
        if body.volume_mm3 > (1.0 - settings.least_change) * before.volume_mm3:
            break
    return Recessed(share, field if field is not carved else None)


def _recesses(
    body: Mesh, views: FlatViews, gray: NDArray[np.uint8], settings: RefineSettings, progress: Progress
) -> tuple[Floats, Floats, Floats, float]:
    """Points of the surface whose depth is believed, their normals and depths, and the share that match clearly."""
    size = float(max(body.bounds_mm[1] - body.bounds_mm[0]))
    points, normals = _points(body, settings)
    eyes = np.array([-camera[:9].reshape(3, 3).T @ camera[9:12] for camera in views.cameras])
    best = best_views(body, points, normals, eyes, settings)
    step = settings.step_share * size
    depths = np.arange(-2 * step, settings.deepest_share * size, step)
    found = matches(points, normals, best, depths, settings.patch_share * size, views, gray, settings, progress)
    asked = found.max(axis=1) > -1.0
    deep, clear = _deepest(found, depths, settings)
    share = float(np.mean(clear[asked])) if asked.any() else 0.0
    if share < settings.clear_share:
        clear[:] = False
    kept = _agreeing(points, normals, deep, clear, settings.agree_share * size, settings)
    return points[kept], normals[kept], deep[kept], share


def _points(hull: Mesh, settings: RefineSettings) -> tuple[Floats, Floats]:
    """(n, 3) points evenly over the surface, its base left out, and their outward normals."""
    a, b, c = hull.corners.transpose(1, 0, 2)
    across = np.cross(b - a, c - a)
    area = np.linalg.norm(across, axis=1)
    area[(hull.vertices[:, 2][hull.faces] < 1e-6).all(axis=1)] = 0.0
    chance = np.random.default_rng(SEED)
    face = np.sort(chance.choice(len(area), settings.points, p=area / area.sum()))
    u, v = chance.random((2, settings.points))
    fold = u + v > 1
    u, v = np.where(fold, 1 - u, u)[:, None], np.where(fold, 1 - v, v)[:, None]
    normals = vertex_normals(hull)[hull.faces[face]].mean(axis=1)
    points = a[face] + u * (b - a)[face] + v * (c - a)[face]
    return points, normals / np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-9)


def vertex_normals(mesh: Mesh) -> Floats:
    """(n, 3) unit normals at the corners, of the triangles about each by their area.

    Parameters
    ----------
    mesh : triangles [mm].
    """
    a, b, c = mesh.corners.transpose(1, 0, 2)
    across = np.cross(b - a, c - a)
    total = np.zeros_like(mesh.vertices)
    for corner in range(3):
        np.add.at(total, mesh.faces[:, corner], across)
    return np.asarray(total / np.maximum(np.linalg.norm(total, axis=1, keepdims=True), 1e-12))


def _deepest(found: NDArray[np.float32], depths: Floats, settings: RefineSettings) -> tuple[Floats, NDArray[np.bool_]]:
    """(n,) depth of each point's best match, and whether it stands out."""
    at = found.argmax(axis=1)
    clear = found.max(axis=1) - np.median(found, axis=1) > settings.clear
    return depths[at], clear & (at < len(depths) - 1)


def _agreeing(
    points: Floats, normals: Floats, deep: Floats, clear: NDArray[np.bool_], close_mm: float, settings: RefineSettings
) -> NDArray[np.int64]:
    """Numbers of the clear points whose depth is about the median of their clear neighbors' on the same side."""
    which = np.flatnonzero(clear)
    if not len(which):
        return which
    _, near = cKDTree(points[which]).query(points[which], min(settings.neighbors, len(which)))
    same = np.einsum("ijk,ik->ij", normals[which][near], normals[which]) > SAME_SIDE
    usual = np.nanmedian(np.where(same, deep[which][near], np.nan), axis=1)
    return np.asarray(which[np.abs(deep[which] - usual) <= close_mm], np.int64)


def _moved(hull: Mesh, points: Floats, normals: Floats, deep: Floats, step_mm: float, unsure_mm: float) -> Mesh:
    """The hull with its corners moved inward as the nearest points on their side are; its base stays on the board."""
    own = vertex_normals(hull)
    far, near = cKDTree(points).query(hull.vertices, 6)
    weight = np.clip(np.einsum("ijk,ik->ij", normals[near], own), 0.0, None) ** 2 / np.maximum(far, 0.5 * step_mm) ** 2
    total = weight.sum(axis=1)
    inward = np.where(total > 0, (weight * deep[near]).sum(axis=1) / np.maximum(total, 1e-12), 0.0)
    inward = _no_deeper_than_half(hull, own, inward)
    shift = -own * _past(_smoothed(hull, inward), unsure_mm)[:, None]
    shift[hull.vertices[:, 2] < BASE_STEPS * step_mm, 2] = 0.0
    low = hull.vertices[:, 2] < 1e-6
    flat = np.hypot(own[:, 0], own[:, 1]) < SAME_SIDE
    shift[low & flat] = 0.0
    moved = hull.vertices + shift
    moved[:, 2] = np.maximum(moved[:, 2], 0.0)
    return Mesh(moved, hull.faces)


def _past(deep: Floats, unsure_mm: float) -> Floats:
    """Depths, those up to what matching wavers by taken as none: outlines know the surface better there."""
    return np.clip(2.0 * (deep - unsure_mm), 0.0, np.maximum(deep, 0.0))


def _no_deeper_than_half(hull: Mesh, normals: Floats, inward: Floats) -> Floats:
    """Depths that leave the far side standing: up to half of what is behind."""
    behind = hit_distances(hull, hull.vertices - 0.05 * normals, -normals).astype(np.float64)
    return np.minimum(inward, BEFORE_SHARE * behind)


def _smoothed(mesh: Mesh, values: Floats) -> Floats:
    ends = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]], mesh.faces[:, [2, 0]]])
    count = np.bincount(ends[:, 0], minlength=len(values)).astype(np.float64)
    for _ in range(SMOOTHINGS):
        around = np.bincount(ends[:, 0], values[ends[:, 1]], len(values)) / np.maximum(count, 1)
        values = 0.5 * (values + around)
    return values
