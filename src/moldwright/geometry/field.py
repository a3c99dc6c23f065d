"""Signed distance fields: negative inside, positive outside, exact in a band about the surface."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from moldwright.geometry.distance import unsigned_band
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.sign import Mask, inside_solid


@dataclass(frozen=True, slots=True, eq=False)
class Sampled:
    """A field with the grid it is sampled on."""

    field: Field
    grid: Grid


def _with_sign(distance: Field, inside: Mask, band_mm: float) -> Field:
    np.minimum(distance, np.float32(band_mm), out=distance)
    np.negative(distance, out=distance, where=inside)
    return distance


def solid_band(solid: Mesh, grid: Grid, band_mm: float) -> Field:
    """Signed distance to a closed mesh, clipped to +-`band_mm`.

    Parameters
    ----------
    solid : closed triangles [mm].
    grid : where to sample.
    band_mm : distance up to which the field is computed [mm], > 0.

    Source: our own; see `distance` and `sign`.
    """
    distance, _ = unsigned_band(solid, grid, band_mm)
    return _with_sign(distance, inside_solid(solid, grid), band_mm)


def standing_band(solid: Mesh, grid: Grid, band_mm: float) -> Field:
    """Signed distance to a closed mesh that stands on z = 0: its base faces are no surface.

    The body counts as continued below the board (as its own mirror image), so that offsets meet the board upright.
    `grid` must start at z = 0.

    Parameters
    ----------
    solid : closed triangles that stand on z = 0 [mm].
    grid : where to sample; starts at z = 0.
    band_mm : distance up to which the field is computed [mm], > 0.

    Source: our own; see `distance` and `sign`.
    """
    distance, _ = unsigned_band(without_base(solid), grid, band_mm)
    return _with_sign(distance, inside_solid(solid, grid), band_mm)


def without_base(solid: Mesh, level_mm: float = 1e-6) -> Mesh:
    """The mesh without the faces that lie on z = 0.

    Parameters
    ----------
    solid : triangles that stand on z = 0 [mm].
    level_mm : height up to which a corner counts as on the board [mm].

    Source: our own.
    """
    on_board = (solid.vertices[:, 2] <= level_mm)[solid.faces].all(axis=1)
    return Mesh(solid.vertices, solid.faces[~on_board])


def base_area_mm2(solid: Mesh) -> float:
    """Area of the faces that lie on z = 0 [mm2].

    Parameters
    ----------
    solid : a mesh that stands on z = 0 [mm].

    Source: our own.
    """
    return solid.area_mm2 - without_base(solid).area_mm2


def mirrored_below(sampled: Sampled, layers: int = 2) -> Sampled:
    """The field continued below z = 0 as its mirror image and closed, so that a surface can be cut flat at z = 0.

    Parameters
    ----------
    sampled : a field whose lowest layer is z = 0 [mm].
    layers : how many layers of its image are added under it, >= 1.

    Source: our own.
    """
    below = sampled.field[:, :, layers:0:-1]
    floor = np.full((*sampled.field.shape[:2], 1), sampled.grid.step_mm, np.float32)
    grid = sampled.grid
    x, y, z = grid.origin_mm
    shape = (grid.shape[0], grid.shape[1], grid.shape[2] + layers + 1)
    return Sampled(
        np.concatenate([floor, below, sampled.field], axis=2),
        Grid((x, y, z - (layers + 1) * grid.step_mm), grid.step_mm, shape),
    )


def standing_grid(solid: Mesh, step_mm: float, margin_mm: float) -> Grid:
    """A grid about a body that stands on z = 0: its lowest layer is the board.

    Parameters
    ----------
    solid : triangles that stand on z = 0 [mm].
    step_mm : spacing of the points [mm], > 0.
    margin_mm : how far the grid reaches beyond the body [mm], >= 0.

    Source: our own.
    """
    low, high = solid.bounds_mm
    whole = Grid.around(low, high, step_mm, margin_mm)
    top = int(np.ceil((high[2] + margin_mm) / step_mm)) + 1
    return Grid((whole.origin_mm[0], whole.origin_mm[1], 0.0), step_mm, (whole.shape[0], whole.shape[1], top))
