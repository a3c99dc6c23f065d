"""A mesh measured as a person would measure its piece: tape round the convex hull of a section, calipers, readings.

The person sets limbs apart by eye: each is told by its axis, from where it joins to its end, and by how far it reaches
round that axis. All lengths in mm, the piece standing on z = 0.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import manifold3d
import numpy as np
import shapely
import trimesh

from moldwright.commission.orders import LevelOrder, LimbOrder, LimbSide, TapeOrder
from moldwright.geometry.section_shape import Hollows, SectionShape

Point = tuple[float, float, float]
GIRTH_MM, GIRTH_SHARE = 2.0, 0.01
"""Nine of ten readings of a girth lie within so much of it: common practice, no source."""
AT_MM = 3.0
CALIPER_MM, CALIPER_SHARE = 1.0, 0.005
NINETY = 1.6448536
"""Standard deviations that hold nine of ten on both sides together."""


@dataclass(frozen=True, slots=True)
class Stands:
    """A limb as a person sees it: its way from where it joins to its end, how far it reaches round that, and how wide
    the gap is that it closes where its end meets the body again."""

    name: str
    path: tuple[Point, ...]
    reach_mm: float
    gap_mm: float | None = None
    readings: int = 4
    calipers: bool = False


@dataclass(frozen=True, slots=True)
class Reader:
    """Whose eyes: with a seed readings scatter as a person's do, without one they are exact."""

    seed: int | None = None
    levels: int = 8
    calipers: bool = True
    notes: bool = True

    def chance(self) -> np.random.Generator | None:
        return None if self.seed is None else np.random.default_rng(self.seed)


def tape_of(body: trimesh.Trimesh, limbs: Sequence[Stands], reader: Reader, told_mm3: float = 0.0) -> TapeOrder:
    """What the person writes down; `told_mm3` of hollows are told as gaps."""
    chance = reader.chance()
    whole = _manifold(body)
    regions = [_region(limb) for limb in limbs]
    trunk, read = whole, []
    for limb, region in zip(limbs, regions, strict=True):
        read.append(_limb(limb, _mesh(trunk ^ region), reader, chance))
        trunk = trunk - region
    trunk = max(trunk.decompose(), key=lambda part: part.volume())
    mesh = _mesh(trunk)
    low, high = float(mesh.bounds[0, 2]), float(mesh.bounds[1, 2])
    tall = high - low
    at = low + tall * np.linspace(0.01, 0.96, reader.levels)
    seen = [_seen(mesh, (0.0, 0.0, float(z)), (0.0, 0.0, 1.0)) for z in at]
    levels = [
        _level(0.0 if n == 0 and low < 0.02 * body.extents[2] else float(z), hull, chance, reader.calipers)
        for n, (z, hull) in enumerate(zip(at, seen, strict=True))
        if hull is not None
    ]
    shape = _kind([hull for hull in seen if hull is not None])
    return TapeOrder(
        tuple(_rising(levels)), shape, tuple(read), _hollows(mesh, told_mm3, chance) if reader.notes else None
    )


def with_levels(
    tape: TapeOrder, at_mm: Sequence[float], body: trimesh.Trimesh, limbs: Sequence[Stands], reader: Reader
) -> TapeOrder:
    """The tape with more levels of the trunk, which the person measures a while later."""
    chance = None if reader.seed is None else np.random.default_rng([reader.seed, len(at_mm)])
    trunk = _manifold(body)
    for limb in limbs:
        trunk = trunk - _region(limb)
    mesh = _mesh(max(trunk.decompose(), key=lambda part: part.volume()))
    seen = [(z, _seen(mesh, (0.0, 0.0, z), (0.0, 0.0, 1.0))) for z in at_mm]
    more = [_level(z, hull, chance, reader.calipers) for z, hull in seen if hull is not None]
    return replace(tape, levels=tuple(_rising(sorted([*tape.levels, *more], key=lambda level: level.at_mm))))


def _rising(levels: list[LevelOrder]) -> list[LevelOrder]:
    """Heights are read one after the other up the piece: none is written below the one before it."""
    made: list[LevelOrder] = []
    for level in levels:
        least = made[-1].at_mm + 1.0 if made else 0.0
        made.append(replace(level, at_mm=max(level.at_mm, least)))
    return made


def _limb(limb: Stands, part: trimesh.Trimesh, reader: Reader, chance: np.random.Generator | None) -> LimbOrder:
    """Girths along the limb; a straight one as far as it goes, a bent one to the last point of its way."""
    way = np.array(limb.path)
    if len(way) == 2:
        axis = (way[1] - way[0]) / np.linalg.norm(way[1] - way[0])
        way[1] = way[0] + axis * float(((part.vertices - way[0]) @ axis).max())
    along = np.append(0.0, np.cumsum(np.linalg.norm(np.diff(way, axis=0), axis=1)))
    levels = []
    for a in along[-1] * np.linspace(0.05, 0.95 if limb.gap_mm else 0.92, limb.readings):
        n = min(int(np.searchsorted(along, a, side="right")) - 1, len(way) - 2)
        step = (way[n + 1] - way[n]) / (along[n + 1] - along[n])
        hull = _seen(part, tuple(way[n] + step * (a - along[n])), tuple(step), nearest=len(way) > 2)
        if hull is not None:
            levels.append(_level(float(a), hull, chance, limb.calipers, turned=True))
    end = _off(float(along[-1]), AT_MM, 0.0, chance)
    levels.append(replace(levels[-1], at_mm=end) if limb.gap_mm else LevelOrder(end, 0.0))
    joins, ends = (max(_off(float(z), AT_MM, 0.0, chance), 0.0) for z in (way[0, 2], way[-1, 2]))
    hollows = _spans(part, way) if reader.notes and len(way) == 2 else None
    return LimbOrder(limb.name, joins, tuple(_rising(levels)), ends, limb.gap_mm, _side(way), hollows=hollows)


def _spans(part: trimesh.Trimesh, way: np.ndarray) -> Hollows:
    """What the tape round a straight limb spans."""
    long = np.linalg.norm(way[1] - way[0])
    axis = tuple((way[1] - way[0]) / long)
    cuts = [_seen(part, tuple(way[0] + (way[1] - way[0]) * (n + 0.5) / 20), axis) for n in range(20)]
    share = part.volume / (sum(hull.area for hull in cuts if hull is not None) * long / 20)
    return Hollows.NONE if share > 0.94 else Hollows.SOME if share > 0.8 else Hollows.DEEP


def _side(way: np.ndarray) -> LimbSide:
    """Toward which side a limb stands off, seen from the front."""
    x, y = way.mean(axis=0)[:2]
    if abs(x) >= abs(y):
        return LimbSide.RIGHT if x > 0 else LimbSide.LEFT
    return LimbSide.BACK if y > 0 else LimbSide.FRONT


def _level(
    at: float, hull: shapely.Polygon, chance: np.random.Generator | None, calipers: bool, turned: bool = False
) -> LevelOrder:
    """A level; calipers lie along x and y, or round a limb where it is slimmest."""
    x0, y0, x1, y1 = _least_box(hull) if turned else hull.bounds
    where = _off(at, AT_MM, 0.0, chance) if at > 0 else 0.0
    girth = _off(hull.length, GIRTH_MM, GIRTH_SHARE, chance)
    if not calipers:
        return LevelOrder(max(where, 0.0), girth)
    wide, deep = (_off(v, CALIPER_MM, CALIPER_SHARE, chance) for v in (x1 - x0, y1 - y0))
    return LevelOrder(max(where, 0.0), girth, wide, deep)


def _least_box(hull: shapely.Polygon) -> tuple[float, float, float, float]:
    a, b, c = (np.array(point) for point in shapely.minimum_rotated_rectangle(hull).exterior.coords[:3])
    return 0.0, 0.0, float(np.linalg.norm(b - a)), float(np.linalg.norm(c - b))


def _hollows(body: trimesh.Trimesh, told_mm3: float, chance: np.random.Generator | None) -> Hollows:
    """What a person says of the hollows that the tape spans, who sees them to a few percent."""
    low, high = body.bounds[:, 2]
    cuts = [_seen(body, (0.0, 0.0, float(z)), (0.0, 0.0, 1.0)) for z in low + (high - low) * (np.arange(40) + 0.5) / 40]
    round_mm3 = sum(hull.area for hull in cuts if hull is not None) * (high - low) / 40
    share = (body.volume + told_mm3) / round_mm3 + (0.0 if chance is None else 0.015 * chance.normal())
    return Hollows.NONE if share > 0.96 else Hollows.SOME if share > 0.87 else Hollows.DEEP


def _kind(hulls: Sequence[shapely.Polygon]) -> SectionShape:
    """What a person says of the sections: toward a box, round, or oval."""
    full, slim = [], []
    for hull in hulls:
        wide, deep = hull.bounds[2] - hull.bounds[0], hull.bounds[3] - hull.bounds[1]
        full.append(hull.area / (wide * deep))
        slim.append(min(wide, deep) / max(wide, deep))
    if np.median(full) > 0.87:
        return SectionShape.BOXY
    return SectionShape.ROUND if np.median(slim) > 0.87 else SectionShape.OVAL


def _off(true: float, mm: float, share: float, chance: np.random.Generator | None) -> float:
    """A reading, to the whole millimeter."""
    if chance is None:
        return true
    return float(max(round(true + chance.normal() * (mm + share * true) / NINETY), 0))


def _seen(mesh: trimesh.Trimesh, at: Point, normal: Point, nearest: bool = False) -> shapely.Polygon | None:
    """The hull that a tape lies on, of all that the plane cuts, or of the loop nearest to `at`; None for nothing."""
    cut = mesh.section(plane_origin=at, plane_normal=normal)
    if cut is None:
        return None
    turn = trimesh.geometry.plane_transform(at, normal) if abs(normal[2]) < 0.999 else np.eye(4)
    hulls = [shapely.MultiPoint(trimesh.transform_points(loop, turn)[:, :2]).convex_hull for loop in cut.discrete]
    hulls = [hull for hull in hulls if isinstance(hull, shapely.Polygon)]
    if not hulls:
        return None
    here = shapely.Point(0.0, 0.0)
    hull = min(hulls, key=lambda h: h.distance(here)) if nearest else shapely.union_all(hulls).convex_hull
    return hull if hull.area > 1.0 else None


def _region(limb: Stands) -> manifold3d.Manifold:
    """A straight limb's cylinder from where it joins on, a little past its end; a bent one's way, as thick as it
    reaches."""
    way = np.array(limb.path)
    if len(way) == 2:
        long = float(np.linalg.norm(way[1] - way[0]))
        turn = trimesh.geometry.align_vectors((0, 0, 1), (way[1] - way[0]) / long)
        turn[:3, 3] = way[0]
        return manifold3d.Manifold.cylinder(1.3 * long, limb.reach_mm, limb.reach_mm, 48).transform(turn[:3])
    balls = [manifold3d.Manifold.sphere(limb.reach_mm, 24).translate(tuple(point)) for point in way]
    links = [manifold3d.Manifold.batch_hull([a, b]) for a, b in pairwise(balls)]
    return manifold3d.Manifold.batch_boolean(links, manifold3d.OpType.Add)


def _manifold(mesh: trimesh.Trimesh) -> manifold3d.Manifold:
    return manifold3d.Manifold(manifold3d.Mesh(mesh.vertices.astype(np.float32), mesh.faces.astype(np.uint32)))


def _mesh(solid: manifold3d.Manifold) -> trimesh.Trimesh:
    raw = solid.to_mesh()
    return trimesh.Trimesh(np.asarray(raw.vert_properties)[:, :3], np.asarray(raw.tri_verts))
