"""The undercut fill: rubber packed wherever a rigid piece would catch, exact between the grid's points."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.distance import unsigned_band
from moldwright.geometry.field import Sampled, standing_band
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.resample import resampled
from moldwright.geometry.shadow import least_in_cone
from moldwright.geometry.solid import Solid, largest_body, solid_of
from moldwright.geometry.surface import level_set, standing_solid
from moldwright.mold.measures import LEAST_DEPTH_MM
from moldwright.mold.split import CoarseSplit

REACH_STEPS = 3.0
BORDER_STEPS = 12
LEAST_SPOT_ML = 0.02


@dataclass(frozen=True, slots=True, eq=False)
class InTheWay:
    """What stands in the way of the pieces, on the fine grid.

    core : signed distance to body and rubber, clipped to +-3 steps [mm].
    ways : for each piece the least distance to the core that a point of it passes on its way out [mm].
    sides : for each piece the signed distance to its seam [mm], positive where it takes the points.
    outside : distance beyond the convex space that pieces may fill [mm], where no rubber is packed.
    """

    grid: Grid
    core: Field
    ways: tuple[Field, ...]
    sides: tuple[Field, ...]
    outside: Field


def look_along(
    core: Mesh,
    grid: Grid,
    draws: NDArray[np.float64],
    sides: tuple[Field, ...],
    outside: Field,
    draft_deg: int = 0,
) -> InTheWay:
    """Sample the core and look out along every draw.

    Parameters
    ----------
    core : closed, standing on z = 0 [mm].
    grid : where to sample; starts at z = 0.
    draws : (k, 3) unit vectors.
    sides : for each piece the signed distance to its seam [mm].
    outside : distance beyond the space that pieces may fill [mm].
    draft_deg : also in the way is what is met along a ray off the draw by so much or less [deg].

    Source: our own.
    """
    reach = REACH_STEPS * grid.step_mm
    field = standing_band(core, grid, reach)
    ways = tuple(least_in_cone(field, draw, reach, draft_deg) for draw in draws)
    return InTheWay(grid, field, ways, sides, outside)


def seam_sides(split: CoarseSplit, grid: Grid, reach_mm: float = 0.0) -> tuple[Field, ...]:
    """Each piece's seam as a smooth signed field on the fine grid, in millimeters close to it, positive on its side.

    The coarse labels are carried into the core and outward from their nearest point, smoothed (which keeps a space
    closed along a direction closed), and made a distance by their own slope.

    Parameters
    ----------
    split : the coarse labels and their grid.
    grid : where the seam is wanted.
    reach_mm : how far off the seam the distance must hold at least [mm].

    Source: our own.
    """
    far_mm = max(BORDER_STEPS * split.grid.step_mm, reach_mm)
    if split.pieces == 1:
        return (np.full(grid.shape, far_mm, np.float32),)
    smooth = split.smooth_sides()
    told = smooth[:1] if split.pieces == 2 else smooth
    sides = tuple(resampled(Sampled(_signed_by(each, split, far_mm), split.grid), grid) for each in told)
    return (*sides, -sides[0]) if split.pieces == 2 else sides


def _walled(sampled: Sampled) -> Sampled:
    """The field with a positive border one point thick, so that every level set closes."""
    padded = np.pad(sampled.field, 1, constant_values=1.0)
    g = sampled.grid
    x, y, z = (o - g.step_mm for o in g.origin_mm)
    return Sampled(padded, Grid((x, y, z), g.step_mm, (padded.shape[0], padded.shape[1], padded.shape[2])))


def _signed_by(smooth: Field, split: CoarseSplit, far_mm: float) -> Field:
    """Distance to the inner part of the seam's surface (its wall on the grid's border left out), signed."""
    g, surface = split.grid, level_set(_walled(Sampled(smooth, split.grid)))
    low, high = g.origin, g.origin + g.step_mm * (np.array(g.shape) - 1)
    centers = surface.corners.mean(axis=1)
    inner = ((centers > low + 1e-3) & (centers < high - 1e-3)).all(axis=1)
    distance, _ = unsigned_band(Mesh(surface.vertices, surface.faces[inner]), g, far_mm)
    np.minimum(distance, np.float32(far_mm), out=distance)
    return np.where(smooth > 0, distance, -distance).astype(np.float32)


def hidden_fields(hidden: InTheWay) -> Field:
    """Signed field (<= 0: rubber) of the core with all that its pieces may not occupy.

    Parameters
    ----------
    hidden : what stands in the pieces' way [mm].

    Source: our own.
    """
    packed = np.full_like(hidden.core, np.inf)
    for way, side in zip(hidden.ways, hidden.sides, strict=True):
        np.minimum(packed, np.maximum(way, -side), out=packed)
    return np.minimum(np.maximum(packed, hidden.outside), hidden.core)


def fill_solid(hidden: InTheWay, floor_mm: float) -> tuple[Solid | None, Field]:
    """The rubber to be packed, reaching a little into the core so that both join cleanly; None where there is none.

    Spots shallower than 0.4 mm everywhere are left free: the rubber gives, and no piece touches there.
    Returns the solid and the signed field of core and fill.

    Parameters
    ----------
    hidden : what stands in the pieces' way [mm].
    floor_mm : height under which nothing is packed [mm], >= 0.

    Source: our own.
    """
    filled = hidden_fields(hidden)
    step = hidden.grid.step_mm
    packed = (filled <= 0) & (hidden.core > 0)
    labels, count = ndimage.label(packed)
    if count == 0:
        return None, hidden.core
    spot = labels[packed]
    depth = np.zeros(count + 1, np.float32)
    np.maximum.at(depth, spot, hidden.core[packed])
    volume = np.bincount(spot, minlength=count + 1) * step**3 / 1000
    real = (depth > LEAST_DEPTH_MM) & (volume > LEAST_SPOT_ML)
    if not real.any():
        return None, hidden.core
    near = ndimage.binary_dilation(real[labels], iterations=2)
    field = np.where(near, filled, hidden.core + np.float32(0.5 * step))
    whole = np.where(near, filled, hidden.core)
    return standing_solid(Sampled(field, hidden.grid), 0.0, floor_mm), whole


def filled_core(core: Mesh, fill: Solid | None) -> Solid:
    """Body, rubber and packing as one solid.

    Parameters
    ----------
    core : closed, standing on z = 0 [mm].
    fill : the packing [mm]; None: there is none.

    Source: our own.
    """
    whole = solid_of(core)
    return whole if fill is None else largest_body(whole + fill)
