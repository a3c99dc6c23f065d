"""The space about a core that the pieces of a shell may fill, sampled for the search of where they part."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.directions import hull_normals
from moldwright.geometry.field import solid_band
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.shadow import least_in_cone
from moldwright.geometry.sign import Mask

Directions = NDArray[np.float64]


HALF_CELL = 0.5
"""A point of the space counts as hidden where at least so much of its cell is: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class Space:
    """The space about a core that a shell may fill, on the search's grid.

    field : signed distance to the core, clipped to +-3 steps [mm].
    free : points that a piece may take.
    width_mm : how far the space reaches beyond the hull of the core.
    """

    grid: Grid
    field: Field
    free: Mask
    width_mm: float

    @property
    def body(self) -> Mask:
        """The points of the core."""
        inside: Mask = self.field <= 0
        return inside


def space_about(core: Mesh, width_mm: float, floor_mm: float, step_mm: float) -> Space:
    """Sample a core, and the convex space about it from the floor up.

    Parameters
    ----------
    core : body and rubber as one closed solid [mm].
    width_mm : reach of the shell from the core (seam flange) [mm].
    floor_mm : height over the board from which the shell stands [mm].
    step_mm : step of the search's grid [mm].

    Source: our own.
    """
    grid = coarse_grid(core, width_mm, floor_mm, step_mm)
    field = solid_band(core, grid, 3 * step_mm)
    return Space(grid, field, (space_distance(core, grid) <= width_mm) & (field > 0), width_mm)


def coarse_grid(core: Mesh, width_mm: float, floor_mm: float, step_mm: float) -> Grid:
    """Points about the core from the floor up, far enough out for the shell.

    Parameters
    ----------
    core : closed, standing on the board [mm].
    width_mm : how far the shell reaches beyond it [mm], >= 0.
    floor_mm : height from which the shell stands [mm].
    step_mm : spacing of the points [mm], > 0.

    Source: our own.
    """
    low, high = core.bounds_mm
    margin = width_mm + 2 * step_mm
    grid = Grid.around(low, high, step_mm, margin)
    layers = int(np.ceil((high[2] + margin - floor_mm) / step_mm)) + 1
    origin = (grid.origin_mm[0], grid.origin_mm[1], floor_mm + 0.5 * step_mm)
    return Grid(origin, step_mm, (grid.shape[0], grid.shape[1], layers))


def space_distance(core: Mesh, grid: Grid) -> Field:
    """How far each point lies outside the convex space of the core and its shadow on the board [mm].

    The space is a discrete oriented polytope of 86 half-spaces; negative inside.

    Parameters
    ----------
    core : closed, standing on the board [mm].
    grid : the points that are asked about.

    Source: k-DOPs: Klosowski et al. 1998, "Efficient collision detection using bounding volume hierarchies of k-DOPs",
    IEEE TVCG 4 (1).
    """
    points = _hull_points(core)
    x, y, z = (grid.axis(n).astype(np.float32) for n in range(3))
    out = np.full(grid.shape, -np.inf, np.float32)
    side = np.empty(grid.shape, np.float32)
    for normal in hull_normals().astype(np.float32):
        plan = normal[0] * x[:, None] + normal[1] * y[None, :] - (points @ normal).max()
        np.add(plan[:, :, None], (normal[2] * z)[None, None, :], out=side)
        np.maximum(out, side, out=out)
    return out


def _hull_points(core: Mesh) -> NDArray[np.float32]:
    """Corners of the core that may reach farthest in some direction, and their shadows on the board.

    Source: our own.
    """
    points = np.concatenate([core.vertices, core.vertices * np.array([1.0, 1.0, 0.0])])
    return points.astype(np.float32)


def hidden_share(field: Field, draw: NDArray[np.float64], step_mm: float, draft_deg: int = 0) -> Field:
    """Share of each point's cell that is hidden along a draw and not itself body, 0 to 1.

    Parameters
    ----------
    field : signed distance to the core [mm].
    draw : (3,) unit vector.
    step_mm : of the grid [mm].
    draft_deg : also hidden is what is hidden along a ray off the draw by so much or less [deg].

    Source: our own.
    """
    way = least_in_cone(field, draw, 3 * step_mm, draft_deg)
    share = np.clip(0.5 - way / step_mm, 0, 1) - np.clip(0.5 - field / step_mm, 0, 1)
    out: Field = np.maximum(share, 0).astype(np.float32)
    return out
