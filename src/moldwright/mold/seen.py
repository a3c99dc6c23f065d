"""The solids of a finished mold as they are looked at, and what can be told at each place of their surfaces."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from moldwright.geometry.closest import away_from_lines, away_from_mesh
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.overhung import overhung_mm
from moldwright.mold.hold import hold_mm
from moldwright.mold.thickness import ON_BOARD_MM, through_mm

Points = NDArray[np.float64]
MOST_HELD = 3.0
"""More than this many times what a wall holds is told as so much: our own."""
LEAST_STEP_MM, STEPS_ACROSS = 0.5, 400
"""Places that an overhung point could go to are tried so far apart: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class SeenMold:
    """What the finished mold is made of.

    Parameters
    ----------
    body : original and plinth as one.
    coated : body, coats and flange, before undercuts are packed.
    pieces, draws : the shell's, in the order of removal.
    seam : its lines on the rubber, each (n, 3) [mm].
    wall_mm, ceiling_mm : what an upright wall, and a ceiling, hold of the last coat's mix, wet; NaN where nobody knows.
    flange_mm : height of the flange's top [mm].
    stretch : (n, 3) places of the inner surface [mm], and (n,) how far the rubber there is stretched in peeling; None
        where nobody knows.
    strain : (n, 4) places of a sheet of the rubber [mm] and its stretch there as it is drawn off; None where nobody
        knows.
    """

    body: Mesh
    coated: Mesh
    pieces: tuple[Mesh, ...]
    draws: tuple[tuple[float, float, float], ...]
    seam: tuple[Points, ...]
    wall_mm: float = float("nan")
    ceiling_mm: float = float("nan")
    flange_mm: float = 0.0
    stretch: tuple[Points, Points] | None = None
    strain: Points | None = None


def held_mm(mold: SeenMold, points: Points, normals: Points) -> Points:
    """(n,) the thickest wet layer of the last coat's mix that stays at each place, up to `MOST_HELD` times what a wall
    holds; NaN where nobody knows [mm].

    Parameters
    ----------
    mold : the mold.
    points, normals : (n, 3) on the coated body [mm], and its outward unit vectors there.

    Source: `mold.hold.hold_mm`.
    """
    return np.minimum(hold_mm(normals[:, 2], mold.wall_mm, mold.ceiling_mm), MOST_HELD * mold.wall_mm)


def stretched(mold: SeenMold, points: Points, normals: Points) -> Points:
    """(n,) how many times its own length the loop of rubber at each place is stretched as the glove comes off: that of
    the nearest place of the inner surface; NaN where nobody knows.

    Parameters
    ----------
    mold : the mold.
    points, normals : (n, 3) on the rubber [mm], and its outward unit vectors there.

    Source: `mold.peel_stretch`, through a k-d tree (scipy).
    """
    if mold.stretch is None:
        return np.full(len(points), np.nan)
    places, times = mold.stretch
    return np.asarray(times[cKDTree(places).query(points)[1]], np.float64)


def strained_pct(mold: SeenMold, points: Points, normals: Points) -> Points:
    """(n,) by how much the rubber itself is stretched at each place as it is drawn off: that of the nearest place of
    the sheet; NaN on the flange, which the sheet has not, and where nobody knows [%].

    Parameters
    ----------
    mold : the mold.
    points, normals : (n, 3) on the rubber [mm], and its outward unit vectors there.

    Source: `mold.membrane`, through a k-d tree (scipy).
    """
    if mold.strain is None:
        return np.full(len(points), np.nan)
    stretch = mold.strain[cKDTree(mold.strain[:, :3]).query(points)[1], 3]
    return np.where(points[:, 2] > mold.flange_mm + ON_BOARD_MM, 100.0 * (stretch - 1.0), np.nan)


def rubber_mm(mold: SeenMold, points: Points, normals: Points) -> Points:
    """(n,) how much rubber lies beneath each point; NaN on the flange's edge [mm].

    Parameters
    ----------
    mold : the mold.
    points, normals : (n, 3) on the rubber [mm], and its outward unit vectors there.

    Source: `mold.thickness.through_mm`.
    """
    return through_mm(mold.body, points, normals, mold.flange_mm)


def packed_mm(mold: SeenMold, points: Points, normals: Points) -> Points:
    """(n,) how far each point of the packed rubber lies over coats and flange: 0 where nothing is packed [mm].

    Parameters
    ----------
    mold : the mold.
    points, normals : (n, 3) on the rubber [mm], and its outward unit vectors there.

    Source: our own.
    """
    return away_from_mesh(points, mold.coated)


def seam_away_mm(mold: SeenMold, points: Points, normals: Points) -> Points:
    """(n,) how far the nearest seam is from each point, as the crow flies [mm].

    Parameters
    ----------
    mold : the mold.
    points, normals : (n, 3) on the rubber [mm], and its outward unit vectors there.

    Source: our own.
    """
    return away_from_lines(points, mold.seam)


def piece_over(mold: SeenMold, points: Points) -> NDArray[np.int64]:
    """(n,) number of the piece of the shell that lies nearest to each point, from 0.

    Parameters
    ----------
    mold : the mold.
    points : (n, 3) [mm].

    Source: k-d trees (scipy).
    """
    away = [cKDTree(piece.vertices).query(points)[0] for piece in mold.pieces]
    return np.asarray(np.argmin(np.stack(away), axis=0), np.int64)


def undercut_mm(mold: SeenMold, points: Points, normals: Points) -> Points:
    """(n,) how far each place would catch the piece of the shell over it if nothing were packed, 0: it draws [mm].

    It is how far the place lies in under what overhangs it, seen along that piece's draw.

    Parameters
    ----------
    mold : the mold.
    points : (n, 3) on the coated body [mm].
    normals : (n, 3) outward unit vectors at the points.

    Source: our own.
    """
    low, high = mold.coated.bounds_mm
    step_mm = max(LEAST_STEP_MM, float((high - low).max()) / STEPS_ACROSS)
    found, over = np.zeros(len(points)), piece_over(mold, points)
    for number, draw in enumerate(mold.draws):
        mine = over == number
        found[mine] = overhung_mm(mold.coated, points[mine], normals[mine], np.asarray(draw), step_mm)
    return found
