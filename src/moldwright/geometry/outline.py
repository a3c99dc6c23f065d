"""Plane outlines: sections of solids, their widths, and prisms raised on them."""

from __future__ import annotations

import manifold3d as m3
import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiPoint, MultiPolygon, Polygon

from moldwright.geometry.solid import Solid


def section(solid: Solid, z_mm: float) -> MultiPolygon:
    """The solid's section at a height, as polygons with holes [mm].

    Parameters
    ----------
    solid : any solid [mm].
    z_mm : height of the level plane [mm].

    Source: our own, through manifold3d and shapely.
    """
    outlines = solid.slice(z_mm).to_polygons()
    shape = shapely.Polygon()
    for outline in outlines:
        if len(outline) >= 3:
            shape = shapely.symmetric_difference(shape, shapely.make_valid(Polygon(outline)))
    polygons = [p for p in getattr(shape, "geoms", [shape]) if isinstance(p, Polygon) and p.area > 0.05]
    return MultiPolygon(polygons)


def narrowest_width(shape: MultiPolygon) -> float:
    """Width [mm] of the largest circle in the narrowest of the outlines; 0 where there is none.

    Parameters
    ----------
    shape : outlines, with holes where they have them [mm].

    Source: the largest inscribed circle, as shapely finds it.
    """
    widths = [2 * shapely.maximum_inscribed_circle(polygon, 0.1).length for polygon in shape.geoms]
    return min(widths, default=0.0)


def prism(outline: Polygon, low_mm: float, high_mm: float) -> Solid:
    """The upright solid over an outline without holes, between two heights [mm].

    Parameters
    ----------
    outline : without holes [mm].
    low_mm, high_mm : heights of bottom and top [mm], low < high.

    Source: our own, through manifold3d.
    """
    ring = np.asarray(shapely.geometry.polygon.orient(outline, 1.0).exterior.coords)[:-1]
    return m3.CrossSection([ring]).extrude(high_mm - low_mm).translate((0.0, 0.0, low_mm))


def least_rectangle_sides(shape: Polygon | MultiPolygon | MultiPoint) -> tuple[float, float]:
    """The longer and the shorter side of the rectangle of least area about a shape [mm].

    Parameters
    ----------
    shape : outlines, or points that are not all on a line [mm].

    Source: the least rectangle has a side along the hull's (Freeman & Shapira 1975, "Determining the minimum-area
    encasing rectangle for an arbitrary closed curve", Communications of the ACM 18; from memory), as shapely finds it.

    >>> least_rectangle_sides(shapely.box(0, 0, 2, 5))
    (5.0, 2.0)
    """
    corners = np.asarray(shapely.minimum_rotated_rectangle(shape).exterior.coords)[:3]
    breadth, length = sorted(float(side) for side in np.linalg.norm(np.diff(corners, axis=0), axis=1))
    return length, breadth


def ring_length_mm(ring: NDArray[np.float64]) -> float:
    """Length of a closed outline [mm].

    Parameters
    ----------
    ring : (n, 2) corners in order, the last joined to the first [mm].

    Source: a closed form.

    >>> ring_length_mm(np.array([[0.0, 0], [3, 0], [3, 2], [0, 2]]))
    10.0
    """
    return float(np.linalg.norm(ring - np.roll(ring, -1, axis=0), axis=1).sum())
