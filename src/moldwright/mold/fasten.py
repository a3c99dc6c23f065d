"""Bolt holes and register keys of a printed shell, as real geometry along its seam and round its base.

A place is taken only where the finished solids show that it works: both flanges are there in full, a nut finds its seat
on either side, no rubber is near. Holes only take away, so that a piece still comes off; a key's socket is open along
the ways of both pieces. The proof of removal is run on what comes out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import manifold3d as m3
import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid, exportable, mesh_of, solid_of
from moldwright.mold.glove import Outline
from moldwright.mold.measures import Fasteners
from moldwright.mold.seam_line import SeamCurve, SeamPart
from moldwright.mold.shell_settings import ShellSettings

BOLT_MM, SEAT_MM = 5.5, 11.0
"""Hole and nut's washer for an M5 bolt: ISO 273 medium fit, ISO 7089 washer (from memory)."""
EVERY_MM, BASE_EVERY_MM = 60.0, 100.0
"""A flange of plastic bows between bolts that stand farther apart; round the base as clamps do: common practice, no
source."""
FULL_SHARE, SEAT_FREE_SHARE = 0.5, 0.1
"""How much of the wall's thickness a hole must find in a flange, and how much of a nut's seat may be taken: our own."""
NEAR_MM = 8.0
"""The rubber's normal is the mean over so much of it: our own."""
KEY_MM, KEY_TOP_MM, KEY_ROOM_MM = 8.0, 5.0, 0.3
"""A key's foot and top across, and its play: our own."""
ROUND = 32

Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Fastened:
    """The pieces with holes, keys and sockets, and how many there are."""

    meshes: tuple[Mesh, ...]
    count: Fasteners


@dataclass(frozen=True, slots=True, eq=False)
class _Place:
    """Where two pieces face each other: a point between their faces, the way from the first to the second, how far the
    faces are apart, how thick the thinner flange is."""

    first: int
    second: int
    at: Vector
    way: Vector
    gap_mm: float
    thick_mm: float


def fastened(
    pieces: Sequence[Mesh],
    draws: Sequence[tuple[float, float, float]],
    seam: SeamCurve,
    gloved: Mesh,
    outline: Outline,
    floor_mm: float,
    s: ShellSettings,
    keyed: bool = True,
) -> Fastened:
    """Bore the seam's flanges and the base flange, and set keys between the bolts.

    Parameters
    ----------
    pieces : the shell's, closed, first off first [mm].
    draws : a unit vector for each.
    seam : its lines on the rubber.
    gloved : what the shell covers [mm].
    outline : (n, 2) edge of the rubber's flange [mm].
    floor_mm : where the shell stands [mm].
    s : the shell's dimensions.
    keyed : with keys; else bolts alone.

    Source: our own; sizes of bolts by ISO 273 and ISO 7089 (from memory).
    """
    solids = [solid_of(piece) for piece in pieces]
    body = solid_of(gloved)
    found = list(_places(solids, body, seam, gloved, s))
    bolts, keys = found[::2], found[1::2] if keyed else []
    holes = [_rod(place.at, place.way, BOLT_MM / 2, 4 * s.wall_mm) for place in bolts]
    base = list(_base_holes(solids, outline, floor_mm, s))
    bored = _union([*holes, *base])
    for number, solid in enumerate(solids):
        solids[number] = solid - bored if bored is not None else solid
    for place in keys:
        deep_mm = place.thick_mm / 2
        solids[place.first] += _key(place, deep_mm, 0.0)
        solids[place.second] -= _socket(place, deep_mm, np.asarray(draws[place.first]), np.asarray(draws[place.second]))
    return Fastened(tuple(exportable(solid, np.inf) for solid in solids), Fasteners(len(bolts), len(keys), len(base)))


def _places(solids: list[Solid], body: Solid, seam: SeamCurve, gloved: Mesh, s: ShellSettings) -> Iterator[_Place]:
    """Places that work, in their order along the seam; every other one is a bolt's, the others are keys'."""
    normals = _Normals(gloved)
    middle_mm = (s.wall_mm + s.seam_flange_mm) / 2 + 1.0
    for rise in seam.rises:
        for point, along in _stations(rise.part, EVERY_MM / 2):
            out = normals.about(point)
            out = out - (out @ along) * along
            out /= max(float(np.linalg.norm(out)), 1e-9)
            place = _between(solids, body, point + middle_mm * out, np.cross(along, out), s)
            if place is not None:
                yield place


class _Normals:
    """Which way a surface faces about a point, in the mean over a few millimeters."""

    def __init__(self, mesh: Mesh) -> None:
        fine = mesh_of(solid_of(mesh).refine_to_length(NEAR_MM / 2))
        corners = fine.corners
        self._by_area = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        self._tree = cKDTree(corners.mean(axis=1))

    def about(self, point: Vector) -> Vector:
        """The sum of the normals near a point by their triangles' area.

        Parameters
        ----------
        point : (3,) [mm].

        Source: our own.
        """
        normal: Vector = self._by_area[self._tree.query_ball_point(point, NEAR_MM)].sum(axis=0)
        return normal


def _stations(part: SeamPart, every_mm: float) -> Iterator[tuple[Vector, Vector]]:
    """Points along a line, half a step from its ends, and which way it runs there."""
    points = np.concatenate([part.points, part.points[:1]]) if part.closed else part.points
    way = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    if way[-1] < every_mm:
        return
    count = max(1, int(way[-1] // every_mm))
    for at in (np.arange(count) + 0.5) * way[-1] / count:
        here, before, after = (
            np.array([np.interp(np.clip(w, 0, way[-1]), way, points[:, k]) for k in range(3)])
            for w in (at, at - NEAR_MM / 2, at + NEAR_MM / 2)
        )
        yield here, (after - before) / np.linalg.norm(after - before)


def _between(solids: list[Solid], body: Solid, at: Vector, way: Vector, s: ShellSettings) -> _Place | None:
    """Two pieces whose whole flanges face each other at a point, with room for a nut on both sides; else None."""
    reach_mm = 2 * s.wall_mm + 4.0
    probe = _rod(at, way, BOLT_MM / 2, 2 * reach_mm)
    if (probe ^ body).volume() > 0:
        return None
    cut = [probe ^ solid for solid in solids]
    full_mm3 = np.pi * (BOLT_MM / 2) ** 2 * s.wall_mm
    there = [n for n, part in enumerate(cut) if part.volume() > FULL_SHARE * full_mm3]
    for first, second in combinations(there, 2):
        spans = [_span(cut[n], at, way) for n in (first, second)]
        sign = 1.0 if spans[0][0] < spans[1][0] else -1.0
        (_, near), (far, _) = sorted(spans)
        thick_mm = min(high - low for low, high in spans)
        place = _Place(first, second, at + way * (near + far) / 2, sign * way, far - near, thick_mm)
        if far >= near and _seats_free(solids, place, s):
            return place
    return None


def _span(part: Solid, at: Vector, way: Vector) -> tuple[float, float]:
    along = (np.asarray(part.to_mesh64().vert_properties)[:, :3] - at) @ way
    return float(along.min()), float(along.max())


def _seats_free(solids: list[Solid], place: _Place, s: ShellSettings) -> bool:
    """Whether a nut and a bolt's head find room outside both flanges."""
    for side in (-1.0, 1.0):
        foot = place.at + side * place.way * (place.gap_mm / 2 + s.wall_mm + 1.0)
        seat = _rod(foot + side * place.way * 3.0, place.way, SEAT_MM / 2, 6.0)
        taken = sum((seat ^ solids[n]).volume() for n in (place.first, place.second))
        if taken > SEAT_FREE_SHARE * seat.volume():
            return False
    return True


def _base_holes(solids: list[Solid], outline: Outline, floor_mm: float, s: ShellSettings) -> Iterator[Solid]:
    """Upright holes through the lip beyond the rubber, where one piece is there in full."""
    ring = np.concatenate([outline, outline[:1]])
    way = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(ring, axis=0), axis=1))])
    turned = 1.0 if np.sum(ring[:-1, 0] * ring[1:, 1] - ring[1:, 0] * ring[:-1, 1]) > 0 else -1.0
    count = max(4, int(np.ceil(way[-1] / BASE_EVERY_MM)))
    full_mm3 = np.pi * (BOLT_MM / 2) ** 2 * s.wall_mm
    for at in (np.arange(count) + 0.5) * way[-1] / count:
        x, y = (np.interp(at, way, ring[:, k]) for k in range(2))
        k = int(np.searchsorted(way, at)) - 1
        along = (ring[k + 1] - ring[k]) / np.linalg.norm(ring[k + 1] - ring[k])
        out = turned * np.array([along[1], -along[0]])
        place = np.array([x + out[0] * s.base_lip_mm / 2, y + out[1] * s.base_lip_mm / 2, floor_mm + s.wall_mm / 2])
        hole = _rod(place, np.array([0.0, 0.0, 1.0]), BOLT_MM / 2, s.wall_mm + 8.0)
        found = [(hole ^ solid).volume() for solid in solids]
        if max(found) > FULL_SHARE * full_mm3 and sum(found) < 1.5 * full_mm3:
            yield hole


def _key(place: _Place, deep_mm: float, room_mm: float) -> Solid:
    """A blunt cone on the first piece's face that reaches into the second."""
    back_mm = 1.0 if room_mm == 0.0 else 0.0
    high_mm = place.gap_mm + deep_mm + back_mm + room_mm
    cone = m3.Manifold.cylinder(high_mm, KEY_MM / 2 + room_mm, KEY_TOP_MM / 2 + room_mm, ROUND)
    return _turned(cone, place.at - place.way * (place.gap_mm / 2 + back_mm), place.way)


def _socket(place: _Place, deep_mm: float, first: Vector, second: Vector) -> Solid:
    """What the key sweeps as either piece is drawn off, with its play."""
    grown, far_mm = _key(place, deep_mm, KEY_ROOM_MM), 2 * (deep_mm + place.gap_mm + KEY_MM)
    ways = [_union([grown, grown.translate(tuple(far_mm * way))]).hull() for way in (first, -second)]
    return _union(ways)


def _rod(at: Vector, way: Vector, radius_mm: float, long_mm: float) -> Solid:
    """A round rod about a point [mm]."""
    return _turned(m3.Manifold.cylinder(long_mm, radius_mm, radius_mm, ROUND), at - way * long_mm / 2, way)


def _turned(solid: Solid, foot: Vector, way: Vector) -> Solid:
    """A solid that stands on the origin, stood on a point along another way."""
    z = way / np.linalg.norm(way)
    x = np.cross(z, np.eye(3)[int(np.argmin(np.abs(z)))])
    x /= np.linalg.norm(x)
    return solid.transform(np.column_stack([x, np.cross(z, x), z, foot]))


def _union(solids: Sequence[Solid]) -> Solid:
    return m3.Manifold.batch_boolean(list(solids), m3.OpType.Add) if solids else None
