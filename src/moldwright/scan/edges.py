"""Which triangles meet at an edge, and how they run along it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from moldwright.scan.raw import Indices


@dataclass(frozen=True, slots=True, eq=False)
class Edges:
    """All edges of a mesh.

    Parameters
    ----------
    pairs : (p, 2) triangles that share an edge which no third one shares; same : they run along it the same way.
    open : (k, 2) directed vertex pairs of edges with one triangle; rim : (k,) that triangle.
    crowded : number of edges with more than two triangles.
    """

    pairs: Indices
    same: NDArray[np.bool_]
    open: Indices
    rim: Indices
    crowded: int


def edges_of(faces: NDArray[np.integer], vertices: int) -> Edges:
    """Sort every triangle's three sides by the edge they lie on; our own.

    Parameters
    ----------
    faces : (m, 3) vertices of each triangle.
    vertices : how many vertices there are.
    """
    if not len(faces):
        none = np.zeros((0, 2), np.int64)
        return Edges(none, np.zeros(0, bool), none, none[:, 0], 0)
    ends = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]).astype(np.int64)
    owner = np.tile(np.arange(len(faces)), 3)
    forward = ends[:, 0] < ends[:, 1]
    key = np.where(forward, ends[:, 0] * vertices + ends[:, 1], ends[:, 1] * vertices + ends[:, 0])
    key, order = _sorted(key)
    starts = np.concatenate([[0], np.flatnonzero(key[1:] != key[:-1]) + 1])
    counts = np.diff(np.append(starts, len(key)))
    two = starts[counts == 2]
    first, second = order[two], order[two + 1]
    one = order[starts[counts == 1]]
    return Edges(
        np.stack([owner[first], owner[second]], axis=1),
        forward[first] == forward[second],
        ends[one],
        owner[one],
        int((counts > 2).sum()),
    )


def _sorted(key: Indices) -> tuple[Indices, Indices]:
    """Sorted keys and their order; key and place are sorted as one number where both fit into 63 bits."""
    place = max(len(key) - 1, 1).bit_length()
    if int(key.max()).bit_length() + place > 63:
        order = np.argsort(key)
        return key[order], order
    packed = np.sort((key << place) | np.arange(len(key)))
    return packed >> place, packed & ((1 << place) - 1)


def components(pairs: Indices, count: int) -> tuple[int, NDArray[np.int32]]:
    """Connected sets of things linked by pairs: how many, and the set of each, (count,).

    Parameters
    ----------
    pairs : (k, 2) things that hang together, each below `count`.
    count : how many things there are.
    """
    links = np.ones(len(pairs), np.int8)
    graph = coo_array((links, (pairs[:, 0], pairs[:, 1])), shape=(count, count))
    found, labels = connected_components(graph.tocsr(), directed=False)
    return int(found), labels


def bodies(faces: NDArray[np.integer], vertices: int) -> tuple[int, NDArray[np.int64]]:
    """Triangles that hang together by shared vertices: how many bodies, and the body of each triangle, (m,).

    Parameters
    ----------
    faces : (m, 3) vertices of each triangle.
    vertices : how many vertices there are.
    """
    _, labels = components(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]]]).astype(np.int64), vertices)
    used, body = np.unique(labels[faces[:, 0]], return_inverse=True)
    return len(used), body.astype(np.int64)


def boxes(corners: NDArray[np.float64], body: NDArray[np.int64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The low and the high corner of each body's box, (count, 3) each, any unit.

    Parameters
    ----------
    corners : (m, 3, 3) of the triangles.
    body : (m,) the body of each triangle, every number from 0 on in use.
    """
    order = np.argsort(body, kind="stable")
    starts = np.flatnonzero(np.diff(body[order], prepend=-1))
    low = np.minimum.reduceat(corners.min(axis=1)[order], starts)
    high = np.maximum.reduceat(corners.max(axis=1)[order], starts)
    return low, high
