"""The lap of a laid shell: each piece's lip over the outside of those that come off later, where it does not hook."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import ndimage

from moldwright.geometry.grid import Field
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.shadow import least_along
from moldwright.geometry.sign import Mask
from moldwright.mold.blank import FAR_MM, Blank, piece_field, standing_piece
from moldwright.mold.shell_settings import ShellSettings

SPLINTER_STEPS = 2.0
"""About how many steps wide a splinter of the lip may be that is left off: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class Lapped:
    """The pieces, first off first, and the share of their laps that would hook and is left out, 0 to 1."""

    pieces: tuple[Mesh, ...]
    left_out_share: float


@dataclass(frozen=True, slots=True, eq=False)
class _Lip:
    """Signed field of a lip (<= 0: lip) [mm]; how many points it may take, and how many of them hook."""

    field: Field
    points: int
    hooking: int


def cut_lapped(blank: Blank, rooms: Sequence[Field], clearance_mm: float, s: ShellSettings) -> Lapped:
    """The pieces of a lapped shell: the last off ends at its seams, each before it has a lip over those after it.

    A point of a lip is kept only where its whole way out along its piece's draw stays clear of the rubber and of the
    pieces that stand, so that the pieces come off in their order by construction.

    Parameters
    ----------
    blank : what they are cut from, without a seam flange.
    rooms : of each piece, see `room_for` [mm].
    clearance_mm : room to the rubber and half the room between the pieces [mm].
    s : the shell's dimensions.

    Source: our own.
    """
    fields = [piece_field(blank, room, clearance_mm) for room in rooms]
    lips = []
    for number in reversed(range(len(fields) - 1)):
        lip = _lip(blank, number, fields[number + 1 :], clearance_mm, s)
        np.minimum(fields[number], lip.field, out=fields[number])
        lips.append(lip)
    pieces = tuple(standing_piece(blank, field, clearance_mm) for field in fields)
    return Lapped(pieces, sum(lip.hooking for lip in lips) / max(1, sum(lip.points for lip in lips)))


def _lip(blank: Blank, number: int, standing: Sequence[Field], clearance_mm: float, s: ShellSettings) -> _Lip:
    """A piece's lip over those that stand when it comes off."""
    side = blank.hidden.sides[number]
    over = _over_the_edge(blank, side, clearance_mm, s)
    for before in blank.hidden.sides[:number]:
        np.maximum(over, before + np.float32(clearance_mm), out=over)
    hooks = _hooks(blank, number, np.minimum.reduce(standing), clearance_mm)
    lap: Mask = (over <= 0) & (side <= 0) & (blank.hidden.core > 0)
    lap[:, :, : blank.floor_layer] = False
    hooking = int((lap & (hooks > 0)).sum())
    return _Lip(np.maximum(over, hooks, out=over), int(lap.sum()), hooking)


def _over_the_edge(blank: Blank, side: Field, clearance_mm: float, s: ShellSettings) -> Field:
    """Signed field (<= 0: lip) of a layer outside the wall, from the lap's edge on the other pieces to a wall's
    thickness past the seam, where it is rooted in its own."""
    gap = np.float32(2 * clearance_mm)
    over = np.maximum(blank.band - gap - np.float32(s.lap_thickness_mm), -side - np.float32(s.lap_mm))
    np.maximum(over, side - np.float32(s.wall_mm), out=over)
    beside = np.maximum(blank.band, side + np.float32(clearance_mm))
    return np.asarray(np.maximum(over, gap - beside, out=over), dtype=np.float32)


def _hooks(blank: Blank, number: int, standing: Field, clearance_mm: float) -> Field:
    """Positive where a point would meet the rubber or what stands on its way out along its piece's draw [mm], and
    where only a splinter between such points would not."""
    clear = least_along(np.minimum(standing, np.float32(FAR_MM)), blank.draws[number], FAR_MM)
    hooks = np.float32(2 * clearance_mm) - clear
    np.maximum(hooks, np.float32(clearance_mm) - blank.hidden.ways[number], out=hooks)
    reach = np.float32(SPLINTER_STEPS * blank.grid.step_mm)
    around = ndimage.gaussian_filter(np.clip(hooks, -reach, reach), SPLINTER_STEPS, mode="nearest")
    return np.asarray(np.maximum(hooks, around, out=hooks), dtype=np.float32)
