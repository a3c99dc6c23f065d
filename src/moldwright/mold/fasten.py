"""Bolt holes and register keys of a printed shell, as real geometry along its seam and round its base.

Places along the seam are `bolt_places`' finds; a hole of the base is taken where it is whole in one piece and its seats
are free. Holes only take away, so that a piece still comes off; a key's socket is open along the ways of both pieces.
The proof of removal is run on what comes out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import manifold3d as m3
import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid, exportable, solid_of
from moldwright.mold.bolt_places import EVERY_MM, BoltLook
from moldwright.mold.bolt_seat import BOLT_MM, NUT_MM, SEAT_MM, THIN, BoltPlace, Vector, bolt_for_mm
from moldwright.mold.glove import Outline
from moldwright.mold.measures import Fasteners
from moldwright.mold.rods import ROUND, rod, turned_to, united
from moldwright.mold.seam_line import SeamCurve
from moldwright.mold.shell_settings import HELD_EVERY_MM, ShellSettings

WHOLE, TOUCHED = 0.95, 0.01
"""What of the ground under a washer must be there, and what may be taken of the room over it: our own."""
ASIDE_MM = (0.0, 12.0, -12.0, 24.0, -24.0)
"""Where along the edge a base hole goes where its own place is taken [mm]: our own."""
KEY_MM, KEY_TOP_MM, KEY_ROOM_MM = 8.0, 5.0, 0.3
"""A key's foot and top across, and its play: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class Fastened:
    """The pieces with holes, keys and sockets; the places of the seam's bolts; what is bored and set."""

    meshes: tuple[Mesh, ...]
    bolts: tuple[BoltPlace, ...]
    fasteners: Fasteners


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
    look = BoltLook(solids, body, gloved, s)
    found = look.spread(seam, 0.0)
    bolts = found.places
    keys = [place for place in look.spread(seam, EVERY_MM / 2, bolts).places if place.flat] if keyed else []
    holes = [rod(place.at, place.way, BOLT_MM / 2, 4 * s.wall_mm) for place in bolts]
    base = list(_base_holes(solids, outline, floor_mm, s))
    bored = united([*holes, *base])
    for number, solid in enumerate(solids):
        solids[number] = solid - bored if bored is not None else solid
    for place in keys:
        deep_mm = place.thick_mm / 2
        solids[place.first] += _key(place, deep_mm, 0.0)
        solids[place.second] -= _socket(place, deep_mm, np.asarray(draws[place.first]), np.asarray(draws[place.second]))
    meshes = tuple(exportable(solid, np.inf) for solid in solids)
    return Fastened(meshes, bolts, Fasteners(len(bolts), bolt_for_mm(s.wall_mm), found.stretches, len(keys), len(base)))


def _base_holes(solids: list[Solid], outline: Outline, floor_mm: float, s: ShellSettings) -> Iterator[Solid]:
    """Upright holes through the lip beyond the rubber, each whole in one piece, a washer's seat over it free."""
    under = [solid.trim_by_plane((0.0, 0.0, -1.0), -(floor_mm + s.wall_mm + 2 * NUT_MM)) for solid in solids]
    ring = np.concatenate([outline, outline[:1]])
    way = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(ring, axis=0), axis=1))])
    count = max(4, int(np.ceil(way[-1] / HELD_EVERY_MM)))
    for at in (np.arange(count) + 0.5) * way[-1] / count:
        feet = (_on_lip(ring, way, (at + aside) % way[-1], s.base_lip_mm / 2) for aside in ASIDE_MM)
        foot = next((np.array([*xy, floor_mm]) for xy in feet if _holds(under, np.array([*xy, floor_mm]), s)), None)
        if foot is not None:
            yield _upright(foot, BOLT_MM, -4.0, s.wall_mm + 8.0)


def _on_lip(ring: Outline, way: Vector, at_mm: float, off_mm: float) -> Vector:
    """So far along the flange's edge and so far off it."""
    k = min(int(np.searchsorted(way, at_mm, side="right")), len(ring) - 1) - 1
    along = (ring[k + 1] - ring[k]) / (way[k + 1] - way[k])
    turned = 1.0 if np.sum(ring[:-1, 0] * ring[1:, 1] - ring[1:, 0] * ring[:-1, 1]) > 0 else -1.0
    found: Vector = ring[k] + (at_mm - way[k]) * along + off_mm * turned * np.array([along[1], -along[0]])
    return found


def _holds(solids: list[Solid], foot: Vector, s: ShellSettings) -> bool:
    """Whether one piece alone is there under a whole washer, and nothing in the way of what goes on the bolt."""
    ground, room = _upright(foot, SEAT_MM, 0.0, s.wall_mm), _upright(foot, SEAT_MM, s.wall_mm + 0.5, NUT_MM)
    hole = _upright(foot, BOLT_MM, 0.0, s.wall_mm)
    under = [(ground ^ solid).volume() for solid in solids]
    flat = max((hole ^ solid).volume() for solid in solids) * (SEAT_MM / BOLT_MM) ** 2
    whole = max(under) >= max(WHOLE * flat, THIN * ground.volume()) and sum(under) <= (1.0 + TOUCHED) * max(under)
    return bool(whole and sum((room ^ solid).volume() for solid in solids) <= TOUCHED * room.volume())


def _upright(foot: Vector, across_mm: float, from_mm: float, high_mm: float) -> Solid:
    """A round rod that stands so far over a foot."""
    up = np.array([0.0, 0.0, 1.0])
    return rod(foot + (from_mm + high_mm / 2) * up, up, across_mm / 2, high_mm)


def _key(place: BoltPlace, deep_mm: float, room_mm: float) -> Solid:
    """A blunt cone on the first piece's face that reaches into the second."""
    back_mm = 1.0 if room_mm == 0.0 else 0.0
    high_mm = place.gap_mm + deep_mm + back_mm + room_mm
    cone = m3.Manifold.cylinder(high_mm, KEY_MM / 2 + room_mm, KEY_TOP_MM / 2 + room_mm, ROUND)
    return turned_to(cone, place.at - place.way * (place.gap_mm / 2 + back_mm), place.way)


def _socket(place: BoltPlace, deep_mm: float, first: Vector, second: Vector) -> Solid:
    """What the key sweeps as either piece is drawn off, with its play."""
    grown, far_mm = _key(place, deep_mm, KEY_ROOM_MM), 2 * (deep_mm + place.gap_mm + KEY_MM)
    ways = [united([grown, grown.translate(tuple(far_mm * way))]).hull() for way in (first, -second)]
    return united(ways)
