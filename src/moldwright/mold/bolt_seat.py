"""A bolt's seat in the flanges of a printed shell: whether it goes through, sits and comes in at a place.

Its axis stands square to the faces that meet there. A place is taken where both flanges hold the whole hole with its
seats, nothing else stands where nut and head go, and the bolt comes in from a side.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.solid import Solid, mesh_of
from moldwright.mold.rods import rod, united
from moldwright.mold.shell_settings import ShellSettings

BOLT_MM, SEAT_MM = 5.5, 11.0
"""Hole and nut's washer for an M5 bolt, with its play: ISO 273 medium fit, ISO 7089 washer of 10 mm (from memory)."""
LENGTHS_MM = (12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0)
"""M5 bolts that are made: ISO 4017 (from memory)."""
UNDER_NUT_MM = 2 * 1.1 + 4.7 + 0.8
"""What a bolt needs beyond what it clamps: two washers (ISO 7089), a nut (ISO 4032), a turn of thread past it
(ISO 261): greatest sizes, from memory."""
GRIP_ROOM_MM = 1.0
"""So much thicker than two walls what a bolt clamps may be: our own."""
NUT_MM, SHANK_MM = 7.0, 6.0
"""What nut and washers take outside a flange, and what a bolt that goes in takes across: our own."""
BESIDE_HOLE_MM, HELD_OFF_MM = 0.5, 2.0
"""From where on a bolt's way must be free, and how far off its hole it is held before it goes in: our own."""
ROUGH_MM = 1.0
"""So far faces that bend may reach into each other over a bolt's hole: our own."""
SIMPLER_MM = 0.15
"""So far the solids' surfaces may move where places are looked for: our own, under a seat's play of 0.5 mm."""
THIN, THICK = 0.6, 1.5
"""Shares of the wall that a flange is thick along a bolt: our own."""
WASHER_MM, SEATED, BEFORE = 10.0, 0.98, 0.01
"""A washer (ISO 7089, from memory); what of a full one a flange bears at the least, and what of its seat may be taken
by what stands before it: our own."""
BOWED_MM, BORNE_MM = 0.5, 0.7
"""So far a flange's face may rise or fall under a washer; so thick a slice below is looked at: our own."""
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
    grip_mm : from washer to washer.
    """

    first: int
    second: int
    at: Vector
    way: Vector
    gap_mm: float
    thick_mm: float
    grip_mm: float

    @property
    def flat(self) -> bool:
        """Whether its faces are as flat as a key asks."""
        return self.gap_mm >= 0.0


def bolt_for_mm(wall_mm: float) -> float:
    """The bolt of a shell's seam, one length for all: the shortest that is made for two walls and some room [mm].

    Parameters
    ----------
    wall_mm : thickness of the shell's wall and flanges.

    Source: the sums of its parts, `UNDER_NUT_MM`.

    >>> [bolt_for_mm(wall_mm) for wall_mm in (3.0, 4.0, 6.0)]
    [16.0, 20.0, 25.0]
    """
    needed_mm = 2 * wall_mm + GRIP_ROOM_MM + UNDER_NUT_MM
    return next((long_mm for long_mm in LENGTHS_MM if long_mm >= needed_mm), LENGTHS_MM[-1])


def seat_between(solids: Sequence[Solid], body: Solid, at: Vector, guess: Vector, s: ShellSettings) -> BoltPlace | None:
    """Two pieces whose whole flanges face each other at a point, with room for nut, head and bolt; else None.

    Parameters
    ----------
    solids : of the pieces, near the point.
    body : original and rubber, near it.
    at : the point [mm].
    guess : about which way the faces look there.
    s : the shell's dimensions.

    Source: our own.
    """
    way = _square_to_faces(solids, at, guess, _reach_mm(s))
    if way is None or _taken(rod(at, way, BOLT_MM / 2 + SIMPLER_MM, 2 * _reach_mm(s)), [body]):
        return None
    pair = _flanges(solids, at, way, s)
    if pair is None or not _seated(pair, solids, body, at, way, bolt_for_mm(s.wall_mm)):
        return None
    near, far = pair
    first, second = sorted((near.piece, far.piece))
    return BoltPlace(
        first=first,
        second=second,
        at=at + way * (near.high + far.low) / 2,
        way=way if first == near.piece else -way,
        gap_mm=far.low - near.high,
        thick_mm=min(near.thick_mm, far.thick_mm),
        grip_mm=far.high - near.low,
    )


@dataclass(frozen=True, slots=True)
class _Flange:
    """A piece where a hole goes through it, between two heights along the hole."""

    piece: int
    low: float
    high: float

    @property
    def thick_mm(self) -> float:
        """Along the hole."""
        return self.high - self.low


def _reach_mm(s: ShellSettings) -> float:
    return THICK * s.wall_mm + NUT_MM


def _flanges(solids: Sequence[Solid], at: Vector, way: Vector, s: ShellSettings) -> tuple[_Flange, _Flange] | None:
    """The two flanges along a hole, in turn; None where there are not two whole ones, or one within the other."""
    probe = rod(at, way, BOLT_MM / 2, 2 * _reach_mm(s))
    cut = [(n, probe ^ solid) for n, solid in enumerate(solids)]
    found = [_Flange(n, *_span(part, at, way)) for n, part in cut if not part.is_empty()]
    if len(found) != 2 or not all(THIN * s.wall_mm <= flange.thick_mm <= THICK * s.wall_mm for flange in found):
        return None
    near, far = sorted(found, key=lambda flange: flange.low + flange.high)
    return None if far.low < near.high - ROUGH_MM else (near, far)


def _seated(
    pair: tuple[_Flange, _Flange], solids: Sequence[Solid], body: Solid, at: Vector, way: Vector, bolt_mm: float
) -> bool:
    """Whether both washers lie whole on their flanges with room for nut and head, and the bolt is long enough, comes in
    from a side and has room for its end on the other."""
    low, high = pair[0].low, pair[1].high
    if high - low + UNDER_NUT_MM > bolt_mm:
        return False
    before = (low - NUT_MM, low - BOWED_MM), (high + BOWED_MM, high + NUT_MM)
    faces = ((low + BOWED_MM, low + BOWED_MM + BORNE_MM), (high - BOWED_MM - BORNE_MM, high - BOWED_MM))
    if not all(_borne(solids[flange.piece], at, way, face) for flange, face in zip(pair, faces, strict=True)):
        return False
    if not all(_free(_disk(at, way, *room), [*solids, body]) for room in before):
        return False
    entry_mm, end_mm = bolt_mm + HELD_OFF_MM, bolt_mm - (high - low)
    below, above = at + (low - BESIDE_HOLE_MM) * way, at + (high + BESIDE_HOLE_MM) * way
    ways = (
        [_swept(below, -way, entry_mm), _swept(above, way, end_mm)],
        [_swept(above, way, entry_mm), _swept(below, -way, end_mm)],
    )
    return any(not _taken(united(swept), [*solids, body]) for swept in ways)


def _borne(solid: Solid, at: Vector, way: Vector, slice_: tuple[float, float]) -> bool:
    """Whether a flange fills a washer's disk in a slice right below its face."""
    disk = _disk(at, way, *slice_, WASHER_MM)
    return float((disk ^ solid).volume()) >= SEATED * float(disk.volume())


def _free(room: Solid, solids: Sequence[Solid]) -> bool:
    """Whether next to nothing stands where a washer with its nut goes."""
    return sum(float((room ^ solid).volume()) for solid in solids) <= BEFORE * float(room.volume())


def _disk(at: Vector, way: Vector, low: float, high: float, wide_mm: float = SEAT_MM) -> Solid:
    """Between two heights along a bolt."""
    return rod(at + (low + high) / 2 * way, way, wide_mm / 2, high - low)


def _swept(foot: Vector, way: Vector, long_mm: float) -> Solid:
    """What a bolt takes from a foot on."""
    return rod(foot + way * long_mm / 2, way, SHANK_MM / 2, long_mm)


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
