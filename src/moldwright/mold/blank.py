"""What the shell's pieces are cut from: the rubber to draw off, the space a shell may fill, the seam through it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.field import Sampled, standing_band, standing_grid
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.resample import resampled
from moldwright.geometry.seam_kind import Seam
from moldwright.geometry.shadow import least_along
from moldwright.geometry.solid import exportable
from moldwright.geometry.surface import standing_solid
from moldwright.mold.divided import SHEET_MM, divided_by, kept_apart
from moldwright.mold.glove import Outline
from moldwright.mold.packed import LEAST_SPOT_MM3, Packed, packed_bodies
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.space import space_distance
from moldwright.mold.split import CoarseSplit
from moldwright.mold.undercut import InTheWay, fill_solid, filled_core, look_along, seam_sides
from moldwright.plan.original import Point

COARSER = 3
FILL_BEYOND_HULL_MM = 3.0
FAR_MM = 20.0
SLAB_STEPS = 2.0
"""The seam's surface is measured as a slab of so many steps to each side."""


@dataclass(frozen=True, slots=True, eq=False)
class Blank:
    """The fields and solids that the pieces of a shell are cut from.

    hidden : what the pieces see on their way out. seam_away : how far the nearest seam is [mm].
    whole : signed distance to core and packing, near the packing and the surface [mm].
    gloved : core and packing as one solid; spots: every packed place as its own solid, largest first.
    band : signed field (<= 0: shell) of wall, base flange and, where the seam has one, its flange together [mm].
    draws : (k, 3) unit vectors. floor_mm : where the shell stands.
    divided : points near the seam in a through-hole, where a divider parts the pieces.
    in_order : the pieces come off in their order only.
    """

    hidden: InTheWay
    seam_away: Field
    whole: Field
    gloved: Mesh
    spots: tuple[Packed, ...]
    band: Field
    draws: NDArray[np.float64]
    floor_mm: float
    divided: NDArray[np.bool_]
    in_order: bool = False

    @property
    def grid(self) -> Grid:
        """The points on which the shell is sampled."""
        return self.hidden.grid

    @property
    def floor_layer(self) -> int:
        """The first layer of the grid that is not under the shell's floor."""
        return int(np.ceil(self.floor_mm / self.grid.step_mm))


def lay_out(
    core: Mesh,
    outline: Outline,
    floor_mm: float,
    split: CoarseSplit,
    step_mm: float,
    s: ShellSettings,
    dividers: tuple[Point, ...] = (),
) -> Blank:
    """Sample a core, pack its undercuts for a searched split, and lay out the space of the shell.

    Parameters
    ----------
    core : body, coats and flange as one closed solid on z = 0 [mm].
    outline : (n, 2) edge of the rubber flange seen from above [mm].
    floor_mm : top of the rubber flange, on which the shell stands [mm].
    split : the draws and the seam.
    step_mm : sampling step [mm].
    s : the shell's dimensions.
    dividers : where through-holes with a divider are [mm].

    Source: our own.
    """
    grid = standing_grid(core, step_mm, s.seam_flange_mm + s.base_lip_mm)
    rough = grid.coarser(COARSER)
    outside = resampled(Sampled(space_distance(core, rough) - np.float32(FILL_BEYOND_HULL_MM), rough), grid)
    sides = seam_sides(split, grid, s.lap_mm + 2 * step_mm if s.seam is Seam.LAP else 0.0)
    seam_away = np.abs(np.maximum.reduce(sides))
    hidden = look_along(core, grid, split.directions, sides, outside, s.draft_deg)
    fill, whole = fill_solid(hidden, floor_mm)
    filled = filled_core(core, fill)
    spots = () if fill is None else packed_bodies(fill, core, floor_mm, LEAST_SPOT_MM3)
    gloved = exportable(filled)
    band = _band(gloved, grid, seam_away, outline, floor_mm, s)
    half_mm = max(floor_mm + SHEET_MM / 2, SLAB_STEPS * step_mm)
    divided = divided_by(hidden.core, seam_away, grid, half_mm, dividers)
    kept_apart(band, seam_away, divided, half_mm)
    draws, in_order = split.directions, split.in_order
    return Blank(hidden, seam_away, whole, gloved, spots, band, draws, floor_mm, divided, in_order)


def _band(gloved: Mesh, grid: Grid, seam_away: Field, outline: Outline, floor_mm: float, s: ShellSettings) -> Field:
    """Signed field (<= 0: shell) of wall, seam flange and base flange together; a lapped seam has no flange."""
    rough = grid.coarser(COARSER)
    reach = s.seam_flange_mm + s.wall_mm
    away = resampled(Sampled(standing_band(gloved, rough, reach), rough), grid)
    band = away - np.float32(s.wall_mm)
    if s.seam is Seam.WALL:
        flange = np.maximum(seam_away - np.float32(s.wall_mm), away - np.float32(s.seam_flange_mm))
        np.minimum(band, flange, out=band)
    plan = outline_distance(outline, grid) - np.float32(s.base_lip_mm)
    over_mm = s.wall_mm + (FAR_MM if s.seam is Seam.LAP else 0.0)
    layers = int(np.ceil((floor_mm + over_mm) / grid.step_mm)) + 4
    height = (grid.axis(2)[:layers] - floor_mm - s.wall_mm).astype(np.float32)
    base = np.maximum(plan[:, :, None], height[None, None, :])
    np.minimum(band[:, :, :layers], base, out=band[:, :, :layers])
    return np.asarray(band, dtype=np.float32)


def outline_distance(outline: Outline, grid: Grid) -> NDArray[np.float32]:
    """Signed distance in plan (negative inside) to an outline at the grid's columns [mm].

    Parameters
    ----------
    outline : (n, 2) corners of an outline that does not cross itself, in order, inner dents and all [mm].
    grid : whose columns are asked about.

    Source: our own; inside is where a ray crosses the outline an odd number of times.
    """
    ring = np.concatenate([outline, outline[:1]])
    x, y = grid.axis(0)[:, None], grid.axis(1)[None, :]
    nearest = np.full((grid.shape[0], grid.shape[1]), np.inf)
    inside = np.zeros_like(nearest, dtype=bool)
    for (ax, ay), (bx, by) in pairwise(ring):
        ex, ey = bx - ax, by - ay
        t = np.clip(((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey), 0, 1)
        nearest = np.minimum(nearest, np.hypot(x - ax - t * ex, y - ay - t * ey))
        if ay != by:
            inside ^= ((ay > y) != (by > y)) & (x < ax + ex * (y - ay) / ey)
    signed: NDArray[np.float32] = np.where(inside, -nearest, nearest).astype(np.float32)
    return signed


def room_for(blank: Blank, number: int) -> Field:
    """How far each point of a piece stays from the rubber and from the other piece on its whole way out [mm].

    A point is kept only where its whole way out stays on its own side of the seam (through space that shell may
    fill), so that the piece is free by construction; of pieces that come off in their order only, where it stays clear
    of what is packed and of those that come off later.

    Parameters
    ----------
    blank : what it is cut from.
    number : of the piece, from 0.

    Source: our own.
    """
    side = blank.hidden.sides[number]
    matters = (blank.band <= 1.5 * blank.grid.step_mm) & (blank.hidden.core > 0)
    way = _left_by_then(blank, number) if blank.in_order else side
    own = np.where(matters, np.minimum(way, np.float32(FAR_MM)), np.float32(FAR_MM)).astype(np.float32)
    room = least_along(own, blank.draws[number], FAR_MM)
    np.minimum(room, side, out=room)
    return np.minimum(room, blank.hidden.ways[number], out=room)


def cut_piece(blank: Blank, room: Field, clearance_mm: float) -> Mesh:
    """One piece: the band where there is room for it, with clearance; the largest body of it.

    Parameters
    ----------
    blank : what it is cut from.
    room : of this piece, see `room_for` [mm].
    clearance_mm : room to the rubber and half the room to the other piece [mm].

    Source: our own.
    """
    return standing_piece(blank, piece_field(blank, room, clearance_mm), clearance_mm)


def piece_field(blank: Blank, room: Field, clearance_mm: float) -> Field:
    """Signed field (<= 0: piece) of one piece [mm].

    Parameters
    ----------
    blank : what it is cut from.
    room : of this piece, see `room_for` [mm].
    clearance_mm : room to the rubber and half the room to the other piece [mm].

    Source: our own.
    """
    return np.asarray(np.maximum(np.float32(clearance_mm) - room, blank.band), dtype=np.float32)


def standing_piece(blank: Blank, field: Field, clearance_mm: float) -> Mesh:
    """The largest body of a piece's field, standing clear of the rubber's flange.

    Parameters
    ----------
    blank : what it is cut from.
    field : signed, <= 0: piece [mm].
    clearance_mm : room to the rubber [mm].

    Source: our own.
    """
    return exportable(standing_solid(Sampled(field, blank.grid), 0.0, blank.floor_mm + clearance_mm), np.inf)


def _left_by_then(blank: Blank, number: int) -> Field:
    """How far each point lies on the side of a piece or of earlier ones, and out of what is packed [mm]."""
    packed = np.where(blank.whole < blank.hidden.core, blank.whole, np.float32(FAR_MM))
    left = np.minimum(np.maximum.reduce(blank.hidden.sides[: number + 1]), packed)
    return np.asarray(np.maximum(blank.hidden.sides[number], left), np.float32)
