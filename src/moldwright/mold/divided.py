"""Where the seam runs inside a through-hole: a divider and the rubber on both of its sides part the pieces there."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.grid import Field, Grid
from moldwright.plan.original import Point

SHEET_MM = 1.0
"""A divider's own thickness at most: common practice, no source."""
Mask = NDArray[np.bool_]


def divided_by(core: Field, seam_away: Field, grid: Grid, half_mm: float, holes: tuple[Point, ...]) -> Mask:
    """The points near the seam that are shut in by the core in a through-hole.

    Between two pieces the seam is one sheet from the flange's edge up and over; what the core cuts off from it spans a
    hole. Of such parts the one at a hole's place is taken.

    Parameters
    ----------
    core : signed distance to body and rubber [mm].
    seam_away : distance to the nearest seam [mm].
    grid : the points of both fields.
    half_mm : how near to the seam [mm].
    holes : where the holes with a divider are [mm].

    Source: our own.
    """
    taken = np.zeros(core.shape, dtype=bool)
    if not holes:
        return taken
    number, _ = ndimage.label((seam_away <= half_mm) & (core > 0))
    boxes = ndimage.find_objects(number)
    parts = [n for n, box in enumerate(boxes, start=1) if _shut_in(box, core.shape)]
    for hole in holes:
        for n in parts:
            places = grid.origin + grid.step_mm * np.argwhere(number[boxes[n - 1]] == n)
            places += grid.step_mm * np.array([side.start for side in boxes[n - 1]])
            middle = places.mean(axis=0)
            reach = np.linalg.norm(places - middle, axis=1).max()
            if np.linalg.norm(middle - hole) <= reach:
                taken[boxes[n - 1]] |= number[boxes[n - 1]] == n
    return taken


def kept_apart(band: Field, seam_away: Field, divided: Mask, half_mm: float) -> None:
    """Cut out of a shell's space, in place, what a divider and its rubber fill.

    Parameters
    ----------
    band : signed field, <= 0: shell [mm].
    seam_away : distance to the nearest seam [mm].
    divided : where a divider parts the pieces.
    half_mm : half of what divider and rubber fill [mm].

    Source: our own.
    """
    near = ndimage.binary_dilation(divided, iterations=2)
    band[near] = np.maximum(band[near], np.float32(half_mm) - seam_away[near])


def _shut_in(box: tuple[slice, ...], shape: tuple[int, ...]) -> bool:
    """Whether a part stays off the sides of the sampled space, and off the board."""
    return all(side.start > 0 and side.stop < size for side, size in zip(box, shape, strict=True))
