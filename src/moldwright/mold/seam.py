"""The seam of a shell: how long it is, what it leaves unsupported."""

from __future__ import annotations

import numpy as np

from moldwright.mold.blank import SLAB_STEPS, Blank


def edges_mm(blank: Blank, flange_mm: float) -> tuple[float, ...]:
    """How long the seam is up to which each piece is laid, against all that are laid after it [mm]; none of piece 1.

    Pieces are laid in turn, the last off first: where two meet the seam is the edge of the one that comes off later.
    Its length is the area of the seam's surface inside the shell over the width of its flange; the area the volume of a
    slab two steps to each side over its thickness. What a divider parts in a through-hole does not count: no clay
    stands there, no flange and no clamp.

    Parameters
    ----------
    blank : what the pieces are cut from.
    flange_mm : width of the seam's flange [mm].

    Source: our own.
    """
    step = blank.grid.step_mm
    slab = (blank.seam_away <= SLAB_STEPS * step) & (blank.band <= 0) & (blank.hidden.core > 0) & ~blank.divided
    meeting = np.argsort([side[slab] for side in blank.hidden.sides], axis=0)[-2:]
    counts = np.bincount(meeting.max(axis=0), minlength=len(blank.hidden.sides))
    per_point_mm = step**3 / (2 * SLAB_STEPS * step) / flange_mm
    return tuple(float(count * per_point_mm) for count in counts)


def uncovered_share(blank: Blank) -> float:
    """Share of the gloved surface from which no piece, on its side of the seam, could draw.

    Parameters
    ----------
    blank : what the pieces are cut from.

    Source: our own.
    """
    step = blank.grid.step_mm
    skin = (blank.whole > 0.3 * step) & (blank.whole <= 1.3 * step)
    skin[:, :, : blank.floor_layer + 1] = False
    held = np.zeros_like(skin)
    for way, side in zip(blank.hidden.ways, blank.hidden.sides, strict=True):
        held |= (way > 0) & (side >= 0)
    return float((skin & ~held).sum() / max(1, skin.sum()))
