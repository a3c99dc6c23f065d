"""Neighbors are made to agree on which side is out, then out is turned outward."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.edges import Edges, bodies, components, edges_of
from moldwright.scan.repairs import Repair, RepairCode

LARGEST = 40
Points = NDArray[np.float64]
Faces = NDArray[np.int64]


def make_outward(vertices: Points, faces: Faces) -> tuple[Faces, Edges, int, tuple[Repair, ...]]:
    """Faces wound outward, their edges, the number of bodies, and what was turned.

    Neighbors that disagree are turned, by patch and with the lesser area; then each outermost body whose volume is
    negative is turned with all that lies inside it, so that a hollow stays a hollow. An open body's volume is taken
    with its opening closed by a fan to the middle of its rim.

    Our own; inside or outside by solid angles (van Oosterom and Strackee 1983).

    Parameters
    ----------
    vertices : (n, 3), any unit.
    faces : (m, 3) vertices of each triangle.
    """
    edges = edges_of(faces, len(vertices))
    repairs: list[Repair] = []
    if edges.same.any():
        faces, repairs = _agree(vertices, faces, edges)
        edges = edges_of(faces, len(vertices))
    count, body = bodies(faces, len(vertices))
    turned, hollows = _inside_out(vertices, faces, edges, count, body)
    if turned.any():
        wrong = turned[body]
        faces = np.where(wrong[:, None], faces[:, ::-1], faces)
        edges = edges_of(faces, len(vertices))
        repairs.append(Repair(RepairCode.TURNED_OUTWARD, int(wrong.sum()), "triangles"))
    if hollows:
        repairs.append(Repair(RepairCode.HOLLOWS_INSIDE, hollows, "hollows"))
    return faces, edges, count, tuple(repairs)


def _agree(vertices: Points, faces: Faces, edges: Edges) -> tuple[Faces, list[Repair]]:
    """Two-color the triangles: in a doubled graph a triangle is there as it is and turned; links keep or cross."""
    count = len(faces)
    a, b = edges.pairs.T
    cross = edges.same.astype(np.int64) * count
    doubled = np.concatenate(
        [np.stack([a, b + cross], axis=1), np.stack([a + count, b + np.int64(count) - cross], axis=1)]
    )
    _, label = components(doubled, 2 * count)
    as_is, other = label[:count], label[count:]
    one_sided = as_is == other
    low = as_is < other
    area = _areas(vertices, faces)
    patch = np.minimum(as_is, other)
    lesser = np.bincount(patch, np.where(low, -area, area), int(patch.max()) + 1) > 0
    wrong = (low == lesser[patch]) & ~one_sided
    repairs = []
    if wrong.any():
        repairs.append(Repair(RepairCode.TURNED_TO_NEIGHBORS, int(wrong.sum()), "triangles"))
    if one_sided.any():
        repairs.append(Repair(RepairCode.ONE_SIDED_LEFT, int(one_sided.sum()), "triangles"))
    return np.where(wrong[:, None], faces[:, ::-1], faces), repairs


def _areas(vertices: Points, faces: Faces) -> Points:
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    areas: Points = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2
    return areas


def _volumes(vertices: Points, faces: Faces, edges: Edges, count: int, body: Faces) -> Points:
    """Signed volume of each body, measured from its own rim's middle, or its own first vertex where it is closed."""
    first = np.zeros((count, 3))
    first[body[::-1]] = vertices[faces[::-1, 0]]
    of_vertex = np.zeros(len(vertices), np.int64)
    of_vertex[faces.ravel()] = np.repeat(body, 3)
    rim = edges.open[:, 0]
    on_rim = np.bincount(of_vertex[rim], minlength=count)
    for k in range(3):
        total = np.bincount(of_vertex[rim], vertices[rim, k], count)
        first[:, k] = np.where(on_rim > 0, total / np.maximum(on_rim, 1), first[:, k])
    a, b, c = (vertices[faces[:, k]] - first[body] for k in range(3))
    sixth: Points = np.einsum("ij,ij->i", a, np.cross(b, c)) / 6
    return np.asarray(np.bincount(body, sixth, count), np.float64)


def _inside_out(vertices: Points, faces: Faces, edges: Edges, count: int, body: Faces) -> tuple[NDArray[np.bool_], int]:
    """Which bodies must be turned, and how many hollows there are then."""
    volume = _volumes(vertices, faces, edges, count, body)
    if count == 1:
        return volume < 0, 0
    if (volume >= 0).all():
        return np.zeros(1, bool).repeat(count), 0
    outer = _containers(vertices, faces, edges, count, body, volume)
    turned = np.where(outer >= 0, volume[outer] < 0, volume < 0)
    hollows = (outer >= 0) & (np.where(turned, -volume, volume) < 0)
    return turned, int(hollows.sum())


def _containers(
    vertices: Points, faces: Faces, edges: Edges, count: int, body: Faces, volume: Points
) -> NDArray[np.int64]:
    """For each body the largest closed body around it, -1 where there is none; only the largest 40 can contain."""
    low, high = np.full((count, 3), np.inf), np.full((count, 3), -np.inf)
    sample = np.zeros((count, 3))
    for corner in faces.T:
        np.minimum.at(low, body, vertices[corner])
        np.maximum.at(high, body, vertices[corner])
    sample[body[::-1]] = vertices[faces[::-1, 0]]
    is_open = np.zeros(count, bool)
    of_vertex = np.zeros(len(vertices), np.int64)
    of_vertex[faces.ravel()] = np.repeat(body, 3)
    is_open[of_vertex[edges.open[:, 0]]] = True
    outer = np.full(count, -1, np.int64)
    for candidate in np.argsort(-np.abs(volume))[:LARGEST]:
        inside = (low >= low[candidate]).all(axis=1) & (high <= high[candidate]).all(axis=1) & (outer < 0)
        inside[candidate] = False
        if is_open[candidate] or outer[candidate] >= 0 or not inside.any():
            continue
        corners = vertices[faces[body == candidate]]
        for other in np.flatnonzero(inside):
            if abs(_turns(corners, sample[other])) > 0.5:
                outer[other] = candidate
    return outer


def _turns(corners: Points, point: Points) -> float:
    """How often closed triangles wind round a point: the sum of their solid angles over 4 pi.

    tan(omega/2) = a.(b x c) / (|a||b||c| + a.b |c| + b.c |a| + c.a |b|); source: van Oosterom and Strackee 1983.
    """
    a, b, c = (corners - point).transpose(1, 0, 2)
    la, lb, lc = (np.linalg.norm(side, axis=1) for side in (a, b, c))
    over = np.einsum("ij,ij->i", a, np.cross(b, c))
    ab, bc, ca = (np.einsum("ij,ij->i", p, q) for p, q in ((a, b), (b, c), (c, a)))
    return float(np.arctan2(over, la * lb * lc + ab * lc + bc * la + ca * lb).sum() / (2 * np.pi))
