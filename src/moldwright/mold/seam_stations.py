"""Stations on the seam's lines, near enough to each other that straight joins between them give the seam again."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count, pairwise

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import Rays
from moldwright.mold.seam_line import LEAST_RING_MM, SeamCurve, SeamPart, SeamRise
from moldwright.plan.flange import FlangePlan, Frame, Point2
from moldwright.plan.seam import AZIMUTH_DEG, SeamCrossing, SeamLine, SeamPlan, SeamStation, ViewSide, seen_from

Points = NDArray[np.float64]
Numbers = list[int]

STEP_MM, LARGE_STEP_MM, LARGE_FROM_MM = 10.0, 20.0, 100.0
"""A station at every so many millimeters of height; of pieces from so many millimeters up."""
TURN_MM = 3.0
"""A turn of the height by less is none: our choice."""
STRAIGHTS_MM, FLANGE_STRAIGHT_MM = (2.0, 2.4), 1.5
"""How far the seam may stray from a straight join of two stations, the next where there are `MANY` or more; and on the
flange. A seam drawn within 3 mm serves: rounding and hand have the rest."""
MANY = 120
"""Stations that are too many to set off: our choice."""
NEAR_MM = 5.0
"""Stations of height nearer than this to a turn are left out: our choice."""
APART_MM, SPUR_MM, LEFT_OUT_MM = 8.0, 3.0, 4.0
"""Stations nearer than this to each other are thinned; where the two beside a station are nearer, the line runs out
and back; how far the seam may stray, in a place, from what is left: nineteen parts in twenty still lie within 3 mm."""
MOST_SPUR_MM = 12.0
"""A line that goes out farther and comes back is told: our choice."""
FACING, FACING_STAYS = 0.2, 0.2
"""How squarely a surface must face a viewer (cosine) to be marked from there, and to go on being: our choice."""
BEFORE_MM, TOUCH_MM = 2000.0, 0.6
LEAST_STATIONS = 4
"""No line is thinned to fewer: a ring stays one."""


def seam_plan(curve: SeamCurve, gloved: Mesh, flange: FlangePlan) -> SeamPlan:
    """The seam as it is told to the hand.

    Parameters
    ----------
    curve : its lines on the rubber.
    gloved : the gloved piece, closed, on z = 0 [mm].
    flange : in whose frame places are measured.

    Source: stations by Douglas & Peucker 1973, "Algorithms for the reduction of the number of points required to
    represent a digitized line or its caricature" (from memory), between turns and steps of height.
    """
    tall = float(gloved.bounds_mm[1][2])
    step_mm = LARGE_STEP_MM if tall >= LARGE_FROM_MM else STEP_MM
    rays = Rays([gloved])
    normals = _face_normals(gloved)
    for straight_mm in STRAIGHTS_MM:
        chosen = [_stations(part, step_mm, straight_mm) for part in curve.wall]
        if sum(map(len, chosen)) < MANY:
            break
    crossings = count()
    lines = tuple(
        SeamLine(_told(points, rays, normals, flange.frame), rise.part.closed, rise.piece, *_ends(rise, crossings))
        for rise, points in zip(curve.rises, chosen, strict=True)
    )
    return SeamPlan(lines, tuple(_crossing(part) for part in curve.flange), step_mm, LEAST_RING_MM)


def _ends(rise: SeamRise, crossings: Iterator[int]) -> tuple[int | None, ...]:
    """The numbers of the crossings by which a line begins and ends."""
    return tuple(None if out is None else next(crossings) for out in rise.out)


def _crossing(part: SeamPart) -> SeamCrossing:
    flat = part.points * np.array([1.0, 1.0, 0.0])
    bends = [0, *_straightened(flat, 0, len(flat) - 1, FLANGE_STRAIGHT_MM), len(flat) - 1]
    return SeamCrossing(tuple(_on_board(flat[n]) for n in bends))


def _on_board(point: Points) -> Point2:
    return (round(float(point[0]), 1), round(float(point[1]), 1))


def _stations(part: SeamPart, step_mm: float, straight_mm: float) -> Points:
    points = np.concatenate([part.points, part.points[:1]]) if part.closed else part.points
    chosen, places = stations_on(points, step_mm, straight_mm)
    kept = thinned(chosen, places)
    return places[kept[:-1] if part.closed else kept]


def _told(picked: Points, rays: Rays, normals: Points, frame: Frame) -> tuple[SeamStation, ...]:
    """Stations as they are measured, each from the side that the one before was where it can be."""
    told: list[SeamStation] = []
    side: ViewSide | None = None
    for point, faces in zip(picked, _facing(picked, rays, normals), strict=True):
        side, seen = _best(faces, side)
        aside, depth = seen_from(side, frame, (float(point[0]), float(point[1]), float(point[2])))
        told.append(SeamStation(side, round(float(point[2]), 1), round(aside, 1), round(depth, 1), seen))
    return tuple(told)


def stations_on(points: Points, step_mm: float, straight_mm: float) -> tuple[Numbers, Points]:
    """The numbers of the stations among the points of a line, and those points: its own and one at each step of height.

    Parameters
    ----------
    points : (n, 3) in order [mm].
    step_mm : of height [mm].
    straight_mm : how far the line may stray from a straight join of two stations [mm].

    Source: our own.
    """
    points, steps = _with_steps(points, step_mm)
    turns = _turns(points[:, 2])
    along = np.concatenate([[0.0], np.linalg.norm(np.diff(points, axis=0), axis=1).cumsum()])
    at_turns = along[turns]
    kept = {n for n in steps if np.abs(at_turns - along[n]).min() >= NEAR_MM} | set(turns)
    chosen = sorted(kept)
    for first, last in pairwise(chosen):
        kept |= set(_straightened(points, first, last, straight_mm))
    return sorted(kept), points


def thinned(chosen: Numbers, points: Points) -> Numbers:
    """Stations without those that a hand cannot follow: too near to each other, or out and back on one line.

    Parameters
    ----------
    chosen : their numbers among the points, in order; the first and the last stay.
    points : (n, 3) in order [mm].

    Source: our own.
    """
    kept = list(chosen)
    while len(kept) > LEAST_STATIONS:
        costs = [_without(kept, k, points) for k in range(1, len(kept) - 1)]
        best = int(np.argmin(costs))
        if not np.isfinite(costs[best]):
            break
        del kept[best + 1]
    return kept


def _without(kept: Numbers, k: int, points: Points) -> float:
    """How far the line strays where a station is left out [mm]; infinite for one that stays."""
    first, here, last = kept[k - 1 : k + 2]
    before, after, join = (_gap_mm(points, *ends) for ends in ((first, here), (here, last), (first, last)))
    strays_mm = _from_join(points, first, last)
    told = np.ones(len(strays_mm), bool)
    told[: here - first - 1] = before > SPUR_MM
    told[here - first :] = after > SPUR_MM
    most_mm = float(strays_mm[told].max(initial=0.0))
    spur = join <= SPUR_MM and most_mm <= MOST_SPUR_MM
    near = min(before, after) < APART_MM and most_mm <= LEFT_OUT_MM
    return most_mm if spur or near else float("inf")


def _gap_mm(points: Points, first: int, last: int) -> float:
    return float(np.linalg.norm(points[last] - points[first]))


def _with_steps(points: Points, step_mm: float) -> tuple[Points, Numbers]:
    """The points and, where the line passes a step of height, one more; the numbers of those."""
    out: list[Points] = [points[0]]
    steps: Numbers = []
    for a, b in pairwise(points):
        low, high = sorted((a[2], b[2]))
        levels = np.arange(np.ceil(low / step_mm + 1e-9), np.ceil(high / step_mm - 1e-9)) * step_mm
        for level in levels if a[2] < b[2] else levels[::-1]:
            steps.append(len(out))
            out.append(a + (level - a[2]) / (b[2] - a[2]) * (b - a))
        out.append(b)
    return np.array(out), steps


def _turns(height: Points) -> Numbers:
    """First, last, and where the height turns by more than a little."""
    turns = [0]
    low = high = 0
    rising: bool | None = None
    for n, z in enumerate(height):
        if z > height[high]:
            high = n
        if z < height[low]:
            low = n
        if rising is not False and height[high] - z > TURN_MM:
            turns += [high] if rising is not None or height[high] - height[0] > TURN_MM else []
            rising, low, high = False, n, n
        elif rising is not True and z - height[low] > TURN_MM:
            turns += [low] if rising is not None or height[0] - height[low] > TURN_MM else []
            rising, low, high = True, n, n
    return sorted({*turns, len(height) - 1})


def _straightened(points: Points, first: int, last: int, straight_mm: float) -> Numbers:
    """Points between two that a straight join strays from, the farthest first."""
    if last - first < 2:
        return []
    away = _from_join(points, first, last)
    farthest = first + 1 + int(away.argmax())
    if away.max() <= straight_mm:
        return []
    before = _straightened(points, first, farthest, straight_mm)
    return [*before, farthest, *_straightened(points, farthest, last, straight_mm)]


def _from_join(points: Points, first: int, last: int) -> Points:
    """How far the points between two lie from their straight join [mm]."""
    a, along = points[first], points[last] - points[first]
    between = points[first + 1 : last] - a
    share = np.clip(between @ along / max(float(along @ along), 1e-12), 0, 1)
    away: Points = np.linalg.norm(between - share[:, None] * along, axis=1)
    return away


def _face_normals(mesh: Mesh) -> Points:
    a, b, c = (mesh.vertices[mesh.faces[:, corner]] for corner in range(3))
    cross = np.cross(b - a, c - a)
    unit: Points = cross / np.maximum(np.linalg.norm(cross, axis=1, keepdims=True), 1e-12)
    return unit


def toward(side: ViewSide) -> Points:
    """(3,) the level way from the piece to who stands before a side.

    Parameters
    ----------
    side : before which the viewer stands.

    Source: our own.
    """
    angle = np.radians(AZIMUTH_DEG[side])
    return np.array([np.sin(angle), -np.cos(angle), 0.0])


def _facing(points: Points, rays: Rays, normals: Points) -> Points:
    """(n, 4) how squarely each point faces the four sides; 0 and less where it is out of sight."""
    out = np.zeros((len(points), len(ViewSide)))
    for column, side in enumerate(ViewSide):
        way = toward(side)
        hits = rays.first_hits(points + BEFORE_MM * way, -way)
        seen = (hits.solid >= 0) & (np.abs(hits.distance_mm - BEFORE_MM) <= TOUCH_MM)
        out[seen, column] = normals[hits.face[seen]] @ way
    return out


def _best(faces: Points, before: ViewSide | None) -> tuple[ViewSide, bool]:
    """The side that a point is marked from, the one before where it still shows it, and whether it is in sight."""
    sides = tuple(ViewSide)
    best = int(faces.argmax())
    stays = 0.0 if before is None else float(faces[sides.index(before)])
    if before is not None and stays >= FACING_STAYS and faces[best] < 2 * stays:
        return before, True
    if faces[best] >= FACING:
        return sides[best], True
    return before or sides[best], False
