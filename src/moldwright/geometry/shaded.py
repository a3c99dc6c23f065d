"""Corners made ready for drawing: a normal each, split where a surface has an edge, in the order of their use."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

EDGE_DEG = 40.0
"""Triangles that meet at more than this are an edge and not a curve: our choice."""
UNIT = 127
"""A normal's length in whole numbers of eight bits."""


@dataclass(frozen=True, slots=True, eq=False)
class Shaded:
    """Triangles over corners that each have a normal.

    Parameters
    ----------
    vertices : (n, 3) [mm].
    normals : (n, 3) outward, of length 127.
    faces : (m, 3), a corner's first use before the next one's.
    """

    vertices: NDArray[np.float64]
    normals: NDArray[np.int8]
    faces: NDArray[np.uint32]


def shaded(mesh: Mesh) -> Shaded:
    """The mesh for drawing.

    Parameters
    ----------
    mesh : triangles, equal corners joined [mm].

    Source: normals weighted by area, as Gouraud 1971 averages them (from memory); the split at edges is common
    practice.
    """
    a, b, c = mesh.corners.transpose(1, 0, 2)
    across = np.cross(b - a, c - a)
    of_corner = mesh.faces.ravel()
    order = np.argsort(of_corner, kind="stable")
    sums = np.empty((len(order), 3))
    sums[order] = _averaged(of_corner[order], across[order // 3])
    normals = np.rint(UNIT * _unit(sums)).astype(np.int8)
    key = np.concatenate([of_corner[:, None], normals], axis=1)
    _, first, which = np.unique(key, axis=0, return_index=True, return_inverse=True)
    return _in_order(mesh.vertices[of_corner[first]], normals[first], which.ravel())


def _averaged(vertex: NDArray[np.int32], across: NDArray[np.float64]) -> NDArray[np.float64]:
    """For each corner the sum over those of its vertex that lie nearly as it does; corners of one vertex in a row."""
    starts = np.flatnonzero(np.r_[True, vertex[1:] != vertex[:-1]])
    counts = np.diff(np.r_[starts, len(vertex)])
    start, count = np.repeat(starts, counts), np.repeat(counts, counts)
    place, unit = np.arange(len(vertex)) - start, _unit(across)
    sums, least = across.copy(), np.cos(np.radians(EDGE_DEG))
    for turn in range(1, int(counts.max(initial=1))):
        rows = np.flatnonzero(count > turn)
        others = start[rows] + (place[rows] + turn) % count[rows]
        near = np.einsum("ij,ij->i", unit[rows], unit[others]) > least
        sums[rows[near]] += across[others[near]]
    return sums


def _unit(vectors: NDArray[np.float64]) -> NDArray[np.float64]:
    lengths: NDArray[np.float64] = np.linalg.norm(vectors, axis=1, keepdims=True)
    return vectors / np.maximum(lengths, 1e-30)


def _in_order(vertices: NDArray[np.float64], normals: NDArray[np.int8], which: NDArray[np.int64]) -> Shaded:
    used, first = np.unique(which, return_index=True)
    order = used[np.argsort(first)]
    place = np.empty(len(vertices), np.uint32)
    place[order] = np.arange(len(order), dtype=np.uint32)
    return Shaded(vertices[order], normals[order], place[which].reshape(-1, 3))
