"""Level sets of sampled fields as closed triangle meshes."""

from __future__ import annotations

import numpy as np
from skimage.measure import marching_cubes

from moldwright.errors import ComputationFailed
from moldwright.geometry.field import Sampled, mirrored_below
from moldwright.geometry.grid import Field
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid, above, solid_of


def level_set(sampled: Sampled, level_mm: float = 0.0) -> Mesh:
    """The surface field = level, closed, wound so that lower values are inside.

    The field is looked at only where it crosses the level (its bounding box, one point more on every side).
    Raises ComputationFailed where the level set is empty or reaches the border of the grid.

    Parameters
    ----------
    sampled : a field with its grid [mm].
    level_mm : the value that is the surface [mm].

    Source: marching cubes: Lorensen & Cline 1987, "Marching cubes: a high resolution 3D surface construction
    algorithm", Computer Graphics 21 (4), in the variant of Lewiner et al. 2003, "Efficient implementation of marching
    cubes' cases with topological guarantees", Journal of Graphics Tools 8 (2), as scikit-image has it.
    """
    field, grid = sampled.field, sampled.grid
    inside = field < level_mm
    box = []
    for axis in range(3):
        others = tuple(n for n in range(3) if n != axis)
        hit = np.flatnonzero(inside.any(axis=others))
        if len(hit) == 0:
            raise ComputationFailed("level-set-empty", f"{level_mm:.3f}", None, "mm", "Report this commission.")
        if hit[0] == 0 or hit[-1] == grid.shape[axis] - 1:
            raise ComputationFailed("level-set-open", f"axis {axis}", None, "", "Report this commission.")
        box.append(slice(hit[0] - 1, hit[-1] + 2))
    part = off_zero(field[tuple(box)] - np.float32(level_mm), grid.step_mm)
    vertices, faces, _, _ = marching_cubes(part, 0.0, allow_degenerate=False)
    low = grid.origin + grid.step_mm * np.array([b.start for b in box])
    return Mesh(low + grid.step_mm * vertices.astype(np.float64), np.ascontiguousarray(faces, dtype=np.int32))


def off_zero(field: Field, step_mm: float) -> Field:
    """The field with values next to zero set a little above it, in place: no triangle then degenerates.

    A point of a body that happens to lie on another surface inside it becomes a bubble far smaller than a cell.

    Parameters
    ----------
    field : any values [mm].
    step_mm : step of its grid [mm], > 0.

    Source: our own.
    """
    nudge = np.float32(1e-4 * step_mm)
    field[np.abs(field) < nudge] = nudge
    return field


def standing_solid(sampled: Sampled, level_mm: float = 0.0, floor_mm: float = 0.0) -> Solid:
    """The solid field <= level over z = `floor_mm`, flat there, from a field whose lowest layer is the board.

    Parameters
    ----------
    sampled : a field whose lowest layer is z = 0 [mm].
    level_mm : the value that is the surface [mm].
    floor_mm : height from which the solid is kept [mm], >= 0.

    Source: our own; see `level_set`.
    """
    lifted = sampled if level_mm == 0.0 else Sampled(sampled.field - np.float32(level_mm), sampled.grid)
    return above(solid_of(level_set(mirrored_below(lifted))), floor_mm)
