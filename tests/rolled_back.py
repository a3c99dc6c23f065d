"""The printed level cuts and the unrolled seam laid on the solid again, by trimesh and shapely alone."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import trimesh
from shapely import LinearRing, Point

from moldwright.geometry.mesh import Mesh
from moldwright.plan.flange import Frame
from moldwright.plan.seam import SeamPlan, place_of
from moldwright.sheets.side_drawing import Line, Unrolled


def outlines(mesh: Mesh, height_mm: float) -> list[np.ndarray]:
    """The closed outlines of a level cut (trimesh)."""
    cut = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False).section((0, 0, 1), (0, 0, height_mm))
    return [] if cut is None else [np.asarray(line)[:, :2] for line in cut.discrete]


def apart_mm(drawn: tuple[Line, ...], mesh: Mesh, height_mm: float, least_mm2: float = 0.5) -> float:
    """How far the drawn outlines and the cut's lie apart at most (Hausdorff distance, shapely): each that is drawn from
    the nearest of the cut's, each of the cut's that is no speck from the nearest that is drawn."""
    cut, rings = [LinearRing(line) for line in outlines(mesh, height_mm)], [LinearRing(line) for line in drawn]
    large = [ring for ring in cut if abs(ring.convex_hull.area) > least_mm2]
    if not cut or not rings:
        return 0.0 if not large and not rings else np.inf
    one = max(min(ring.hausdorff_distance(other) for other in cut) for ring in rings)
    other = max((min(ring.hausdorff_distance(other) for other in rings) for ring in large), default=0.0)
    return float(max(one, other))


def rolled_back_mm(seen: Unrolled, seam: SeamPlan, frame: Frame, gloved: Mesh) -> float:
    """How far the stations lie from where the printed girth and height lead a tape on the rubber."""
    places = [place_of(station, frame) for line in seam.lines for station in line.stations]
    return max(
        float(np.linalg.norm(_by_tape(girth, up, frame, gloved) - np.array(places[number - 1])[:2]))
        for number, girth, up in seen.stations
    )


def _by_tape(girth_mm: float, up_mm: float, frame: Frame, gloved: Mesh) -> np.ndarray:
    """So far round the outline from the plane of the front plumb line, to the right."""
    ring = max((LinearRing(line) for line in outlines(gloved, up_mm)), key=lambda each: each.length)
    points = np.asarray(ring.coords)[:: 1 if ring.is_ccw else -1]
    fine = np.concatenate([np.linspace(a, b, 20, endpoint=False) for a, b in pairwise(points)])
    middle = (frame.left_mm + frame.right_mm) / 2
    nearly = np.abs(fine[:, 0] - middle) <= np.abs(fine[:, 0] - middle).min() + 0.3
    first = min(np.flatnonzero(nearly), key=lambda n: fine[n, 1])
    begun = LinearRing(np.roll(fine, -first, axis=0))
    place: Point = begun.interpolate(girth_mm)
    return np.array([place.x, place.y])
