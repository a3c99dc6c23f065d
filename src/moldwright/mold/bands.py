"""A piece of the shell as level bands of what it covers: how far round each is, and how much of it there is."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.mold.measures import ShellBand
from moldwright.mold.pushes import owners

BAND_MM = 10.0
"""Height of a band: finer than a strip is wide; our own."""


def bands_of(gloved: Mesh, sides: Sequence[Field], grid: Grid, floor_mm: float) -> tuple[tuple[ShellBand, ...], ...]:
    """The bands of each piece, from the flange up.

    A band's girth is the longest of three level sections through it.

    Parameters
    ----------
    gloved : original, plinth and rubber as one closed solid on the board [mm].
    sides : of each piece, positive on its side of the seam.
    grid : where they are sampled.
    floor_mm : top of the rubber's flange, from which the shell rises [mm].

    Source: our own.
    """
    corners = gloved.corners
    middles = corners.mean(axis=1)
    over = middles[:, 2] > floor_mm + 1e-3
    corners, middles = corners[over], middles[over]
    owner = owners(middles, sides, grid)
    return tuple(
        _bands(corners[owner == number], middles[owner == number, 2], floor_mm) for number in range(len(sides))
    )


def _bands(corners: NDArray[np.float64], height_mm: NDArray[np.float64], floor_mm: float) -> tuple[ShellBand, ...]:
    """A triangle counts for the band that its middle lies in."""
    if len(corners) == 0:
        return ()
    a, b, c = corners.transpose(1, 0, 2)
    area_mm2 = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2
    number = np.floor((height_mm - floor_mm) / BAND_MM).astype(int)
    areas = np.bincount(number, weights=area_mm2)
    girths = [
        max(_girth_mm(corners, floor_mm + (n + at) * BAND_MM) for at in (0.25, 0.5, 0.75)) for n in range(len(areas))
    ]
    return tuple(ShellBand(float(area), girth) for area, girth in zip(areas, girths, strict=True))


def _girth_mm(corners: NDArray[np.float64], z_mm: float) -> float:
    """How long a level section through triangles is."""
    high = corners[:, :, 2] - z_mm
    cut = corners[(high.min(axis=1) < 0) & (high.max(axis=1) >= 0)]
    high = cut[:, :, 2] - z_mm
    lone_over = (high >= 0).sum(axis=1) == 1
    lone = np.where(lone_over, high.argmax(axis=1), high.argmin(axis=1))
    rows = np.arange(len(cut))
    ends = []
    for turn in (1, 2):
        other = (lone + turn) % 3
        share = high[rows, lone] / (high[rows, lone] - high[rows, other])
        ends.append(cut[rows, lone] + share[:, None] * (cut[rows, other] - cut[rows, lone]))
    return float(np.linalg.norm(ends[0] - ends[1], axis=1).sum())
