"""How a mold that stands full presses on each piece of its shell."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import map_coordinates

from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.liquid import pressed_mm3
from moldwright.geometry.mesh import Mesh
from moldwright.mold.measures import Point, Push


def pushes_on(
    gloved: Mesh, sides: Sequence[Field], grid: Grid, draws: Sequence[Point], floor_mm: float
) -> tuple[Push, ...]:
    """What each piece is pressed with, off along its draw and up as the mold is poured, by the weight of the cast.

    Summed exactly over the triangles of the gloved surface that lie on the piece's side of the seam, those above the
    flange. The rubber passes the pressure on undiminished and counts as cast, which is on the safe side.

    Parameters
    ----------
    gloved : original, plinth and rubber as one closed solid on the board [mm].
    sides : of each piece, positive on its side of the seam.
    grid : where they are sampled.
    draws : a unit vector for each piece.
    floor_mm : top of the rubber's flange, on which nothing presses [mm].

    Source: hydrostatics.
    """
    corners = gloved.corners
    middles = corners.mean(axis=1)
    wet = middles[:, 2] > floor_mm + 1e-3
    corners, owner = corners[wet], owners(middles[wet], sides, grid)
    pressed = (pressed_mm3(corners[owner == number]) for number in range(len(draws)))
    return tuple(
        Push(off_ml=float(force @ np.asarray(draw)) / 1000.0, up_ml=float(-force[2]) / 1000.0)
        for force, draw in zip(pressed, draws, strict=True)
    )


def owners(points: NDArray[np.float64], sides: Sequence[Field], grid: Grid) -> NDArray[np.intp]:
    """(n,) on which piece's side of the seam each point lies, from 0.

    Parameters
    ----------
    points : (n, 3) [mm].
    sides : of each piece, positive on its side of the seam.
    grid : where they are sampled.

    Source: our own.
    """
    places = ((points - grid.origin) / grid.step_mm).T
    away = np.array([map_coordinates(side, places, order=1, mode="nearest") for side in sides])
    return np.asarray(away.argmax(axis=0), dtype=np.intp)
