"""The shortest ways over a surface from some of its corners."""

from __future__ import annotations

from heapq import heappop, heappush
from typing import Any

import igl
import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

Floats = NDArray[np.float64]

FLAT = 1e-5
"""Of the mean side, so much shorter is a triangle's longest side at least than the other two together."""


def geodesic_mm(mesh: Mesh, sources: NDArray[np.int64]) -> Floats:
    """(n,) how far each corner is from the nearest source over the surface [mm]; infinite where none is reached.

    `d(v) = min over the triangles at v, and over the points p of the side across, of d(p) + |v - p|`, d straight along
    each side: corner by corner in the order of their distances, on the intrinsic Delaunay triangles of the surface.
    A corner that is no source always has a nearer neighbor, so the field has no pits. Of the first order: it is right
    for a straight front, and up to an edge's length too far near a source that is a point.

    Parameters
    ----------
    mesh : closed, equal corners joined [mm].
    sources : numbers of its corners.

    Source: Bornemann & Rasch 2006, "Finite-element discretization of static Hamilton-Jacobi equations based on a local
    variational principle", for the formula; Kimmel & Sethian 1998, PNAS 95, 8431, for the order (both from memory);
    intrinsic triangles by libigl.
    """
    faces = np.ascontiguousarray(mesh.faces, np.int64)
    own = mollified(igl.edge_lengths(mesh.vertices, faces))
    lengths, flipped, *_ = igl.intrinsic_delaunay_triangulation(own, faces)
    flipped = np.ascontiguousarray(flipped, np.int64)
    order = np.argsort(flipped.ravel(), kind="stable")
    starts = np.searchsorted(flipped.ravel()[order], np.arange(len(mesh.vertices) + 1))
    found: Floats = _marched(flipped, np.ascontiguousarray(lengths), order, starts, np.asarray(sources, np.int64))
    return found


def mollified(sides: Floats) -> Floats:
    """(n, 3) sides of triangles, all a little longer by the same, so that none is flat: flips end only then.

    Parameters
    ----------
    sides : (n, 3) [mm].

    Source: Sharp & Crane 2020, "A Laplacian for nonmanifold triangle meshes", section 4.5 (from memory).

    >>> mollified(np.array([[3.0, 4.0, 5.0]])).tolist()
    [[3.0, 4.0, 5.0]]
    """
    slack = sides.sum(axis=1) - 2.0 * sides.max(axis=1)
    return sides + max(0.0, FLAT * float(sides.mean()) - float(slack.min()))


@nb.njit(cache=True)
def _marched(faces: Any, lengths: Any, order: Any, starts: Any, sources: Any) -> Any:
    """`order[starts[v]:starts[v + 1]]` are the corners of triangles, three a triangle, that lie on v; side k of a
    triangle lies across from its corner k."""
    away = np.full(starts.shape[0] - 1, np.inf)
    done = np.zeros(away.shape[0], np.bool_)
    heap = [(0.0, np.int64(0))]
    heap.pop()
    for v in sources:
        away[v] = 0.0
        heappush(heap, (0.0, v))
    while heap:
        near, v = heappop(heap)
        if done[v]:
            continue
        done[v] = True
        for place in order[starts[v] : starts[v + 1]]:
            face, corner = place // 3, place % 3
            for turn in range(1, 3):
                here, other = (corner + turn) % 3, (corner + 3 - turn) % 3
                w, u = faces[face, here], faces[face, other]
                if done[w]:
                    continue
                found = near + lengths[face, other]
                if done[u]:
                    found = min(found, _over(near, away[u], lengths[face], corner, other, here))
                if found < away[w]:
                    away[w] = found
                    heappush(heap, (found, w))
    return away


@nb.njit(cache=True)
def _over(near: float, far: float, sides: Any, corner: int, other: int, here: int) -> Any:
    """The least way to a triangle's corner over the side across, whose ends are so far."""
    side, to_corner, to_other = sides[here], sides[other], sides[corner]
    x = (to_corner**2 + side**2 - to_other**2) / (2 * side) if side > 0 else 0.0
    y = np.sqrt(max(to_corner**2 - x**2, 0.0))
    slope = (far - near) / side if side > 0 else 0.0
    if slope * slope >= 1:
        return min(near + to_corner, far + to_other)
    at = min(max(x - y * slope / np.sqrt(1 - slope * slope), 0.0), side)
    return near + slope * at + np.hypot(x - at, y)
