"""The convex hull of a scan: its facets, how thin it is, and where it can stand."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError

Points = NDArray[np.float64]
BLOCK = 100
MOST = 1000


@dataclass(frozen=True, slots=True, eq=False)
class Hull:
    """The hull of points.

    Parameters
    ----------
    corners : (n, 3) the points on it; normals, offsets : each plane (normal . p + offset <= 0 inside), largest facet
        first; areas : area of each plane's facet.
    room : diameter of a ball that fits inside; the piece is nowhere thinner as a whole.
    """

    corners: Points
    normals: Points
    offsets: Points
    areas: Points
    room: float


def hull_of(points: Points) -> Hull | None:
    """The hull, None where the points lie in one plane.

    Quickhull through scipy (Barber, Dobkin and Huhdanpaa 1996); its room is our own.

    Parameters
    ----------
    points : (n, 3), any unit.

    Source: Barber, Dobkin & Huhdanpaa 1996, through scipy; its room is our own.
    """
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    try:
        found = ConvexHull(points - middle)
    except (QhullError, ValueError):
        return None
    corners = points[found.vertices]
    planes, place = np.unique(np.round(found.equations, 9), axis=0, return_inverse=True)
    a, b, c = (found.points[found.simplices[:, k]] for k in range(3))
    each: Points = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2
    area: Points = np.asarray(np.bincount(place.ravel(), each, len(planes)), np.float64)
    order = np.argsort(-area, kind="stable")
    normals = planes[order, :3] / np.linalg.norm(planes[order, :3], axis=1)[:, None]
    offsets = planes[order, 3] - normals @ middle
    room = -2 * float((normals @ corners.mean(axis=0) + offsets).max())
    return Hull(corners, normals, offsets, area[order], room)


def width_of(hull: Hull) -> float:
    """The least distance between two parallel planes that hold the points, one of which carries a large facet.

    Only the 1000 largest facets are asked; our own.

    Parameters
    ----------
    hull : of the points; the answer is in their unit.

    Source: our own.
    """
    least = np.inf
    for at in range(0, min(len(hull.normals), MOST), BLOCK):
        block = slice(at, at + BLOCK)
        depth = hull.corners @ hull.normals[block].T + hull.offsets[block]
        least = min(least, float((-depth.min(axis=0)).min()))
    return least
