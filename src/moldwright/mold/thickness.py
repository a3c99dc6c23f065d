"""How thick the finished glove is, measured on its solids."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.closest import away_from_mesh
from moldwright.geometry.mesh import Mesh
from moldwright.plan.thickness import FootPlan, LengthAt, Point, ThicknessPlan

Points = NDArray[np.float64]
ON_BOARD_MM = 1e-3
"""What lies lower stands on the board."""
UPRIGHT = 0.05
"""A face whose normal rises or falls by less is upright (3 degrees): our own."""

EDGE_FROM = 2.0
"""So many times its height from the body an upright face of the flange is its edge, and not the foot of a wall."""


def sampled_mm(ordered_mm: float, step_mm: float) -> float:
    """How much thinner than ordered an offset solid may be where it was sampled in steps [mm]: `h^2 / (2 t)`.

    Where the body ends in a point, its offset is a ball of radius t. Along an edge of the grid the ball's distance,
    taken as straight between two points of the grid, is off by `h^2 / (8 t)` at most; a triangle of the surface, whose
    corners lie in one cell of the grid, cuts the ball's chord over that cell's diagonal: `3 h^2 / (8 t)`.

    Parameters
    ----------
    ordered_mm : all coats together, t [mm], > 0.
    step_mm : step of the sampling, h [mm], >= 0.

    Source: sagitta of a chord; our own.

    >>> sampled_mm(4.0, 1.0)
    0.125
    """
    return step_mm**2 / (2.0 * ordered_mm)


def through_mm(body: Mesh, points: Points, normals: Points, flange_mm: float) -> Points:
    """(n,) the least way through the rubber from each place of its outside: to the body, or straight in to the board;
    NaN on the flange's edge, whose way in is the flange's width [mm].

    Parameters
    ----------
    body : original and plinth as one [mm].
    points : (n, 3) on the rubber [mm].
    normals : (n, 3) outward unit vectors of the rubber there.
    flange_mm : height of the flange's top [mm].

    Source: our own.
    """
    up = normals[:, 2]
    board = np.where(up > UPRIGHT, points[:, 2] / np.maximum(up, UPRIGHT), np.inf)
    away = away_from_mesh(points, body)
    thick: Points = np.minimum(away, board)
    low = (up <= UPRIGHT) & (points[:, 2] <= flange_mm + ON_BOARD_MM)
    thick[low & (away > EDGE_FROM * flange_mm)] = np.nan
    return thick


def thickness_of(gloved: Mesh, body: Mesh, ordered_mm: float, step_mm: float) -> ThicknessPlan:
    """Measure a finished glove, at the middle of each triangle of its outside.

    Parameters
    ----------
    gloved : original, plinth and rubber as one closed solid on z = 0 [mm].
    body : original and plinth as one [mm].
    ordered_mm : all coats together [mm].
    step_mm : in which the solids were sampled [mm].

    Source: our own.
    """
    middles, normals, _ = _over_board(gloved)
    thick = through_mm(body, middles, normals, ordered_mm)
    least, most = int(np.nanargmin(thick)), int(np.nanargmax(thick))
    return ThicknessPlan(
        ordered_mm=ordered_mm,
        sampled_mm=sampled_mm(ordered_mm, step_mm),
        least=LengthAt(float(thick[least]), _place(middles[least])),
        most=LengthAt(float(thick[most]), _place(middles[most])),
        foot=foot_of(body, ordered_mm),
    )


def foot_of(body: Mesh, ordered_mm: float) -> FootPlan | None:
    """Where less rubber than ordered fits between a body and the board under it, straight out from the body.

    Parameters
    ----------
    body : original and plinth as one closed solid on z = 0 [mm].
    ordered_mm : all coats together [mm].

    Source: our own.
    """
    middles, normals, areas = _over_board(body)
    down = -normals[:, 2]
    thin = (down > UPRIGHT) & (middles[:, 2] < ordered_mm * down)
    if not thin.any():
        return None
    base = Mesh(body.vertices, body.faces[(body.corners[:, :, 2] <= ON_BOARD_MM).all(axis=1)])
    reach = away_from_mesh(middles[thin], base)
    farthest = int(reach.argmax())
    return FootPlan(float(reach[farthest]), _place(middles[thin][farthest]), float(areas[thin].sum()))


def _over_board(mesh: Mesh) -> tuple[Points, Points, Points]:
    """Middles, outward unit vectors and areas [mm2] of the triangles that do not lie on the board."""
    corners = mesh.corners[(mesh.corners[:, :, 2] > ON_BOARD_MM).any(axis=1)]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    twice = np.linalg.norm(cross, axis=1)
    return corners.mean(axis=1), cross / np.maximum(twice, 1e-12)[:, None], twice / 2


def _place(point: Points) -> Point:
    x, y, z = (float(v) for v in point)
    return (x, y, z)
