"""What mending may cost, counted in parts, holes and grid points, never in seconds; and work cut into short pieces."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.geometry.clip import open_borders
from moldwright.geometry.connected import part_of_faces
from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh

MOST_PARTS = 5_000
MOST_HOLES = 2_000
MOST_VISITS = 4_000_000_000
VISITS_AT_ONCE = 60_000_000
REBUILD = "Make one closed surface of it in a mesh editor (remesh or shrink-wrap), then export it again."


def check_budget(cut: Mesh, grid: Grid) -> None:
    """Refuse what mending could not finish: InputRefused for parts, holes or size of triangles beyond the limits.

    The limits are about a hundred times what scans of sculptures have (our own; measured to be done in a minute).

    Parameters
    ----------
    cut : the scan over the board [mm].
    grid : where it will be sampled.

    Source: our own.
    """
    parts = int(part_of_faces(cut).max()) + 1
    if parts > MOST_PARTS:
        raise InputRefused("too-many-parts", parts, MOST_PARTS, "parts", REBUILD)
    borders = open_borders(cut)[1]
    holes = int(borders.max()) + 1 if len(borders) else 0
    if holes > MOST_HOLES:
        raise InputRefused("too-many-holes", holes, MOST_HOLES, "holes", REBUILD)
    visits = int(visits_of(cut, grid).sum())
    if visits > MOST_VISITS:
        raise InputRefused("too-tangled", visits, MOST_VISITS, "grid points in triangles' boxes", REBUILD)


def visits_of(soup: Mesh, grid: Grid) -> NDArray[np.float64]:
    """(m,) how many grid points lie in each triangle's box, grown by a step: what finding distances costs.

    Parameters
    ----------
    soup : any triangles [mm].
    grid : where distances are asked.

    Source: our own.
    """
    corners = (soup.corners - grid.origin) / grid.step_mm
    low = np.maximum(corners.min(axis=1) - 1, 0)
    high = np.minimum(corners.max(axis=1) + 1, np.array(grid.shape) - 1)
    return np.asarray(np.prod(np.maximum(high - low, 0) + 1, axis=1), dtype=np.float64)


def in_short_pieces(soup: Mesh, grid: Grid) -> list[NDArray[np.int64]]:
    """The triangles' numbers in groups that each take well under a second; one group for a usual scan.

    Parameters
    ----------
    soup : any triangles [mm].
    grid : where distances are asked.

    Source: our own.
    """
    group = (np.cumsum(visits_of(soup, grid)) // VISITS_AT_ONCE).astype(np.int64)
    return np.split(np.arange(len(soup.faces)), np.flatnonzero(np.diff(group)) + 1)
