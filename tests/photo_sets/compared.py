"""How a found solid, its poses and its outlines compare with the truth.

Distances by libigl, rays by Embree, rubber by the Euclidean distance transform: nothing of the reconstruction.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import igl
import numpy as np
import numpy.typing as npt
import trimesh
from scipy.ndimage import distance_transform_edt
from tests.photo_sets.camera import TrueView
from tests.photo_sets.truth import Truth
from trimesh.ray.ray_pyembree import RayMeshIntersector

Floats = npt.NDArray[np.float64]
Bools = npt.NDArray[np.bool_]
POINTS, SEED = 20_000, 9
OUTLINED_SHARE = 0.01
RUBBER_SHARE = 1 / 40


@dataclass(frozen=True, slots=True, eq=False)
class Surface:
    """Points of the true surface off the board; `seen` : from at least one photo; `outlined` : an outline passes within
    1 % of the height of them in one photo or more, so that outlines know of them: the outer surface.
    """

    points: Floats
    seen: Bools
    outlined: Bools


def surface_of(truth: Truth) -> Surface:
    """Evenly spread points of a body's surface, sorted by what the photos show of them."""
    points, faces = trimesh.sample.sample_surface(truth.body, POINTS, seed=SEED)
    off_board = points[:, 2] > 0.002 * truth.height_mm
    points, normals = np.array(points[off_board]), truth.body.face_normals[faces[off_board]]
    caster = RayMeshIntersector(truth.body, scale_to_box=False)
    seen, outlined = np.zeros(len(points), bool), np.zeros(len(points), bool)
    for view in truth.views:
        ways = view.eye_mm - points
        facing = np.flatnonzero(np.einsum("ij,ij->i", ways, normals) > 0)
        start = points[facing] + normals[facing] * 1e-4 * truth.height_mm
        seen[facing] |= ~caster.intersects_any(start, ways[facing])
        outlined |= _near_outline(truth, view, points)
    return Surface(points, seen, outlined & seen)


def _near_outline(truth: Truth, view: TrueView, points: Floats) -> Bools:
    mask = truth.mask(view)
    edge = cv2.morphologyEx(mask, cv2.MORPH_GRADIENT, np.ones((3, 3), np.uint8))
    far = cv2.distanceTransform((edge == 0).astype(np.uint8), cv2.DIST_L2, 5)
    at = view.seen_px(points).round().astype(int)
    x, y = np.clip(at[:, 0], 0, mask.shape[1] - 1), np.clip(at[:, 1], 0, mask.shape[0] - 1)
    depth = points @ view.rotation[2] + view.shift_mm[2]
    return np.asarray(far[y, x] <= OUTLINED_SHARE * truth.height_mm * view.lens.focal_px / depth)


def distances_mm(points: Floats, found: trimesh.Trimesh) -> Floats:
    """From points to a found surface [mm]."""
    squared, _, _ = igl.point_mesh_squared_distance(points, np.array(found.vertices), np.array(found.faces, np.int64))
    return np.sqrt(np.asarray(squared))


def laid_ml(body: trimesh.Trimesh, thick_mm: float) -> float:
    """Rubber in an even layer over all of a body but its base [ml], by counting cells."""
    step = float(body.extents.max()) / 110
    reach = thick_mm + 2 * step
    low, high = body.bounds[0] - reach, body.bounds[1] + reach
    axes = [np.arange(a, b, step) for a, b in zip(low, high, strict=True)]
    axes[2] = np.arange(0.5 * step, high[2], step)
    grid = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1)
    at = np.ascontiguousarray(grid.reshape(-1, 3))
    inside = igl.fast_winding_number(np.array(body.vertices), np.array(body.faces, np.int64), at) > 0.5
    near = distance_transform_edt(~np.asarray(inside).reshape(grid.shape[:3])).ravel() * step
    band = np.flatnonzero((near > 0) & (near < thick_mm + 2 * step))
    exact = distances_mm(at[band], body)
    return float(np.clip((thick_mm - exact) / step + 0.5, 0, 1).sum() * step**3 / 1000)


def rubber_mm(truth: Truth) -> float:
    """Thickness at which the rubber of a found solid is compared: a fortieth of the longest side, 3 to 8 mm."""
    return float(np.clip(truth.body.extents.max() * RUBBER_SHARE, 3.0, 8.0))


def pose_error_px(truth: Truth, true: TrueView, rotation: Floats, shift_mm: Floats, focal_px: float,
                  center_px: tuple[float, float], k1: float, k2: float, width_px: int) -> Floats:  # fmt: skip
    """How far points of the piece are seen from where they are, on the photo at its working size [px]."""
    points = np.array(truth.body.vertices[:: max(1, len(truth.body.vertices) // 3000)])
    share = width_px / true.lens.width_px
    expected = (true.seen_px(points) + 0.5) * share - 0.5
    at = points @ rotation.T + shift_mm
    flat = at[:, :2] / at[:, 2:]
    r2 = (flat**2).sum(axis=1, keepdims=True)
    got = focal_px * flat * (1 + r2 * (k1 + r2 * k2)) + center_px
    return np.asarray(np.linalg.norm(got - expected, axis=1))


def overlap(found: Bools, true: npt.NDArray[np.uint8]) -> float:
    """Intersection over union of an outline at its working size with the true one."""
    whole = cv2.resize(true, found.shape[1::-1], interpolation=cv2.INTER_AREA) >= 128
    return float((found & whole).sum() / (found | whole).sum())
