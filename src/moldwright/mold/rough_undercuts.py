"""A quick look at how undercut a bare original is, before anything is planned."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.directions import upper_directions
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.shadow import binary_shadow
from moldwright.geometry.sign import inside_solid
from moldwright.mold.pairs import pair_bounds
from moldwright.mold.space import coarse_grid, space_distance

STEPS = 48
TILTS_DEG = (0, 24)


def rough_undercuts(mesh: Mesh) -> tuple[float, float]:
    """Space hidden from one piece drawn straight up, and least space hidden from both of two pieces [ml].

    Parameters
    ----------
    mesh : the bare original on the board as a closed solid [mm].

    Source: our own (digital shadows on a grid of 48 steps; the second is a lower bound).
    """
    low, high = mesh.bounds_mm
    step = float((high - low).max()) / STEPS
    grid = coarse_grid(mesh, 2 * step, 0.0, step)
    body = inside_solid(mesh, grid)
    space = space_distance(mesh, grid) <= 0
    one = int((binary_shadow(body, np.array([0.0, 0.0, 1.0])) & space & ~body).sum())
    bounds = pair_bounds(body, space, upper_directions(tilts_deg=TILTS_DEG))
    two = int(bounds[np.triu_indices(len(bounds), 1)].min())
    return one * step**3 / 1000, two * step**3 / 1000
