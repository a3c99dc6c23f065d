"""Places for bolts along the seam of a printed shell, looked for where its flanges meet.

The seam's line and the rubber's normal only say where to look: a bolt's axis stands square to the faces that meet
there, which lean by up to 20 degrees. A place is taken where both flanges hold the whole hole with its seats, nothing
else stands where nut and head go, and the bolt comes in from a side. All is looked at on solids that are simplified by
less than the seats' play.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import manifold3d as m3
import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid, mesh_of, solid_of
from moldwright.mold.rods import rod
from moldwright.mold.seam_line import SeamCurve, SeamPart
from moldwright.mold.shell_settings import ShellSettings

BOLT_MM, SEAT_MM = 5.5, 11.0
"""Hole and nut's washer for an M5 bolt, with its play: ISO 273 medium fit, ISO 7089 washer of 10 mm (from memory)."""
NUT_MM, ENTRY_MM, SHANK_MM = 7.0, 22.0, 6.0
"""What nut and washers take outside a flange, how far off a bolt is held before it goes in, and what it takes across:
M5, 16 to 20 mm long (from memory)."""
EVERY_MM = 60.0
"""A flange of plastic bows between bolts that stand farther apart: common practice, no source."""
LOOKED_MM, ACROSS = 7.5, (0.5, 0.35, 0.65, 0.8)
"""How finely places are looked for along the seam; where across its flange, as shares of its width: our own."""
LOOKED_AT_MM, DRIFT_MM = 36.0, 9.0
"""How far a place's surroundings reach that are looked at, and how far on they still serve: our own."""
BESIDE_MM = 20.0
"""Bolts and keys stand so far from each other at the least: our own."""
ROUGH_MM = 1.0
"""So far faces that bend may reach into each other over a bolt's hole: our own."""
SIMPLER_MM = 0.15
"""So far the solids' surfaces may move where places are looked for: our own, under a seat's play of 0.5 mm."""
THIN, THICK = 0.6, 1.5
"""Shares of the wall that a flange is thick along a bolt: our own."""
SEATED = (0.9, 1.08)
"""What of a full disk under a washer a flange holds, what stands in the washer's way counted too: our own."""
NEAR_MM = 8.0
"""The rubber's normal is the mean over so much of it: our own."""
FACING = 0.6
"""A face whose normal's cosine with a way is more faces along it: our own."""

Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class BoltPlace:
    """A place where two pieces face each other along the seam.

    Parameters
    ----------
    first, second : of the pieces.
    at : the middle of the gap between them [mm].
    way : across it, from the first piece into the second.
    gap_mm : its width; less than 0 where faces that bend reach into each other.
    thick_mm : of the thinner flange.
    """

    first: int
    second: int
    at: Vector
    way: Vector
    gap_mm: float
    thick_mm: float

    @property
    def flat(self) -> bool:
        """Whether its faces are as flat as a key asks."""
        return self.gap_mm >= 0.0


class BoltLook:
    """The solids that places are looked for in.

    Parameters
    ----------
    solids : the finished pieces.
    body : original and rubber.
    gloved : the same as a mesh.
    s : the shell's dimensions.
    """

    def __init__(self, solids: Sequence[Solid], body: Solid, gloved: Mesh, s: ShellSettings) -> None:
        self._all = [solid.simplify(SIMPLER_MM) for solid in (*solids, body)]
        self._normals, self._s = _Normals(gloved), s
        self._about, self._near = np.full(3, np.inf), self._all
        self._seen: dict[tuple[int, int], BoltPlace | None] = {}

    def spread(self, seam: SeamCurve, from_mm: float, others: Sequence[BoltPlace] = ()) -> list[BoltPlace]:
        """Places as far apart along the seam as bolts stand, clear of others.

        Parameters
        ----------
        seam : where the pieces meet on the rubber.
        from_mm : how far along each line the first may stand [mm].
        others : that are taken.

        Source: our own.
        """
        chosen: list[BoltPlace] = []
        for line, rise in enumerate(seam.rises):
            next_ = round(from_mm / LOOKED_MM)
            for number, station in enumerate(_stations(rise.part, LOOKED_MM)):
                place = self._once((line, number), station) if number >= next_ else None
                if place is not None and _off(place, (*others, *chosen)) >= BESIDE_MM:
                    chosen.append(place)
                    next_ = number + round(EVERY_MM / LOOKED_MM)
        return chosen

    def _once(self, key: tuple[int, int], station: tuple[Vector, Vector]) -> BoltPlace | None:
        if key not in self._seen:
            self._seen[key] = self._at(*station)
        return self._seen[key]

    def _at(self, point: Vector, along: Vector) -> BoltPlace | None:
        """The first place across the flange that works at a point of the seam."""
        out = self._normals.about(point)
        out = out - (out @ along) * along
        out /= max(float(np.linalg.norm(out)), 1e-9)
        self._look_about(point + self._s.seam_flange_mm / 2 * out)
        wide_mm = self._s.seam_flange_mm - self._s.wall_mm
        tried = (point + (self._s.wall_mm + share * wide_mm) * out for share in ACROSS)
        found = (_between(self._near[:-1], self._near[-1], at, np.cross(along, out), self._s) for at in tried)
        return next((place for place in found if place is not None), None)

    def _look_about(self, center: Vector) -> None:
        if np.abs(center - self._about).max() > DRIFT_MM:
            cube = m3.Manifold.cube((2 * (LOOKED_AT_MM + DRIFT_MM),) * 3, True).translate(tuple(center))
            self._about, self._near = center, [solid ^ cube for solid in self._all]


def _off(place: BoltPlace, others: Sequence[BoltPlace]) -> float:
    """How far the nearest of others is from a place [mm]; infinite where there is none."""
    return min((float(np.linalg.norm(place.at - other.at)) for other in others), default=np.inf)


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


def _between(solids: Sequence[Solid], body: Solid, at: Vector, guess: Vector, s: ShellSettings) -> BoltPlace | None:
    """Two pieces whose whole flanges face each other at a point, with room for nut, head and bolt; else None."""
    reach_mm = THICK * s.wall_mm + NUT_MM
    way = _square_to_faces(solids, at, guess, reach_mm)
    if way is None or _taken(rod(at, way, BOLT_MM / 2 + SIMPLER_MM, 2 * reach_mm), [body]):
        return None
    probe = rod(at, way, BOLT_MM / 2, 2 * reach_mm)
    cut = [probe ^ solid for solid in solids]
    there = [n for n, part in enumerate(cut) if not part.is_empty()]
    if len(there) != 2:
        return None
    spans = [_span(cut[n], at, way) for n in there]
    thick_mm = [high - low for low, high in spans]
    (out_low, near), (far, out_high) = sorted(spans, key=sum)
    whole = THIN * s.wall_mm <= min(thick_mm) and max(thick_mm) <= THICK * s.wall_mm
    if not whole or far < near - ROUGH_MM:
        return None
    seat = rod(at, way, SEAT_MM / 2, 2 * reach_mm)
    if not all(_seated(seat ^ solids[n], thick) for n, thick in zip(there, thick_mm, strict=True)):
        return None
    entries = ((out_low - 0.5, -1.0), (out_high + 0.5, 1.0))
    if all(_taken(_entry(at + start * way, side * way), [*solids, body]) for start, side in entries):
        return None
    sign = 1.0 if sum(spans[0]) < sum(spans[1]) else -1.0
    return BoltPlace(there[0], there[1], at + way * (near + far) / 2, sign * way, far - near, min(thick_mm))


def _seated(part: Solid, thick_mm: float) -> bool:
    """Whether a flange fills a washer's disk and nothing stands before it."""
    full_mm3 = np.pi * (SEAT_MM / 2) ** 2 * thick_mm
    return bool(SEATED[0] * full_mm3 <= part.volume() <= SEATED[1] * full_mm3)


def _entry(foot: Vector, way: Vector) -> Solid:
    """What a bolt sweeps that goes in."""
    return rod(foot + way * ENTRY_MM / 2, way, SHANK_MM / 2, ENTRY_MM)


def _taken(room: Solid, solids: Sequence[Solid]) -> bool:
    return any((room ^ solid).volume() > 0.0 for solid in solids)


def _square_to_faces(solids: Sequence[Solid], at: Vector, guess: Vector, reach_mm: float) -> Vector | None:
    """The way square to the faces that meet at a point: the mean normal, by area, of what of them a rod holds that
    faces along a guess; None where it holds none."""
    probe = rod(at, guess, SEAT_MM / 2, 2 * reach_mm)
    total = np.zeros(3)
    for solid in solids:
        part = probe ^ solid
        if part.is_empty():
            continue
        corners = mesh_of(part).corners
        cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        middle = float((corners.mean(axis=1) - at).mean(axis=0) @ guess)
        faces = (cross @ guess) * -np.sign(middle) > FACING * np.linalg.norm(cross, axis=1)
        total -= np.sign(middle) * cross[faces].sum(axis=0)
    size = float(np.linalg.norm(total))
    return total / size if size > 0.0 else None


def _span(part: Solid, at: Vector, way: Vector) -> tuple[float, float]:
    along = (np.asarray(part.to_mesh64().vert_properties)[:, :3] - at) @ way
    return float(along.min()), float(along.max())
