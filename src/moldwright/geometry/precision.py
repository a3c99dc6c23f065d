"""Meshes in single precision, as STL files hold them, that stay closed when a reader joins equal corners."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from moldwright.geometry.edges import of_faces
from moldwright.geometry.mesh import Faces, Mesh, Vertices


def single_precision(mesh: Mesh, nudge_mm: float) -> Mesh:
    """The mesh with corners in single precision, equal ones joined.

    Edges that lose their length close with their triangles. Corners of different parts of the surface that meet in
    one place are drawn into the body by `nudge_mm` first, so that joining them ties nothing together.

    Parameters
    ----------
    mesh : closed triangles [mm].
    nudge_mm : how far such corners are drawn in [mm], > 0.

    Source: our own.
    """
    vertices = mesh.vertices.astype(np.float32)
    faces = _without_lost_edges(mesh.faces, places(vertices))
    place = places(vertices)
    used = np.unique(faces)
    shared = np.bincount(place[used], minlength=int(place.max()) + 1) > 1
    moved = used[shared[place[used]]]
    if len(moved):
        normals = _normals(vertices.astype(np.float64), faces)
        vertices[moved] -= (nudge_mm * normals[moved]).astype(np.float32)
    return _joined(vertices, faces)


def places(vertices: NDArray[np.float32]) -> NDArray[np.int64]:
    """(n,) a number for every corner's place, in the order in which places first occur; the same for equal corners.

    Corners are sorted by a mixture of their bits; only where two different ones mix to the same are they compared.

    Parameters
    ----------
    vertices : (n, 3) in single precision [mm].

    Source: our own.
    """
    if len(vertices) == 0:
        return np.zeros(0, np.int64)
    rows = np.ascontiguousarray(vertices + np.float32(0.0)).view(np.uint32)
    order, fresh = _sorted_by(_mixed(rows))
    equal = order[1:][~fresh[1:]]
    before = order[:-1][~fresh[1:]]
    if (rows[equal] != rows[before]).any():
        order = np.lexsort(rows.T)
        fresh = np.concatenate([[True], (rows[order[1:]] != rows[order[:-1]]).any(axis=1)])
    starts = np.flatnonzero(fresh)
    first = np.empty(len(rows), np.int64)
    first[order] = np.minimum.reduceat(order, starts)[np.cumsum(fresh) - 1]
    number = np.cumsum(first == np.arange(len(rows))) - 1
    return np.asarray(number[first], dtype=np.int64)


def _mixed(rows: NDArray[np.uint32]) -> NDArray[np.uint64]:
    """(n,) 64 bits mixed of three times 32."""
    x, y, z = (rows[:, n].astype(np.uint64) for n in range(3))
    return (x | (y << np.uint64(32))) * np.uint64(0x9E3779B97F4A7C15) ^ (z * np.uint64(0xC2B2AE3D27D4EB4F))


def _sorted_by(key: NDArray[np.uint64]) -> tuple[NDArray[np.int64], NDArray[np.bool_]]:
    """The order that sorts, and where in it a new value begins."""
    order = np.argsort(key)
    ordered = key[order]
    return order, np.concatenate([[True], ordered[1:] != ordered[:-1]])


def _without_lost_edges(faces: Faces, place: NDArray[np.int64]) -> Faces:
    """Join corners that one place and an edge connect; triangles that lose a corner close."""
    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    lost = edges[place[edges[:, 0]] == place[edges[:, 1]]]
    if len(lost) == 0:
        return faces
    n = len(place)
    links = coo_matrix((np.ones(len(lost), bool), (lost[:, 0], lost[:, 1])), shape=(n, n))
    label = connected_components(links, directed=False)[1]
    first = np.full(label.max() + 1, n, np.int64)
    np.minimum.at(first, label, np.arange(n))
    return _with_area(first[label][faces].astype(np.int32))


def _with_area(faces: Faces) -> Faces:
    """The triangles with three corners, without pairs that lie back to back."""
    a, b, c = faces.T
    kept: Faces = faces[(a != b) & (b != c) & (c != a)]
    low, high, total = kept.min(axis=1), kept.max(axis=1), kept.sum(axis=1, dtype=np.int64)
    order = np.lexsort((total, low.astype(np.int64) << 32 | high))
    ordered = np.stack([low, high, total], axis=1)
    same = (ordered[order[1:]] == ordered[order[:-1]]).all(axis=1)
    if not same.any():
        return kept
    turn = np.sign(np.linalg.det(np.argsort(np.argsort(kept, axis=1), axis=1)[:, :, None] == np.arange(3)))
    back = same & (turn[order[1:]] != turn[order[:-1]])
    drop = np.zeros(len(kept), bool)
    for n in np.flatnonzero(back):
        if not drop[order[n]]:
            drop[[order[n], order[n + 1]]] = True
    return np.asarray(kept[~drop], dtype=np.int32)


def _normals(vertices: Vertices, faces: Faces) -> Vertices:
    """(n, 3) outward unit normals at the corners, by the area of their triangles."""
    a, b, c = (vertices[faces[:, n]] for n in range(3))
    across = np.cross(b - a, c - a)
    sums = np.zeros_like(vertices)
    for n in range(3):
        np.add.at(sums, faces[:, n], across)
    length = np.linalg.norm(sums, axis=1, keepdims=True)
    return np.asarray(sums / np.maximum(length, 1e-30), dtype=np.float64)


def _joined(vertices: NDArray[np.float32], faces: Faces) -> Mesh:
    place = places(vertices)
    first = np.flatnonzero(place == np.maximum.accumulate(place))
    first = first[np.concatenate([[True], np.diff(place[first]) > 0])]
    joined = _with_area(place[faces].astype(np.int32))
    return of_faces(Mesh(vertices[first].astype(np.float64), joined), np.ones(len(joined), bool))
