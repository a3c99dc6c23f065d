"""The seam of a shell: how long it is, what it leaves unsupported."""

from __future__ import annotations

import numpy as np

from moldwright.mold.blank import SLAB_STEPS, Blank


def seam_length_mm(blank: Blank, flange_mm: float) -> float:
    """Area of the seam's surface inside the shell over the width of its flange [mm].

    The area is the volume of a slab two steps to each side over its thickness. What a divider parts in a through-hole
    does not count: no clay stands there, no flange and no clamp.

    Parameters
    ----------
    blank : what the pieces are cut from.
    flange_mm : width of the seam's flange [mm].

    Source: our own.
    """
    step = blank.grid.step_mm
    slab = (np.abs(blank.border) <= SLAB_STEPS * step) & (blank.band <= 0) & (blank.hidden.core > 0) & ~blank.divided
    return float(slab.sum() * step**3 / (2 * SLAB_STEPS * step) / flange_mm)


def uncovered_share(blank: Blank) -> float:
    """Share of the gloved surface from which neither piece, on its side of the seam, could draw.

    Parameters
    ----------
    blank : what the pieces are cut from.

    Source: our own.
    """
    step = blank.grid.step_mm
    skin = (blank.whole > 0.3 * step) & (blank.whole <= 1.3 * step)
    skin[:, :, : blank.floor_layer + 1] = False
    held = np.where(blank.border > 0, blank.hidden.ways[0], blank.hidden.ways[1]) > 0
    return float((skin & ~held).sum() / max(1, skin.sum()))
