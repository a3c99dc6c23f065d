"""Solids that an original could be which is not known exactly: as lean and as full as its volume allows, with recesses
where nothing shows them, uneven.

What stands for an original that nobody scanned is one solid of the likely volume. These are drawn from the range about
it, always the same ones, so that what a mold takes can be told for all of them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage
from shapely import Polygon

from moldwright.geometry.field import Sampled, standing_band, standing_grid
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.level import body_at, lowered, volume_under_mm3
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import prism
from moldwright.geometry.solid import largest_body, mesh_of, solid_of
from moldwright.plan.doubt import Shape
from moldwright.plan.original import PlinthPlan
from moldwright.ranges import Range

STEPS = 64
"""A body's longest side in steps of the grid that it is drawn on: our own."""
SPARE_SHARE = 0.08
"""How far a solid may lie within or beyond the likely one, of the longest side: our own."""
PATCH_SHARE = 0.22
"""Length from one patch of recesses to the next, of the longest side: our own."""
SEEN = 0.1
"""How much less deep a recess is drawn, for each reciprocal of the longest side that the surface bends outward: what is
seen of one as broad as a patch and three hundredths of the longest side deep; our own."""
WAVES = ((1.0, 0.35, 0.2), (-0.3, 1.0, 0.35), (0.25, -0.4, 1.0))
"""Ways along which an uneven body swells and shrinks."""
WAVE_SHARE = 0.45
"""Length of its waves, of the longest side: our own."""
LESS = (1.0, 0.5, 0.25, 0.0)
"""Shares of a change that are tried in turn where feet or ankles are too thin for all of it: our own."""
UNEVEN = 1.5
"""How far it lies in and out, against how far the lean and the full one do: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class CouldBe:
    """One of the solids: on the board or its plinth, its own volume, and how far its surface lies inward of the likely
    one's [mm], on a grid about both."""

    shape: Shape
    body: Mesh
    volume_ml: float
    inward: Sampled


def could_be(original: Mesh, lift_mm: float, plinth: PlinthPlan | None, volume: Range) -> tuple[CouldBe, ...]:
    """The likely solid, and those that the range about it allows.

    Parameters
    ----------
    original : the likely solid as it stands on its plinth or the board [mm].
    lift_mm : how high over the board it begins [mm].
    plinth : that it stands on, known exactly.
    volume : factor on its volume at 90 %, likely 1.

    Source: our own, docs/decisions/0074.
    """
    standing = original.moved((0.0, 0.0, -lift_mm))
    low, high = standing.bounds_mm
    size_mm = float((high - low).max())
    step_mm = size_mm / STEPS
    spare_mm = SPARE_SHARE * size_mm
    grid = standing_grid(standing, step_mm, spare_mm + 3 * step_mm)
    field = standing_band(standing, grid, spare_mm + 2 * step_mm)
    changes = _changes(field, grid, volume)
    clipped = {
        shape: np.broadcast_to(np.clip(change, -spare_mm, spare_mm), field.shape) for shape, change in changes.items()
    }
    return tuple(
        _made(shape, *_standing(field, change, grid, standing), grid, lift_mm, plinth)
        for shape, change in clipped.items()
    )


def _standing(field: Field, change: Field, grid: Grid, likely: Mesh) -> tuple[Mesh, Field]:
    """The changed body and what of the change was made: less of it where the body would lose what it stands on."""
    for share in LESS:
        body = body_at(Sampled((field + np.float32(share) * change).astype(np.float32), grid))
        if float(body.bounds_mm[0][2]) < grid.step_mm / 2:
            return body, np.float32(share) * change
    return likely, np.zeros_like(field)


def _made(shape: Shape, body: Mesh, change: Field, grid: Grid, lift_mm: float, plinth: PlinthPlan | None) -> CouldBe:
    x, y, z = grid.origin_mm
    lifted = Grid((x, y, z + lift_mm), grid.step_mm, grid.shape)
    inward = Sampled(change.astype(np.float32), lifted)
    return CouldBe(shape, _on_plinth(body, lift_mm, plinth), body.volume_ml, inward)


def _on_plinth(body: Mesh, lift_mm: float, plinth: PlinthPlan | None) -> Mesh:
    if plinth is None:
        return body
    block = prism(Polygon(plinth.outline), 0.0, plinth.height_mm)
    return mesh_of(largest_body(block + solid_of(body.moved((0.0, 0.0, lift_mm)))))


def _changes(field: Field, grid: Grid, volume: Range) -> dict[Shape, Field | float]:
    """What is added to the likely field, positive inward [mm]."""
    at = Sampled(field, grid)
    likely_mm3 = volume_under_mm3(at)
    lean, full = (_level_mm(at, likely_mm3 * share) for share in (volume.low, volume.high))
    recess = _where_unseen(field, grid)
    hollow = _deep_enough(field - np.float32(full), recess, grid, likely_mm3 * volume.low)
    uneven = UNEVEN * max(-lean, full, 0.0) * _waves(grid, WAVE_SHARE)
    return {
        Shape.LIKELY: 0.0,
        Shape.LEAN: -lean,
        Shape.FULL: -full,
        Shape.HOLLOWED: hollow - np.float32(full),
        Shape.UNEVEN: uneven,
    }


def _level_mm(at: Sampled, volume_mm3: float) -> float:
    """The level of a field that has a volume [mm]."""
    moved = lowered(at, volume_mm3)
    return float((at.field - moved.field).flat[0])


def _deep_enough(field: Field, recess: Field, grid: Grid, volume_mm3: float) -> Field:
    """The recesses, so deep that a volume is left [mm]; as deep as may be where that is not reached."""
    low, high = 0.0, SPARE_SHARE * grid.step_mm * STEPS
    for _ in range(12):
        deep = (low + high) / 2
        low, high = (
            (low, deep)
            if volume_under_mm3(Sampled(field + np.float32(deep) * recess, grid)) < volume_mm3
            else (deep, high)
        )
    return np.asarray(np.float32(low) * recess, np.float32)


def _where_unseen(field: Field, grid: Grid) -> Field:
    """Where outlines and a tape may span a recess, and how deep against others, 0 to 1: in patches, and less the more
    the surface bends outward.

    A line of sight along the surface sees the patch of a recess, of breadth b, lie in by b^2 k / 8 where the surface
    bends outward by k; what lies deeper it passes over.

    Source: visual hull, Laurentini 1994, "The visual hull concept for silhouette-based image understanding" (from
    memory); the height of a circle's segment.
    """
    size_mm = grid.step_mm * STEPS
    near = np.abs(field) < 1.5 * grid.step_mm
    weight = np.zeros(field.shape, np.float32)
    weight[near] = np.clip(1.0 - _most_bend(field, near, grid.step_mm) * (SEEN * size_mm), 0.0, 1.0)
    index = ndimage.distance_transform_edt(~near, return_distances=False, return_indices=True)
    carried = ndimage.gaussian_filter(weight[tuple(index)], 1.5)
    recess = carried * np.clip(2.0 * _waves(grid, PATCH_SHARE), 0.0, 1.0)
    return np.asarray(recess / max(float(recess[near].max()), 1e-3), np.float32)


def _most_bend(field: Field, near: NDArray[np.bool_], step_mm: float) -> NDArray[np.float32]:
    """The larger principal curvature of the level sets through some points, positive outward [1/mm].

    Source: shape operator of a level set, the projected Hessian over the gradient's length; closed form.
    """
    smooth = ndimage.gaussian_filter(field, 1.0)
    first = [np.gradient(smooth, step_mm, axis=n) for n in range(3)]
    slope = np.stack([each[near] for each in first], axis=-1)
    hesse = np.empty((len(slope), 3, 3))
    for a in range(3):
        for b in range(a, 3):
            hesse[:, a, b] = hesse[:, b, a] = np.gradient(first[a], step_mm, axis=b)[near]
    length = np.maximum(np.linalg.norm(slope, axis=1), 1e-6)
    normal = slope / length[:, None]
    flat = np.eye(3) - normal[:, :, None] * normal[:, None, :]
    bends = np.linalg.eigvalsh(flat @ hesse @ flat / length[:, None, None])
    return np.asarray(bends.max(axis=1), np.float32)


def _waves(grid: Grid, share: float) -> Field:
    """Between -1 and 1 all over a grid, in long waves."""
    x, y, z = (grid.axis(n).astype(np.float32) for n in range(3))
    total = np.zeros(grid.shape, np.float32)
    length_mm = share * grid.step_mm * STEPS
    for n, (a, b, c) in enumerate(WAVES):
        along = a * x[:, None, None] + b * y[None, :, None] + c * z[None, None, :]
        total += np.sin(2 * np.pi * along / length_mm + 1.7 * n).astype(np.float32)
    return total / np.float32(len(WAVES))
