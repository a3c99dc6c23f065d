"""The seam unrolled: how far round the rubber it lies at each height, where a tape laid round tells that."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from shapely import LinearRing, LineString, Point, Polygon

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import section
from moldwright.geometry.solid import Solid, solid_of
from moldwright.mold.seam_line import SeamCurve, length_mm
from moldwright.plan.flange import Frame
from moldwright.plan.seam import SeamPlan, place_of
from moldwright.sheets.side_drawing import NOT_UNROLLED, Line, Unrolled

APART_MM = 2.0
"""Levels lie so far apart [mm]."""
TAUT = 1.02
"""A tape lies on the rubber all round where its outline is longer than the tape, taut, by no more than this factor."""
NEAR_MM, OFF_MM = 0.1, 2.0
"""How far a drawn line may stray; how far off its level's outline a place of the seam may lie [mm]."""
WRAPPED = 0.5
"""From one point to the next a line that goes farther than this share of the way round has passed the front."""
LEAST_SHARE = 0.25
"""Of the seam's length so much is told at least, or nothing is: our choice."""
Floats = NDArray[np.float64]


def unrolled_seam(gloved: Mesh, curve: SeamCurve, seam: SeamPlan, frame: Frame) -> Unrolled:
    """The seam by height and girth, at the levels where the rubber is one loop that a tape lies on.

    Girth is counted from where the level's outline meets the plane of the front and back plumb lines, in front, to the
    right as one looks at the front, so counterclockwise seen from above.

    Parameters
    ----------
    gloved : closed, on z = 0 [mm].
    curve : the seam on the rubber.
    seam : its stations, in their order.
    frame : at the middle of whose sides the plumb lines stand.
    """
    whole_mm = sum(length_mm(part.points) for part in curve.wall)
    if whole_mm <= 0:
        return NOT_UNROLLED
    low_mm = min(float(part.points[:, 2].min()) for part in curve.wall)
    tall_mm, middle_mm = float(gloved.bounds_mm[1][2]), (frame.left_mm + frame.right_mm) / 2
    solid = solid_of(gloved)
    loops = _loops(solid, low_mm, tall_mm, middle_mm)
    lines: list[Line] = []
    for part in curve.wall:
        points = np.concatenate([part.points, part.points[:1]]) if part.closed else part.points
        lines += _line(points, loops)
    told_mm = sum(_told_mm(part.points, loops) for part in curve.wall)
    if told_mm < LEAST_SHARE * whole_mm:
        return NOT_UNROLLED
    edge = tuple((round(loop.length, 1), round(level * APART_MM, 1)) for level, loop in sorted(loops.items()))
    return Unrolled(edge, tuple(lines), tuple(_stations(seam, frame, solid, middle_mm)), told_mm / whole_mm)


def _loops(solid: Solid, low_mm: float, tall_mm: float, middle_mm: float) -> dict[int, LinearRing]:
    """Of each level from the seam's lowest on that a tape tells its outline, begun in front; by the level's number."""
    found = {}
    for level in range(max(1, math.ceil(low_mm / APART_MM)), int(tall_mm / APART_MM)):
        loop = _loop(solid, level * APART_MM, middle_mm)
        if loop is not None:
            found[level] = loop
    return found


def _loop(solid: Solid, height_mm: float, middle_mm: float) -> LinearRing | None:
    """The outline at a height, begun in front; None where it is not one loop that a tape lies on."""
    shape = section(solid, height_mm)
    if len(shape.geoms) != 1:
        return None
    outline: Polygon = shape.geoms[0]
    begun = _begun(outline, middle_mm)
    return begun if begun is not None and begun.length <= TAUT * outline.convex_hull.length else None


def _begun(outline: Polygon, middle_mm: float) -> LinearRing | None:
    """An outline counterclockwise from its foremost place in the plane of the plumb lines; None off that plane."""
    ring = LinearRing(outline.exterior.coords)
    low, high = outline.bounds[1] - 1.0, outline.bounds[3] + 1.0
    met = ring.intersection(LineString([(middle_mm, low), (middle_mm, high)]))
    places = [place for place in getattr(met, "geoms", [met]) if isinstance(place, Point) and not place.is_empty]
    if not places:
        return None
    first = min(places, key=lambda place: place.y)
    points = np.asarray(ring.coords)[:-1]
    points = points if ring.is_ccw else points[::-1]
    turned = LinearRing(points)
    start_mm = turned.project(first)
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    after = np.argsort((along - start_mm) % turned.length, kind="stable")
    rest = points[after]
    return LinearRing([(first.x, first.y), *(tuple(p) for p in rest if np.hypot(*(p - (first.x, first.y))) > 1e-9)])


def _girth(point: Floats, loops: Mapping[int, LinearRing]) -> tuple[float, float] | None:
    """How far round a point is, and all round there [mm], between the levels under and over it; None where no tape
    tells it."""
    level, place = float(point[2]) / APART_MM, Point(float(point[0]), float(point[1]))
    under, over = loops.get(math.floor(level)), loops.get(math.floor(level) + 1)
    near = [loop for loop in (under or over, over or under) if loop is not None and loop.distance(place) <= OFF_MM]
    if not near:
        return None
    low, high = (np.array([loop.project(place), loop.length]) for loop in (near[0], near[-1]))
    if abs(high[0] - low[0]) > WRAPPED * low[1]:
        high = low
    girth, whole = low + (level - math.floor(level)) * (high - low)
    return float(girth), float(whole)


def _line(points: Floats, loops: Mapping[int, LinearRing]) -> list[Line]:
    """A line of the seam by girth and height: begun anew where no tape tells it, and where it passes the front."""
    runs: list[list[tuple[float, float]]] = [[]]
    before: tuple[float, float] | None = None
    for point in points:
        here = _girth(point, loops)
        if here is None or (before is not None and abs(here[0] - before[0]) > WRAPPED * here[1]):
            runs.append([])
        if here is not None:
            runs[-1].append((here[0], float(point[2])))
        before = here
    drawn = [LineString(run).simplify(NEAR_MM) for run in runs if len(run) > 1]
    return [tuple((round(float(x), 2), round(float(z), 2)) for x, z in line.coords) for line in drawn]


def _told_mm(points: Floats, loops: Mapping[int, LinearRing]) -> float:
    """How much of a line a tape tells [mm]."""
    told = [_girth(point, loops) is not None for point in points]
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    return float(sum(step for step, (a, b) in zip(steps, pairwise(told), strict=True) if a and b))


def _stations(seam: SeamPlan, frame: Frame, solid: Solid, middle_mm: float) -> Iterator[tuple[int, float, float]]:
    """Number, girth and height of the stations that a tape tells, each by the outline at its own height."""
    places = (place_of(station, frame) for line in seam.lines for station in line.stations)
    for number, (x, y, height_mm) in enumerate(places, start=1):
        loop, place = _loop(solid, height_mm, middle_mm), Point(x, y)
        if loop is not None and loop.distance(place) <= OFF_MM:
            yield number, round(loop.project(place), 1), round(height_mm, 1)
