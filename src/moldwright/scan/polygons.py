"""Polygons of any length into triangles."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.raw import Indices
from moldwright.scan.refuse import index_out_of_range, no_triangles, not_supported, too_many
from moldwright.scan.repairs import Repair, RepairCode

LONGEST_CONCAVE = 3000


def check_indices(corners: Indices, vertices: int) -> None:
    """Refuse an index that names no vertex.

    Parameters
    ----------
    corners : (k,) indices of vertices.
    vertices : how many there are.
    """
    if len(corners) and (corners.min() < 0 or corners.max() >= vertices):
        bad = corners.min() if corners.min() < 0 else corners.max()
        raise index_out_of_range(int(bad), vertices)


def short_faces(counts: Indices) -> tuple[Repair, ...]:
    """What is said about faces with fewer than three corners.

    Parameters
    ----------
    counts : (m,) corners of each face.
    """
    short = int((counts < 3).sum())
    return (Repair(RepairCode.SHORT_FACES_IGNORED, short, "faces"),) if short else ()


def triangulate(vertices: NDArray[np.floating], corners: Indices, counts: Indices, limit: int) -> Indices:
    """Triangles of polygons: fans, and ears cut off where a polygon is not convex.

    Parameters
    ----------
    vertices : (n, 3).
    corners : indices of all polygons in one row; counts : how many each has (fewer than 3 make no triangle).
    limit : most triangles allowed.
    """
    check_indices(corners, len(vertices))
    each = np.maximum(counts - 2, 0)
    total = int(each.sum())
    if total == 0:
        raise no_triangles(f"{len(counts)} faces with fewer than 3 corners" if len(counts) else "no faces")
    if total > limit:
        raise too_many(total, limit)
    if (counts == 3).all():
        return corners.reshape(-1, 3)
    faces, polygon = _fans(corners, counts, each)
    return _cut_concave(vertices, corners, counts, faces, polygon)


def _fans(corners: Indices, counts: Indices, each: Indices) -> tuple[Indices, Indices]:
    polygon = np.repeat(np.arange(len(counts)), each)
    start = (np.cumsum(counts) - counts)[polygon]
    step = np.arange(len(polygon)) - (np.cumsum(each) - each)[polygon]
    return np.stack([corners[start], corners[start + step + 1], corners[start + step + 2]], axis=1), polygon


def _cut_concave(
    vertices: NDArray[np.floating], corners: Indices, counts: Indices, faces: Indices, polygon: Indices
) -> Indices:
    with np.errstate(all="ignore"):
        a, b, c = (vertices[faces[:, k]].astype(np.float64) for k in range(3))
        normal = np.cross(b - a, c - a)
        whole = np.stack([np.bincount(polygon, normal[:, k], len(counts)) for k in range(3)], axis=1)
        against = np.einsum("ij,ij->i", normal, whole[polygon])
        size = np.einsum("ij,ij->i", whole, whole)[polygon]
        concave = np.unique(polygon[against < -1e-9 * size])
    if not len(concave):
        return faces
    starts = np.cumsum(counts) - counts
    pieces = [_ears(vertices, corners[starts[p] : starts[p] + counts[p]], whole[p]) for p in concave]
    kept: Indices = np.concatenate([faces[~np.isin(polygon, concave)], *pieces])
    return kept


def _ears(vertices: NDArray[np.floating], ring: Indices, normal: NDArray[np.float64]) -> Indices:
    """Ear clipping in the plane that the polygon faces most."""
    if len(ring) > LONGEST_CONCAVE:
        raise not_supported(f"a hollow polygon of {len(ring)} corners", "Triangulate the mesh before export.")
    drop = int(np.abs(normal).argmax())
    flat = np.delete(vertices[ring].astype(np.float64), drop, axis=1)
    turn = np.sign(normal[drop]) * (-1.0 if drop == 1 else 1.0)
    left, found = list(range(len(ring))), []
    while len(left) > 3:
        at = next((k for k in range(len(left)) if _is_ear(flat, left, k, turn)), 0)
        found.append((left[at - 1], left[at], left[(at + 1) % len(left)]))
        del left[at]
    return ring[np.array([*found, tuple(left)], dtype=np.int64)]


def _is_ear(flat: NDArray[np.float64], left: list[int], k: int, turn: float) -> bool:
    a, b, c = flat[left[k - 1]], flat[left[k]], flat[left[(k + 1) % len(left)]]
    if turn * _side(a, b, c) <= 0:
        return False
    others = flat[[i for j, i in enumerate(left) if j not in (k, (k - 1) % len(left), (k + 1) % len(left))]]
    apart = ~((others == a) | (others == b) | (others == c)).all(axis=1)
    sides = np.stack([turn * _side(p, q, others) for p, q in ((a, b), (b, c), (c, a))])
    return not ((sides >= 0).all(axis=0) & apart).any()


def _side(a: NDArray[np.float64], b: NDArray[np.float64], p: NDArray[np.float64]) -> NDArray[np.float64]:
    side: NDArray[np.float64] = (b[0] - a[0]) * (p[..., 1] - a[1]) - (b[1] - a[1]) * (p[..., 0] - a[0])
    return side
