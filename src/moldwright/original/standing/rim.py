"""Open boundary loops: where a scan has no surface, above all under its base."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.original.standing.nearness import distances_to
from moldwright.original.standing.seams import GAP_SHARE, seam_labels, seamless, size_of
from moldwright.scan.edges import components, edges_of
from moldwright.scan.raw import Indices
from moldwright.scan.scan import Scan

Points = NDArray[np.float64]
LEAST_AREA = 0.02
LOW = 0.10
HIGHEST = 0.40
ABOVE = 0.001
MOST = 1000
LEAST_ASKED = 0.005
MOST_EDGES = 60
COVERED = 0.5
TURNS_DEG = (-120, -90, -60, -30, 0, 30, 60, 90, 120)


@dataclass(frozen=True, slots=True, eq=False)
class Rim:
    """One boundary loop.

    Parameters
    ----------
    points : (n, 3) the points on it.
    area : (3,) its area as a vector, half the sum of p x q along it; it points into the piece.
    along, outward : (n, 3) unit vectors of each edge that begins at a point: along it, and in its triangle's plane over
        the border; middles : (n, 3) the edges' middles.
    """

    points: Points
    area: Points
    along: Points
    outward: Points
    middles: Points

    @property
    def size(self) -> float:
        """The area of the loop seen where it is widest open."""
        return float(np.linalg.norm(self.area))

    def turned(self, turn: Points) -> Rim:
        """The loop after a rotation.

        Parameters
        ----------
        turn : (3, 3) acts on columns.

        Source: our own.
        """
        parts = (self.points, self.area, self.along, self.outward, self.middles)
        return Rim(*(part @ turn.T for part in parts))


def rims_of(vertices: Points, faces: Indices) -> tuple[Rim, ...]:
    """The boundary loops, those with the largest area first (no more than 1000); our own.

    Parameters
    ----------
    vertices : (n, 3), any unit.
    faces : (m, 3) vertices of each triangle.
    """
    edges = edges_of(faces, len(vertices))
    if not len(edges.open):
        return ()
    used, place = np.unique(edges.open, return_inverse=True)
    place = place.reshape(-1, 2)
    count, label = components(place.astype(np.int64), len(used))
    of_edge = label[place[:, 0]].astype(np.int64)
    start, end = vertices[edges.open[:, 0]], vertices[edges.open[:, 1]]
    along = _unit(end - start)
    outward = _outward(along, start - (vertices[faces[edges.rim]].sum(axis=1) - start - end))
    middle = _sums(start, of_edge, count) / np.maximum(np.bincount(of_edge, minlength=count), 1)[:, None]
    area = _sums(np.cross(start - middle[of_edge], end - middle[of_edge]), of_edge, count) / 2
    order = np.argsort(-np.linalg.norm(area, axis=1), kind="stable")[:MOST]
    by_loop = np.argsort(of_edge, kind="stable")
    groups = np.split(by_loop, np.cumsum(np.bincount(of_edge, minlength=count))[:-1])
    return tuple(
        Rim(start[mine], area[loop], along[mine], outward[mine], (start[mine] + end[mine]) / 2)
        for loop, mine in ((loop, groups[loop]) for loop in order)
    )


def _outward(along: Points, away: Points) -> Points:
    """The part of `away` that is at right angles to `along`, as unit vectors, (k, 3)."""
    return _unit(away - np.einsum("ij,ij->i", away, along)[:, None] * along)


def _unit(vectors: Points) -> Points:
    units: Points = vectors / np.maximum(np.linalg.norm(vectors, axis=1, keepdims=True), 1e-300)
    return units


def _sums(values: Points, group: Indices, count: int) -> Points:
    return np.stack([np.bincount(group, values[:, k], count) for k in range(3)], axis=1)


def rims_of_scan(scan: Scan) -> tuple[Rim, ...]:
    """The openings of a scan, largest first, in file units; our own.

    Borders that meet within rounding are no openings, nor are those beyond which another piece of surface goes on.

    Parameters
    ----------
    scan : what was read.
    """
    if scan.watertight:
        return ()
    mesh = scan.mesh
    rims = rims_of(mesh.vertices, seamless(mesh, seam_labels(mesh)))
    size, surface = size_of(mesh), mesh.area_mm2
    return tuple(rim for rim in rims if rim.size < LEAST_ASKED * surface or not _goes_on(rim, mesh, size))


def _goes_on(rim: Rim, mesh: Mesh, size: float) -> bool:
    """Whether another surface begins along most of a loop, at any angle of 60 degrees or more: the seam of a patch.

    Asked are points round its edges (60 of them or a few more), 30 degrees apart and twice the widest gap away, that
    are not near the edge's own triangle.
    """
    gap = GAP_SHARE * size
    across = np.cross(rim.along, rim.outward)
    round_it = [np.cos(turn) * rim.outward + np.sin(turn) * across for turn in np.radians(TURNS_DEG)]
    asked = np.stack([rim.middles + 2 * gap * way for way in round_it])[:, :: 1 + len(rim.middles) // MOST_EDGES]
    low, high = asked.min(axis=(0, 1)) - gap, asked.max(axis=(0, 1)) + gap
    corners = mesh.corners
    near = ((corners.max(axis=1) >= low) & (corners.min(axis=1) <= high)).all(axis=1)
    if not near.any():
        return False
    distance = distances_to(Mesh(mesh.vertices, mesh.faces[near]), asked.reshape(-1, 3))
    found = (distance <= gap).reshape(len(TURNS_DEG), -1).any(axis=0)
    return bool(found.mean() > COVERED)


def base_rim(rims: tuple[Rim, ...], low: Points, high: Points) -> float | None:
    """Height above the lowest point just above the rim of an open base; None where the base is closed.

    A rim belongs to the base if it starts in the lowest tenth, ends in the lowest two fifths, and its opening seen
    from below takes 2 % of the footprint's box or more (common practice, no source).

    Parameters
    ----------
    rims : loops of the scan turned as it stands, z up, any unit.
    low, high : (3,) corners of the turned scan's box, same unit.
    """
    height = float(high[2] - low[2])
    footprint = float((high[0] - low[0]) * (high[1] - low[1]))
    tops = [
        float(rim.points[:, 2].max() - low[2])
        for rim in rims
        if rim.points[:, 2].min() - low[2] <= LOW * height and abs(rim.area[2]) >= LEAST_AREA * footprint
    ]
    below = [top for top in tops if top <= HIGHEST * height]
    return max(below) + ABOVE * height if below else None
