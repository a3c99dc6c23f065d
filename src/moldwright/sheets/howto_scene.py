"""The little scene of the page that tells how to photograph: a figure of ours on a sheet, seen from anywhere.

A figure of balls and their like: each is convex as it is seen, so that its outline is the hull of its points.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

import numpy as np
import numpy.typing as npt
import shapely

from moldwright.photos.sheet.layout import INK_RGB, PAPER_RGB, PhotoSheet
from moldwright.sheets.shapes import Area, Color, Line, Shape, Wire

Floats = npt.NDArray[np.float64]
Project = Callable[[Floats], Floats]
"""From (n, 3) points of the sheet's frame to (n, 2) places of a drawing, right and down [mm]."""

BALLS = (
    ((0.0, 0.0, 7.0), (46.0, 40.0, 12.0)),
    ((0.0, 4.0, 52.0), (31.0, 29.0, 42.0)),
    ((0.0, -6.0, 104.0), (23.0, 22.0, 21.0)),
    ((-16.0, -2.0, 122.0), (8.0, 6.0, 9.0)),
    ((16.0, -2.0, 122.0), (8.0, 6.0, 9.0)),
    ((0.0, -28.0, 99.0), (10.0, 11.0, 8.0)),
    ((-27.0, -10.0, 62.0), (9.0, 13.0, 22.0)),
    ((27.0, -10.0, 62.0), (9.0, 13.0, 22.0)),
    ((-20.0, -24.0, 18.0), (12.0, 17.0, 10.0)),
    ((20.0, -24.0, 18.0), (12.0, 17.0, 10.0)),
    ((0.0, 36.0, 24.0), (9.0, 16.0, 11.0)),
)
"""Middle and half axes of each part [mm]: a seated bear, 131 mm tall."""
TOP_MM = 131.0
FIGURE: Color = (150, 150, 150)
EDGE_MM = 0.3
COARSE_MM = 0.04


def figure(project: Project, window: shapely.Geometry | None = None) -> Iterator[Shape]:
    """The figure as it is seen: its ground and its outline.

    Parameters
    ----------
    project : from the sheet's frame to the drawing.
    window : what of the drawing shows it, None for all.
    """
    seen = shapely.union_all([shapely.convex_hull(shapely.MultiPoint(project(_ball(*ball)))) for ball in BALLS])
    for part in polygons(seen if window is None else shapely.intersection(seen, window)):
        ring = ring_of(part)
        yield Area((ring,), FIGURE)
        yield Wire((*ring, ring[0]), EDGE_MM)


def sheet_seen(sheet: PhotoSheet, project: Project, window: shapely.Geometry | None = None) -> Iterator[Shape]:
    """The printed sheet as it is seen: its ground, and its markers without their patterns.

    Parameters
    ----------
    sheet : the sheet.
    project : from the sheet's frame to the drawing.
    window : what of the drawing shows it, None for all.
    """
    x, y = sheet.size.breadth_mm / 2, sheet.size.length_mm / 2
    ground = ((-x, y), (x, y), (x, -y), (-x, -y))
    for corners, fill in ((ground, PAPER_RGB), *((m.corners_mm(sheet.side_mm), INK_RGB) for m in sheet.markers)):
        seen = shapely.Polygon(project(np.array([(*corner, 0.0) for corner in corners])))
        for part in polygons(seen if window is None else shapely.intersection(seen, window)):
            yield Area((ring_of(part),), fill)


def from_eye(eye_mm: Floats, aim_mm: Floats, focal_mm: float, middle: tuple[float, float]) -> Project:
    """A perspective as a camera that is held upright sees it.

    Parameters
    ----------
    eye_mm, aim_mm : where it stands and what it looks at on the sheet [mm].
    focal_mm : distance of the drawing [mm].
    middle : where on the drawing the aim is [mm].
    """
    ahead = (aim_mm - eye_mm) / np.linalg.norm(aim_mm - eye_mm)
    right = np.cross(ahead, (0.0, 0.0, 1.0))
    right /= np.linalg.norm(right)
    down = np.cross(ahead, right)

    def project(points: Floats) -> Floats:
        away = points - eye_mm
        scale = focal_mm / (away @ ahead)
        return np.column_stack([middle[0] + scale * (away @ right), middle[1] + scale * (away @ down)])

    return project


def polygons(found: shapely.Geometry) -> list[shapely.Polygon]:
    """The polygons of what was found.

    Parameters
    ----------
    found : any geometry.
    """
    return [part for part in getattr(found, "geoms", [found]) if isinstance(part, shapely.Polygon) and part.area > 0]


def ring_of(part: shapely.Polygon) -> Line:
    """A polygon's outer ring, as fine as a drawing needs it.

    Parameters
    ----------
    part : the polygon [mm].
    """
    coarse = part.simplify(COARSE_MM).exterior.coords
    return tuple((float(x), float(y)) for x, y in list(coarse)[:-1])


def _ball(middle: tuple[float, float, float], half: tuple[float, float, float]) -> Floats:
    turns, rises = np.meshgrid(np.linspace(0, 2 * math.pi, 48), np.linspace(-math.pi / 2, math.pi / 2, 25))
    unit = np.stack([np.cos(rises) * np.cos(turns), np.cos(rises) * np.sin(turns), np.sin(rises)], axis=-1)
    points: Floats = unit.reshape(-1, 3) * np.array(half) + np.array(middle)
    points[:, 2] = np.maximum(points[:, 2], 0.0)
    return points
