"""Places for bolts along the seam of a printed shell, looked for where its flanges meet.

The seam's line and the rubber's normal only say where to look: the faces that meet there lean by up to 20 degrees. All
is looked at on solids that are simplified by less than the seats' play.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import manifold3d as m3
import numpy as np
from scipy.spatial import cKDTree

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid, mesh_of, solid_of
from moldwright.mold.bolt_seat import SIMPLER_MM, BoltPlace, Vector, seat_between
from moldwright.mold.measures import BareSeam
from moldwright.mold.seam_line import SeamCurve, SeamPart, length_mm
from moldwright.mold.shell_settings import ShellSettings

EVERY_MM = 60.0
"""A flange of plastic bows between bolts that stand farther apart: common practice, no source."""
LOOKED_MM, ACROSS = 7.5, (0.5, 0.35, 0.65, 0.8)
"""How finely places are looked for along the seam; where across its flange, as shares of its width: our own."""
LOOKED_AT_MM, DRIFT_MM = 36.0, 9.0
"""How far a place's surroundings reach that are looked at, and how far on they still serve: our own."""
BESIDE_MM = 20.0
"""Bolts and keys stand so far from each other at the least: our own."""
NEAR_MM = 8.0
"""The rubber's normal is the mean over so much of it: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class BoltsFound:
    """Places along a seam, and the stretches that they part it into."""

    places: tuple[BoltPlace, ...]
    stretches: tuple[BareSeam, ...]


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

    def spread(self, seam: SeamCurve, from_mm: float, others: Sequence[BoltPlace] = ()) -> BoltsFound:
        """Places as far apart along the seam as bolts stand, clear of others.

        Parameters
        ----------
        seam : where the pieces meet on the rubber.
        from_mm : how far along each line the first may stand [mm].
        others : that are taken.

        Source: our own.
        """
        chosen: list[BoltPlace] = []
        stretches: list[BareSeam] = []
        for line, rise in enumerate(seam.rises):
            next_, at_mm = round(from_mm / LOOKED_MM), []
            for number, station in enumerate(_stations(rise.part, LOOKED_MM)):
                place = self._once((line, number), station) if number >= next_ else None
                if place is not None and _off(place, (*others, *chosen)) >= BESIDE_MM:
                    chosen.append(place)
                    at_mm.append(station.at_mm)
                    next_ = number + round(EVERY_MM / LOOKED_MM)
            stretches += _stretches(rise.part, at_mm)
        return BoltsFound(tuple(chosen), tuple(stretches))

    def _once(self, key: tuple[int, int], station: _Station) -> BoltPlace | None:
        if key not in self._seen:
            self._seen[key] = self._at(station.point, station.along)
        return self._seen[key]

    def _at(self, point: Vector, along: Vector) -> BoltPlace | None:
        """The first place across the flange that works at a point of the seam."""
        out = self._normals.about(point)
        out = out - (out @ along) * along
        out /= max(float(np.linalg.norm(out)), 1e-9)
        self._look_about(point + self._s.seam_flange_mm / 2 * out)
        wide_mm = self._s.seam_flange_mm - self._s.wall_mm
        tried = (point + (self._s.wall_mm + share * wide_mm) * out for share in ACROSS)
        found = (seat_between(self._near[:-1], self._near[-1], at, np.cross(along, out), self._s) for at in tried)
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


@dataclass(frozen=True, slots=True, eq=False)
class _Station:
    """How far along a line it is, where, and which way the line runs there."""

    at_mm: float
    point: Vector
    along: Vector


def _stretches(part: SeamPart, at_mm: Sequence[float]) -> Iterator[BareSeam]:
    """What bolts so far along a line part it into."""
    long_mm = length_mm(_ringed(part))
    if not at_mm:
        yield BareSeam(long_mm, 0)
        return
    yield from (BareSeam(far - near, 2) for near, far in pairwise(at_mm))
    first_mm, last_mm = at_mm[0], long_mm - at_mm[-1]
    yield from [BareSeam(first_mm + last_mm, 2)] if part.closed else [BareSeam(first_mm, 1), BareSeam(last_mm, 1)]


def _ringed(part: SeamPart) -> Vector:
    return np.concatenate([part.points, part.points[:1]]) if part.closed else part.points


def _stations(part: SeamPart, every_mm: float) -> Iterator[_Station]:
    """Points along a line, half a step from its ends."""
    points = _ringed(part)
    way = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    if way[-1] < every_mm:
        return
    count = max(1, int(way[-1] // every_mm))
    for at in (np.arange(count) + 0.5) * way[-1] / count:
        here, before, after = (
            np.array([np.interp(np.clip(w, 0, way[-1]), way, points[:, k]) for k in range(3)])
            for w in (at, at - NEAR_MM / 2, at + NEAR_MM / 2)
        )
        yield _Station(float(at), here, (after - before) / np.linalg.norm(after - before))
