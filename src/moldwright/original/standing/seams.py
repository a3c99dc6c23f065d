"""Surfaces that a file lists in pieces: points that all but coincide are one place."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.scan.edges import components, edges_of
from moldwright.scan.raw import Indices
from moldwright.scan.weld import merge_equal

Points = NDArray[np.float64]
SAME_PLACE = 2e-5
GAP_SHARE = 0.002
OFFSETS = (0.0, 0.25, 0.5, 0.75)
FARTHEST = 2.0**52


def size_of(mesh: Mesh) -> float:
    """How large a surface is as a length: the root of its area, or its box's diagonal where that is less; our own.

    Far specks do not move the one, many layers of one surface do not move the other.

    Parameters
    ----------
    mesh : any triangles, lengths in any unit; the answer is in the same.

    >>> corners = np.array([[0, 0, 0], [2, 0, 0], [0, 4, 0]], float)
    >>> size_of(Mesh(corners, np.array([[0, 1, 2]], np.int32)))
    2.0
    """
    low, high = mesh.bounds_mm
    return min(float(np.sqrt(mesh.area_mm2)), float(np.linalg.norm(high - low)))


def near_pairs(points: Points, distance: float) -> Indices:
    """Pairs that link all points nearer than `distance`, and none farther than 7 times that; (k, 2), our own.

    Points are sorted into cells of four times the distance, four times over with the cells moved a quarter along all
    axes: a pair that near is cut by at most one of the four on each of three axes, so one grid holds it whole. The cost
    stays n log n however the points lie.

    Parameters
    ----------
    points : (n, 3), any unit.
    distance : in the same unit, above 0.

    >>> near_pairs(np.array([[0.0, 0, 0], [0.9, 0, 0], [50, 0, 0]]), 1.0)[:, :].max()
    np.int64(1)
    """
    found = []
    here = np.arange(len(points))
    for offset in OFFSETS:
        cells = np.clip(np.floor(points / (4 * distance) + offset), -FARTHEST, FARTHEST) + 0.0
        first, place = merge_equal(cells)
        linked = np.stack([here, first[place]], axis=1)
        found.append(linked[linked[:, 0] != linked[:, 1]])
    return np.concatenate(found)


def seam_labels(mesh: Mesh) -> Indices:
    """For every vertex the first one that is at the same place, (n,); our own.

    One place are points on open edges within 1/50,000 of the surface's size: what rounding leaves between pieces of a
    surface that a file lists apart.

    Parameters
    ----------
    mesh : any triangles, lengths in any unit.
    """
    count = len(mesh.vertices)
    rim = np.unique(edges_of(mesh.faces, count).open)
    if not len(rim):
        return np.arange(count)
    _, label = components(rim[near_pairs(mesh.vertices[rim], SAME_PLACE * size_of(mesh))], count)
    first: Indices = np.unique(label, return_index=True)[1].astype(np.int64)
    return first[label]


def seamless(mesh: Mesh, label: Indices) -> Indices:
    """The triangles by the numbers of their corners, (k, 3), without those that lose an edge; our own.

    Parameters
    ----------
    mesh : any triangles.
    label : (n,) from `seam_labels`.
    """
    faces = label[mesh.faces]
    whole = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    kept: Indices = faces[whole]
    return kept
