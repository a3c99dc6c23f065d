"""The seam of a shell: how long it is, where it runs on the rubber, what it leaves unsupported."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.sign import Mask
from moldwright.mold.blank import Blank
from moldwright.plan.mold import SeamHeight

SLAB_STEPS = 2.0
TABLE_STEP_DEG = 15
TABLE_REACH_DEG = 3.0


def seam_length_mm(blank: Blank, flange_mm: float) -> float:
    """Area of the seam's surface inside the shell over the width of its flange [mm].

    The area is the volume of a slab two steps to each side over its thickness.

    Parameters
    ----------
    blank : what the pieces are cut from.
    flange_mm : width of the seam's flange [mm].

    Source: our own.
    """
    step = blank.grid.step_mm
    slab = (np.abs(blank.border) <= SLAB_STEPS * step) & (blank.band <= 0) & (blank.hidden.core > 0)
    return float(slab.sum() * step**3 / (2 * SLAB_STEPS * step) / flange_mm)


def seam_points(blank: Blank) -> NDArray[np.float64]:
    """(n, 3) points of the seam's line on the rubber, over the shell's floor [mm].

    Parameters
    ----------
    blank : what the pieces are cut from.

    Source: our own.
    """
    step = blank.grid.step_mm
    near: Mask = (np.abs(blank.border) <= 0.5 * step) & (np.abs(blank.whole) <= 0.6 * step)
    near[:, :, : blank.floor_layer] = False
    return blank.grid.at(np.argwhere(near))


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


def seam_table(points: NDArray[np.float64]) -> tuple[SeamHeight, ...]:
    """The seam's greatest height over the board every 15 degrees round the upright through the foot's middle.

    Parameters
    ----------
    points : (n, 3) points of the seam on the rubber [mm].

    Source: our own.
    """
    angle = np.degrees(np.arctan2(points[:, 1], points[:, 0])) % 360
    rows = []
    for at in range(0, 360, TABLE_STEP_DEG):
        near = np.abs((angle - at + 180) % 360 - 180) <= TABLE_REACH_DEG
        rows.append(SeamHeight(float(at), round(float(points[near, 2].max()), 1) if near.any() else None))
    return tuple(rows)
