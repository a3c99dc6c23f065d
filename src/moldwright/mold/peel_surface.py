"""The inner surface of a glove as it is peeled: how far each place is from the opening, and where it is too thick."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.closest import away_from_mesh
from moldwright.geometry.geodesic import geodesic_mm
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import mesh_of, solid_of

Floats = NDArray[np.float64]

TRIANGLES = 20_000
"""As many triangles as even ones would be; a body with finer detail keeps more: our own."""
SIMPLIFIED, LONGEST = 0.05, 1.5
"""How far the surface may move, and how long an edge may be, in edges of even triangles: our own."""
BOARD_MM = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class PeelSurface:
    """The body within the glove, in triangles of about one size.

    Parameters
    ----------
    mesh : original and plinth, closed, standing on z = 0 [mm].
    away_mm : (n,) way over the surface from the board to each corner: in this order the glove comes off [mm].
    stiff : (n,) whether the rubber over a corner is too thick to stretch.
    stiff_mm : from what thickness on [mm].
    edge_mm : length of an edge of even triangles [mm].
    error_mm : how far the surface may lie off the body's [mm].
    """

    mesh: Mesh
    away_mm: Floats
    stiff: NDArray[np.bool_]
    stiff_mm: float
    edge_mm: float
    error_mm: float


def peel_surface(body: Mesh, gloved: Mesh, stiff_mm: float) -> PeelSurface:
    """Measure ways over the body from where the glove ends on the board, and the rubber over it.

    Parameters
    ----------
    body : original and plinth as one closed solid on z = 0 [mm].
    gloved : the same with all rubber, undercuts packed [mm].
    stiff_mm : rubber thicker than this counts as stiff [mm], > 0.

    Source: our own; ways by `geometry.geodesic`.
    """
    return surface_under(body, lambda corners: away_from_mesh(corners, gloved), stiff_mm)


def surface_under(
    body: Mesh, rubber_mm: Callable[[Floats], Floats], stiff_mm: float, triangles: int = TRIANGLES
) -> PeelSurface:
    """The same, under rubber whose thickness is told.

    Parameters
    ----------
    body : original and plinth as one closed solid on z = 0 [mm].
    rubber_mm : how thick it is over (n, 3) corners [mm].
    stiff_mm : rubber thicker than this counts as stiff [mm], > 0.
    triangles : as many as even ones would be, > 0.

    Source: our own; ways by `geometry.geodesic`.
    """
    edge_mm = float(np.sqrt(4.0 / np.sqrt(3.0) * body.area_mm2 / triangles))
    error_mm = SIMPLIFIED * edge_mm
    mesh = mesh_of(solid_of(body).simplify(error_mm).refine_to_length(LONGEST * edge_mm))
    on_board = np.flatnonzero(mesh.vertices[:, 2] <= BOARD_MM).astype(np.int64)
    away = geodesic_mm(mesh, on_board)
    return PeelSurface(mesh, away, rubber_mm(mesh.vertices) > stiff_mm, stiff_mm, edge_mm, error_mm)
