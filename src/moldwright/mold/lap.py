"""The lap of a laid shell: piece 1's lip over the outside of piece 2, wherever it does not hook there."""

from __future__ import annotations

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
    """Both pieces, first off first, and the share of the lap that would hook and is left out, 0 to 1."""

    pieces: tuple[Mesh, Mesh]
    left_out_share: float


def cut_lapped(blank: Blank, rooms: tuple[Field, Field], clearance_mm: float, s: ShellSettings) -> Lapped:
    """Both pieces of a lapped shell: the second ends at the seam, the first has a lip over its outside.

    A point of the lip is kept only where its whole way out along the first draw stays clear of the rubber and of the
    second piece, so that the first comes off by construction while the second stands.

    Parameters
    ----------
    blank : what they are cut from, without a seam flange.
    rooms : of each piece, see `room_for` [mm].
    clearance_mm : room to the rubber and half the room between the pieces [mm].
    s : the shell's dimensions.

    Source: our own.
    """
    first, second = (piece_field(blank, room, clearance_mm) for room in rooms)
    over = _over_the_edge(blank, clearance_mm, s)
    hooks = _hooks(blank, second, clearance_mm)
    lap: Mask = (over <= 0) & (blank.border <= 0) & (blank.hidden.core > 0)
    lap[:, :, : blank.floor_layer] = False
    left_out = float((lap & (hooks > 0)).sum() / max(1, lap.sum()))
    np.maximum(over, hooks, out=over)
    np.minimum(first, over, out=first)
    pieces = (standing_piece(blank, first, clearance_mm), standing_piece(blank, second, clearance_mm))
    return Lapped(pieces, left_out)


def _over_the_edge(blank: Blank, clearance_mm: float, s: ShellSettings) -> Field:
    """Signed field (<= 0: lip) of a layer outside the wall, from the lap's edge on the second piece to a wall's
    thickness past the seam, where it is rooted in the first."""
    gap = np.float32(2 * clearance_mm)
    over = np.maximum(blank.band - gap - np.float32(s.lap_thickness_mm), -blank.border - np.float32(s.lap_mm))
    np.maximum(over, blank.border - np.float32(s.wall_mm), out=over)
    beside = np.maximum(blank.band, blank.border + np.float32(clearance_mm))
    return np.asarray(np.maximum(over, gap - beside, out=over), dtype=np.float32)


def _hooks(blank: Blank, second: Field, clearance_mm: float) -> Field:
    """Positive where a point would meet the rubber or the second piece on its way out along the first draw [mm], and
    where only a splinter between such points would not."""
    clear = least_along(np.minimum(second, np.float32(FAR_MM)), blank.draws[0], FAR_MM)
    hooks = np.float32(2 * clearance_mm) - clear
    np.maximum(hooks, np.float32(clearance_mm) - blank.hidden.ways[0], out=hooks)
    reach = np.float32(SPLINTER_STEPS * blank.grid.step_mm)
    around = ndimage.gaussian_filter(np.clip(hooks, -reach, reach), SPLINTER_STEPS, mode="nearest")
    return np.asarray(np.maximum(hooks, around, out=hooks), dtype=np.float32)
