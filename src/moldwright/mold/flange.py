"""The flange that a maker lays: an offset of the foot's outline, two unequal cuts that make it seat one way only."""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, MultiPolygon, Polygon

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
ENDLESS_MM = 1e9
TURNS, QUARTER = 24, 6
NEAR_MM, PLAIN_MM = 0.05, 0.01
"""How far a corner of an outline may be left out, and the digits that are kept [mm]."""


def lay_flange(body: Solid, width_mm: float, wall_mm: float) -> FlangePlan:
    """The flange about a foot: the foot grown by the width, corners round, inner dents rounded by the same radius.

    Each key is a straight cut at one of the outline's sharpest turns; the second lies 60 to 120 degrees from the first
    and is shallower, so that no turn of the glove fits but one.

    Parameters
    ----------
    body : original and plinth on z = 0 [mm].
    width_mm : flange beyond the foot [mm].
    wall_mm : all coats together, what of the width stands under the glove's wall [mm].

    Raises InputRefused where the width leaves too little beyond the wall. Source: common practice, no source.
    """
    keep_mm = keep_from_wall_mm(width_mm, wall_mm)
    depth_mm = min(width_mm - wall_mm - keep_mm, DEEPEST_SHARE * width_mm)
    foot = _one(section(body, FOOT_MM))
    bare = _one(foot.buffer(2 * width_mm, quad_segs=32).buffer(-width_mm, quad_segs=32))
    cuts = [_cut(bare, turn, depth) for turn, depth in _turns(bare, depth_mm)]
    keyed = bare
    for _, away in cuts:
        keyed = _one(keyed.difference(away))
    outline = keyed.simplify(NEAR_MM)
    left, front, right, back = foot.bounds
    return FlangePlan(
        width_mm=width_mm,
        keep_mm=keep_mm,
        frame=Frame(left - width_mm, front - width_mm, right + width_mm, back + width_mm),
        foot=corners(foot.simplify(NEAR_MM)),
        outline=corners(outline),
        keys=(cuts[0][0], cuts[1][0]),
        area_mm2=float(outline.area),
        edge_mm=float(outline.length),
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


def _turns(bare: Polygon, depth_mm: float) -> list[tuple[int, float]]:
    """The larger and the smaller cut, each as its direction, in 24ths of a turn, and its depth: where chords are least.

    Of equal ones the nearest to the front right corner is taken, and the first counterclockwise of it.
    """
    order = sorted(range(TURNS), key=lambda turn: (turn - QUARTER // 2 * 7) % TURNS)
    length = {turn: _length(bare, turn, depth_mm) for turn in order}
    large = min(order, key=lambda turn: round(length[turn]))
    apart = [turn for turn in order if QUARTER - 2 <= _between(turn, large) <= QUARTER + 2]
    small_mm = SMALL_SHARE * depth_mm
    small = min(apart, key=lambda turn: (round(_length(bare, turn, small_mm)), abs(_between(turn, large) - QUARTER)))
    return [(large, depth_mm), (small, small_mm)]


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
