"""How far points are from triangles, exactly, and from lines."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import igl
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

Points = NDArray[np.float64]


def away_from_mesh(points: Points, mesh: Mesh) -> Points:
    """(n,) distance of every point from the nearest place of a surface [mm].

    Parameters
    ----------
    points : (n, 3) [mm].
    mesh : any triangles [mm], one at least.

    Source: a tree of boxes over the triangles, through libigl.
    """
    return np.sqrt(np.asarray(_nearest(points, mesh)[0], np.float64))


def nearest_on_mesh(points: Points, mesh: Mesh) -> Points:
    """(n, 3) the nearest place of a surface to every point [mm].

    Parameters
    ----------
    points : (n, 3) [mm].
    mesh : any triangles [mm], one at least.

    Source: as `away_from_mesh`.
    """
    return np.asarray(_nearest(points, mesh)[2], np.float64)


def _nearest(points: Points, mesh: Mesh) -> tuple[Any, Any, Any]:
    """Squared distances, triangles and places."""
    found: tuple[Any, Any, Any] = igl.point_mesh_squared_distance(
        np.ascontiguousarray(points, np.float64), mesh.vertices, np.ascontiguousarray(mesh.faces, np.int64)
    )
    return found


def away_from_lines(points: Points, lines: Sequence[Points]) -> Points:
    """(n,) distance of every point from the nearest place of broken lines [mm]; infinite where there is none.

    Parameters
    ----------
    points : (n, 3) [mm].
    lines : each (m, 3) corners in order [mm].

    Source: arithmetic.

    >>> away_from_lines(np.array([[5.0, 3.0, 0.0]]), [np.array([[0.0, 0, 0], [10.0, 0, 0]])])
    array([3.])
    """
    best = np.full(len(points), np.inf)
    for line in lines:
        for start, end in pairwise(line):
            along = end - start
            share = np.clip((points - start) @ along / max(float(along @ along), 1e-18), 0.0, 1.0)
            off = points - start - share[:, None] * along
            np.minimum(best, np.einsum("ij,ij->i", off, off), out=best)
    away: Points = np.sqrt(best)
    return away
