"""Open boundary loops: where a scan has no surface, above all under its base."""

from __future__ import annotations

from dataclasses import dataclass

import igl
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.original.standing.seams import GAP_SHARE, seam_labels, seamless, size_of
from moldwright.scan.edges import bodies, components, edges_of
from moldwright.scan.raw import Indices
from moldwright.scan.scan import Scan

Points = NDArray[np.float64]
LEAST_AREA = 0.02
LOW = 0.10
HIGHEST = 0.40
ABOVE = 0.001
MOST = 1000
ASKED = 30
COVERED = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Rim:
    """One boundary loop.

    Parameters
    ----------
    points : (n, 3) the points on it.
    area : (3,) its area as a vector, half the sum of p x q along it; it points into the piece.
    """

    points: Points
    area: Points

    @property
    def size(self) -> float:
        """The area of the loop seen where it is widest open."""
        return float(np.linalg.norm(self.area))

    def turned(self, turn: Points) -> Rim:
        """The loop after a rotation, (3, 3)."""
        return Rim(self.points @ turn.T, self.area @ turn.T)


def rims_of(vertices: Points, open_edges: Indices) -> tuple[Rim, ...]:
    """The boundary loops, those with the largest area first (no more than 1000); our own.

    Parameters
    ----------
    vertices : (n, 3), any unit.
    open_edges : (k, 2) directed edges, as their triangles run along them.
    """
    if not len(open_edges):
        return ()
    used, place = np.unique(open_edges, return_inverse=True)
    place = place.reshape(-1, 2)
    count, label = components(place.astype(np.int64), len(used))
    of_edge = label[place[:, 0]].astype(np.int64)
    start, end = vertices[open_edges[:, 0]], vertices[open_edges[:, 1]]
    middle = _sums(start, of_edge, count) / np.maximum(np.bincount(of_edge, minlength=count), 1)[:, None]
    area = _sums(np.cross(start - middle[of_edge], end - middle[of_edge]), of_edge, count) / 2
    order = np.argsort(-np.linalg.norm(area, axis=1), kind="stable")[:MOST]
    by_loop = np.argsort(of_edge, kind="stable")
    groups = np.split(by_loop, np.cumsum(np.bincount(of_edge, minlength=count))[:-1])
    return tuple(Rim(start[groups[loop]], area[loop]) for loop in order)


def _sums(values: Points, group: Indices, count: int) -> Points:
    return np.stack([np.bincount(group, values[:, k], count) for k in range(3)], axis=1)


def rims_of_scan(scan: Scan) -> tuple[Rim, ...]:
    """The openings of a scan, largest first, in file units; our own.

    Borders that meet within rounding are no openings, nor is the border of a patch that lies along another part.

    Parameters
    ----------
    scan : what was read.
    """
    if scan.watertight:
        return ()
    mesh, label = scan.mesh, seam_labels(scan.mesh)
    rims = rims_of(mesh.vertices, edges_of(seamless(mesh, label), len(mesh.vertices)).open)
    count, part = bodies(label[mesh.faces], len(mesh.vertices))
    if count == 1:
        return rims
    return tuple(rim for rim in rims[:ASKED] if not _covered(rim, mesh, part))


def _covered(rim: Rim, mesh: Mesh, part: Indices) -> bool:
    """Whether most of a loop lies along the surface of other parts: the seam of a patch."""
    corner = (mesh.vertices == rim.points[0]).all(axis=1)
    own = np.unique(part[corner[mesh.faces].any(axis=1)])
    others = mesh.faces[~np.isin(part, own)]
    if not len(others):
        return False
    points = np.ascontiguousarray(rim.points)
    squared = igl.point_mesh_squared_distance(points, mesh.vertices, others.astype(np.int64))[0]
    return bool((np.sqrt(squared) <= GAP_SHARE * size_of(mesh)).mean() > COVERED)


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
