"""What was understood of a tape, to be drawn: every level and limb with its figures, and the solid from two sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import shapely

from moldwright.geometry.mesh import Mesh
from moldwright.tape.parts import Part, is_tip
from moldwright.tape.told import Tape, TapeLevel
from moldwright.tape.ways import frames

Point2 = tuple[float, float]


class Facing(StrEnum):
    """From where the piece is seen."""

    FRONT = "front"
    SIDE = "side"


@dataclass(frozen=True, slots=True)
class LevelDrawn:
    """A level of the body: its height, what was read there, and breadth and depth as they were understood [mm]."""

    at_mm: float
    girth_mm: float
    breadth_mm: float
    depth_mm: float
    breadth_read: bool
    depth_read: bool


@dataclass(frozen=True, slots=True)
class LimbDrawn:
    """A limb: its name, how many alike, its girths [mm], and where its middle is, (x, y, z) [mm]."""

    name: str
    count: int
    girths_mm: tuple[float, ...]
    long_mm: float
    gap_mm: float | None
    middle_mm: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Outlined:
    """The solid's outline from one side: rings of points, right and up from the axis on the board [mm]."""

    facing: Facing
    rings: tuple[tuple[Point2, ...], ...]


@dataclass(frozen=True, slots=True)
class Drawn:
    """All that is drawn of a tape."""

    levels: tuple[LevelDrawn, ...]
    limbs: tuple[LimbDrawn, ...]
    outlines: tuple[Outlined, ...]


def drawn_of(tape: Tape, parts: Sequence[Part], mesh: Mesh) -> Drawn:
    """What was understood.

    Parameters
    ----------
    tape : what was measured.
    parts : body and limbs.
    mesh : the solid as the tape goes round it, z up [mm].

    Source: our own.
    """
    body = parts[0]
    levels = tuple(_level(level, body) for level in tape.levels)
    limbs = tuple(_limb(part, body) for part in parts[1:])
    return Drawn(levels, limbs, (_outline(mesh, Facing.FRONT), _outline(mesh, Facing.SIDE)))


def _level(level: TapeLevel, body: Part) -> LevelDrawn:
    loft = body.lofts
    wide, deep = (
        0.0 if is_tip(level) else float(np.interp(level.at_mm, loft.at_mm, v[0]))
        for v in (loft.breadth_mm, loft.depth_mm)
    )
    return LevelDrawn(level.at_mm, level.girth_mm, wide, deep, level.breadth_mm is not None, level.depth_mm is not None)


def _limb(part: Part, body: Part) -> LimbDrawn:
    limb = part.limb
    if limb is None:
        raise TypeError("the body is no limb")
    at = next(iter(frames(part, body))).at
    x, y, z = (float(v) for v in at[len(at) // 2])
    girths = tuple(level.girth_mm for level in limb.levels if not is_tip(level))
    return LimbDrawn(limb.name, limb.count, girths, limb.levels[-1].at_mm, limb.gap_mm, (x, y, z))


def _outline(mesh: Mesh, facing: Facing) -> Outlined:
    """The outline of all triangles together, holes that one sees through kept; from the side the front is left."""
    right = 0 if facing is Facing.FRONT else 1
    flat = mesh.corners[:, :, [right, 2]]
    turn = (flat[:, 1, 0] - flat[:, 0, 0]) * (flat[:, 2, 1] - flat[:, 0, 1])
    turn = turn - (flat[:, 1, 1] - flat[:, 0, 1]) * (flat[:, 2, 0] - flat[:, 0, 0])
    shapes = shapely.polygons(flat[turn > 1e-6])
    whole = shapely.union_all(shapely.buffer(shapes, 0.02, join_style="mitre")).simplify(0.1)
    pieces = [whole] if isinstance(whole, shapely.Polygon) else list(whole.geoms)
    rings = [ring for piece in pieces for ring in (piece.exterior, *piece.interiors)]
    large = [ring for ring in rings if shapely.Polygon(ring).area > 1.0]
    return Outlined(facing, tuple(tuple((float(x), float(y)) for x, y in ring.coords) for ring in large))
