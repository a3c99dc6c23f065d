"""The flange that a maker lays: an offset of the foot's outline, two unequal cuts that make it seat one way only."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, MultiPoint, MultiPolygon, Polygon

from moldwright.errors import ComputationFailed
from moldwright.geometry.outline import section
from moldwright.geometry.solid import Solid
from moldwright.mold.flange_room import keep_from_wall_mm
from moldwright.plan.flange import FlangePlan, Frame, KeyCut, Point2

FOOT_MM = 0.5
SMALL_SHARE = 0.4
"""Depth of the smaller cut as a share of the larger one's: our choice."""
DEEPEST_SHARE = 1 - math.cos(math.radians(45.0))
"""Depth of the larger cut, as a share of the width, at which it takes a quarter of a round corner: our choice."""
CLEAR_MM = (15.0, 10.0, 5.0, 0.0)
"""How far the cuts stay off the seam; the next where no pair of them does [mm]: our choice."""
NO_SEAM = np.zeros((0, 2))
ENDLESS_MM = 1e9
TURNS, QUARTER = 24, 6
NEAR_MM, PLAIN_MM = 0.05, 0.01
"""How far a corner of an outline may be left out, and the digits that are kept [mm]."""


@dataclass(frozen=True, slots=True)
class BareFlange:
    """The flange before its keys are cut, and what bounds them.

    width_mm : beyond the foot. keep_mm, depth_mm : how far cuts stay off the wall, how deep the larger goes [mm].
    foot, outline : seen from above.
    """

    width_mm: float
    keep_mm: float
    depth_mm: float
    frame: Frame
    foot: tuple[Point2, ...]
    outline: tuple[Point2, ...]


def bare_flange(body: Solid, width_mm: float, wall_mm: float) -> BareFlange:
    """The flange about a foot: the foot grown by the width, corners round, inner dents rounded by the same radius.

    Parameters
    ----------
    body : original and plinth on z = 0 [mm].
    width_mm : flange beyond the foot [mm].
    wall_mm : all coats together, what of the width stands under the glove's wall [mm].

    Raises InputRefused where the width leaves too little beyond the wall. Source: common practice, no source.
    """
    keep_mm = keep_from_wall_mm(width_mm, wall_mm)
    foot = _one(section(body, FOOT_MM))
    bare = _one(foot.buffer(2 * width_mm, quad_segs=32).buffer(-width_mm, quad_segs=32))
    left, front, right, back = foot.bounds
    return BareFlange(
        width_mm=width_mm,
        keep_mm=keep_mm,
        depth_mm=min(width_mm - wall_mm - keep_mm, DEEPEST_SHARE * width_mm),
        frame=Frame(left - width_mm, front - width_mm, right + width_mm, back + width_mm),
        foot=corners(foot.simplify(NEAR_MM)),
        outline=corners(bare),
    )


def keyed(flange: BareFlange, seam: NDArray[np.float64] = NO_SEAM) -> FlangePlan:
    """The flange with its two keys: straight cuts at the sharpest turns of the outline that the seam stays away from.

    The second lies 60 to 120 degrees from the first and is shallower, so that no turn of the glove fits but one.

    Parameters
    ----------
    flange : before its keys are cut.
    seam : (n, 2) where the seam goes over it [mm].

    Source: common practice, no source.
    """
    bare = Polygon(flange.outline)
    trimmed = bare
    keys: list[KeyCut] = []
    for turn, depth_mm in _turns(bare, flange.depth_mm, MultiPoint(seam)):
        key, away = _cut(bare, turn, depth_mm)
        keys.append(key)
        trimmed = _one(trimmed.difference(away))
    trimmed = trimmed.simplify(NEAR_MM)
    return FlangePlan(
        width_mm=flange.width_mm,
        keep_mm=flange.keep_mm,
        frame=flange.frame,
        foot=flange.foot,
        outline=corners(trimmed),
        keys=(keys[0], keys[1]),
        area_mm2=float(trimmed.area),
        edge_mm=float(trimmed.length),
    )


def corners(shape: Polygon) -> tuple[Point2, ...]:
    """An outline's corners in order, counterclockwise, the last joined to the first [mm].

    Parameters
    ----------
    shape : its holes are left out [mm].

    Source: our own.
    """
    ring = np.round(np.asarray(shapely.geometry.polygon.orient(shape, 1.0).exterior.coords)[:-1] / PLAIN_MM) * PLAIN_MM
    return tuple((round(float(x), 2), round(float(y), 2)) for x, y in ring)


def _one(shape: Polygon | MultiPolygon) -> Polygon:
    """The largest outline without its holes; several feet are joined by their hull."""
    if isinstance(shape, Polygon) and not shape.is_empty:
        return Polygon(shape.exterior)
    parts = list(getattr(shape, "geoms", ()))
    if not parts:
        raise ComputationFailed("foot-empty", 0, None, "mm2", "Report this commission.")
    return Polygon(parts[0].exterior) if len(parts) == 1 else Polygon(shapely.convex_hull(shape).exterior)


def _turns(bare: Polygon, depth_mm: float, seam: MultiPoint) -> list[tuple[int, float]]:
    """The larger and the smaller cut, each as its direction, in 24ths of a turn, and its depth: where chords are least.

    Of equal ones the nearest to the front right corner is taken, and the first counterclockwise of it. Both stay clear
    of the seam; where there is no such pair, as clear as there is one.
    """
    depths_mm = depth_mm, SMALL_SHARE * depth_mm
    order = sorted(range(TURNS), key=lambda turn: (turn - QUARTER // 2 * 7) % TURNS)
    length = {(turn, deep): round(_length(bare, turn, deep)) for turn in order for deep in depths_mm}
    clear = {(turn, deep): _clear_of(seam, bare, turn, deep) for turn in order for deep in depths_mm}
    for least_mm in CLEAR_MM:
        for large in sorted(order, key=lambda turn: length[turn, depth_mm]):
            apart = [turn for turn in order if QUARTER - 2 <= _between(turn, large) <= QUARTER + 2]
            free = [turn for turn in apart if clear[turn, depths_mm[1]] >= least_mm]
            if free and clear[large, depth_mm] >= least_mm:
                small = min(free, key=lambda turn: (length[turn, depths_mm[1]], abs(_between(turn, large) - QUARTER)))
                return [(large, depths_mm[0]), (small, depths_mm[1])]
    raise ComputationFailed("keys-nowhere", 0, None, "cuts", "Report this commission.")


def _clear_of(seam: MultiPoint, bare: Polygon, turn: int, depth_mm: float) -> float:
    """How far what is cut away stays off the seam [mm]."""
    if seam.is_empty:
        return ENDLESS_MM
    return float(shapely.distance(seam, bare.intersection(_cut(bare, turn, depth_mm)[1])))


def _between(turn: int, other: int) -> int:
    """The angle between two directions, in 24ths of a turn."""
    return min((turn - other) % TURNS, (other - turn) % TURNS)


def _direction(turn: int) -> NDArray[np.float64]:
    angle = 2 * math.pi * turn / TURNS
    return np.array([math.cos(angle), math.sin(angle)])


def _length(bare: Polygon, turn: int, depth_mm: float) -> float:
    """Length of a cut; endless where it meets the outline more than twice."""
    chord = _chord(bare, turn, depth_mm)
    return float(chord.length) if isinstance(chord, LineString) and not chord.is_empty else ENDLESS_MM


def _reach(bare: Polygon) -> float:
    left, front, right, back = bare.bounds
    return math.hypot(right - left, back - front)


def _chord(bare: Polygon, turn: int, depth_mm: float) -> shapely.Geometry:
    out = _direction(turn)
    along = np.array([-out[1], out[0]])
    ring = np.asarray(bare.exterior.coords)
    level = float((ring @ out).max()) - depth_mm
    middle = level * out + float(np.median(ring @ along)) * along
    reach = 2 * _reach(bare)
    return shapely.intersection(bare, LineString([middle - reach * along, middle + reach * along]))


def _cut(bare: Polygon, turn: int, depth_mm: float) -> tuple[KeyCut, Polygon]:
    """The cut, and all that lies beyond it."""
    chord = _chord(bare, turn, depth_mm)
    if not isinstance(chord, LineString):
        chord = max(getattr(chord, "geoms", ()), key=lambda part: part.length)
    start, end = np.asarray(chord.coords)[[0, -1]]
    out = _direction(turn)
    along = (end - start) / max(float(np.linalg.norm(end - start)), 1e-9)
    reach = 2 * _reach(bare)
    first, last = start - reach * along, end + reach * along
    far = Polygon([first, last, last + reach * out, first + reach * out])
    (x0, y0), (x1, y1) = ((round(float(x), 2), round(float(y), 2)) for x, y in (start, end))
    return KeyCut((x0, y0), (x1, y1), round(float(chord.length), 2)), far
