"""Level cuts through the mold, for templates and to check a clay wall: rubber, shell and seam at some heights."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from shapely import MultiPolygon, Polygon

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import section
from moldwright.geometry.solid import solid_of
from moldwright.mold.seam_line import SeamCurve
from moldwright.sheets.side_drawing import LevelDrawing, Line

SHARES = (0.2, 0.4, 0.6, 0.8)
"""Heights of the cuts, as shares of the gloved piece's, each rounded to a millimeter: our choice."""
NEAR_MM = 0.1
"""How far a drawn outline may stray [mm]."""
OFF_FACE_MM = 0.05
"""So far over the height that is told is cut, as level faces of a shell often lie at it: our own."""
SPECK_MM2 = 0.5
"""An outline about no more is none that a hand could follow: our own."""
JOINED_MM = 1.0
"""Places of the seam nearer than this to each other are one [mm]."""


def level_drawings(
    gloved: Mesh, pieces: Sequence[Mesh], curve: SeamCurve, asked_mm: Sequence[float] = ()
) -> tuple[LevelDrawing, ...]:
    """The mold cut level, from the lowest cut up.

    Parameters
    ----------
    gloved : closed, on z = 0 [mm].
    pieces : of the shell, closed, the first off first [mm].
    curve : the seam on the rubber.
    asked_mm : heights that were asked for; none: at `SHARES`.
    """
    tall_mm = float(gloved.bounds_mm[1][2])
    heights_mm = asked_mm or [max(float(round(share * tall_mm)), 1.0) for share in SHARES]
    return tuple(_level(height_mm, gloved, pieces, curve) for height_mm in heights_mm)


def _level(height_mm: float, gloved: Mesh, pieces: Sequence[Mesh], curve: SeamCurve) -> LevelDrawing:
    rubber, *shell = (rings(section(solid_of(mesh), height_mm + OFF_FACE_MM)) for mesh in (gloved, *pieces))
    return LevelDrawing(height_mm, rubber, tuple(shell), passed(curve, height_mm))


def rings(shape: MultiPolygon) -> tuple[Line, ...]:
    """The outlines of a section, outer and inner, each closed; specks, as where a cut lies in a level face, left out.

    Parameters
    ----------
    shape : at one height [mm].
    """
    plain = shape.simplify(NEAR_MM)
    polygons = getattr(plain, "geoms", [plain])
    found = [ring for polygon in polygons for ring in (polygon.exterior, *polygon.interiors)]
    told = [ring for ring in found if Polygon(ring).area > SPECK_MM2]
    return tuple(tuple((round(float(x), 2), round(float(y), 2)) for x, y in ring.coords) for ring in told)


def passed(curve: SeamCurve, height_mm: float) -> tuple[tuple[float, float], ...]:
    """Where the seam's lines pass a height, each place once.

    Parameters
    ----------
    curve : the seam on the rubber.
    height_mm : over the board [mm].
    """
    found: list[NDArray[np.float64]] = []
    for part in curve.wall:
        points = np.concatenate([part.points, part.points[:1]]) if part.closed else part.points
        over = points[:, 2] - height_mm
        for n in np.flatnonzero((over[:-1] < 0) != (over[1:] < 0)):
            at = points[n] + over[n] / (over[n] - over[n + 1]) * (points[n + 1] - points[n])
            if all(np.linalg.norm(at - other) > JOINED_MM for other in found):
                found.append(at)
    return tuple((round(float(x), 2), round(float(y), 2)) for x, y, _ in found)
