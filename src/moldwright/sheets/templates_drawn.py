"""What the full-size templates show of the gloved piece: outlines and seam from four sides, hidden parts left out."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from moldwright.geometry.contour import level_lines
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import Rays
from moldwright.mold.seam_line import SeamCurve
from moldwright.mold.seam_stations import BEFORE_MM, toward
from moldwright.plan.flange import Frame
from moldwright.plan.seam import AZIMUTH_DEG, ViewSide
from moldwright.sheets.side_drawing import Drawings, Line, SideDrawing

Points = NDArray[np.float64]

OFF_MM, TOUCH_MM = 0.4, 0.8
"""How far before the surface a point of an outline is looked for; how near the seam counts as seen [mm]."""
LEAST_MM, NEAR_MM, SEAM_NEAR_MM = 12.0, 0.1, 0.2
"""Shorter outlines are left out; how far a drawn outline, and the drawn seam, may stray [mm]."""


def side_drawings(gloved: Mesh, curve: SeamCurve, frame: Frame) -> Drawings:
    """The gloved piece and its seam, drawn from four sides.

    Parameters
    ----------
    gloved : closed, on z = 0 [mm].
    curve : the seam on it.
    frame : at the middle of whose sides the plumb lines stand.
    """
    rays, normals = Rays([gloved]), _point_normals(gloved)
    return Drawings(tuple(_side(side, gloved, normals, rays, curve, frame) for side in ViewSide))


def _side(side: ViewSide, gloved: Mesh, normals: Points, rays: Rays, curve: SeamCurve, frame: Frame) -> SideDrawing:
    way = toward(side)
    outline: list[Line] = []
    for found in level_lines(gloved, normals @ way):
        points, out = found.of(gloved.vertices), found.of(normals)
        if found.closed:
            points, out = np.concatenate([points, points[:1]]), np.concatenate([out, out[:1]])
        before = points + OFF_MM * out + OFF_MM * way
        hits = rays.first_hits(before + BEFORE_MM * way, -way)
        outline += _seen(points, hits.distance_mm >= BEFORE_MM - OFF_MM, side, frame, (LEAST_MM, NEAR_MM))
    seam: list[Line] = []
    for part in (*curve.wall, *curve.flange):
        points = np.concatenate([part.points, part.points[:1]]) if part.closed else part.points
        hits = rays.first_hits(points + BEFORE_MM * way, -way)
        seam += _seen(points, np.abs(hits.distance_mm - BEFORE_MM) <= TOUCH_MM, side, frame, (0.0, SEAM_NEAR_MM))
    return SideDrawing(side, tuple(outline), tuple(seam))


def _seen(
    points: Points, seen: NDArray[np.bool_], side: ViewSide, frame: Frame, limits_mm: tuple[float, float]
) -> list[Line]:
    """The runs of a line that are in sight, as they are seen from a side."""
    angle = np.radians(AZIMUTH_DEG[side])
    right = np.array([np.cos(angle), np.sin(angle), 0.0])
    middle = np.array([(frame.left_mm + frame.right_mm) / 2, (frame.front_mm + frame.back_mm) / 2, 0.0])
    flat = np.stack([(points - middle) @ right, points[:, 2]], axis=1)
    runs = np.split(np.arange(len(points)), np.flatnonzero(np.diff(seen.astype(int))) + 1)
    lines = (shapely.LineString(flat[run]) for run in runs if seen[run[0]] and len(run) > 1)
    least_mm, near_mm = limits_mm
    return [_plain(line, near_mm) for line in lines if line.length >= least_mm]


def _plain(line: shapely.LineString, near_mm: float) -> Line:
    return tuple((round(float(x), 2), round(float(y), 2)) for x, y in line.simplify(near_mm).coords)


def _point_normals(mesh: Mesh) -> Points:
    a, b, c = (mesh.vertices[mesh.faces[:, corner]] for corner in range(3))
    cross = np.cross(b - a, c - a)
    points = np.empty_like(mesh.vertices)
    corners = mesh.faces.reshape(-1)
    for axis in range(3):
        points[:, axis] = np.bincount(corners, weights=np.repeat(cross[:, axis], 3), minlength=len(points))
    unit: Points = points / np.maximum(np.linalg.norm(points, axis=1, keepdims=True), 1e-12)
    return unit
