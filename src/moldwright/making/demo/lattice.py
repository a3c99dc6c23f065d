"""From a distance field to triangles: coarse everywhere, fine only where the surface is."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import label
from skimage.measure import marching_cubes

from moldwright.geometry.mesh import Mesh

Floats = NDArray[np.float32]
Field = Callable[[Floats, float], Floats]
CELLS = 4
GROUP = 6
SAFETY = 1.5
FAR_MM = 50.0
CLEAR_OF_NODE_MM = 1e-3


def mesh_of_field(field: Field, low_mm: Floats, high_mm: Floats, step_mm: float) -> Mesh:
    """Zero surface of `field(points_mm, band_mm)` above z = 0, capped flat at z = 0 exactly.

    The lattice lies half a step off z = 0, so that the cap -z is met by linear interpolation without error.

    Parameters
    ----------
    field : distances [mm] of points (n, 3), right where they are smaller than band_mm, and of the right sign elsewhere.
    low_mm, high_mm : corners of a box that holds the surface with a margin.
    step_mm : lattice step.
    """
    origin = np.array([low_mm[0], low_mm[1], -step_mm * (CELLS + 0.5)], dtype=np.float64)
    blocks = np.ceil((high_mm - origin) / (CELLS * step_mm)).astype(int)
    values = lattice_values(field, origin, blocks, step_mm)
    values[np.abs(values) < CLEAR_OF_NODE_MM] = CLEAR_OF_NODE_MM
    values[crumbs(values < 0)] = CLEAR_OF_NODE_MM
    values[crumbs(values > 0)] = -CLEAR_OF_NODE_MM
    vertices, faces, _, _ = marching_cubes(values, 0.0, gradient_direction="descent")
    placed = vertices.astype(np.float64) * step_mm + origin
    placed[np.abs(placed[:, 2]) < 1e-4 * step_mm + 1e-4, 2] = 0.0
    return Mesh(placed, faces.astype(np.int32))


def lattice_values(field: Field, origin: NDArray[np.float64], blocks: NDArray[np.int_], step_mm: float) -> Floats:
    """Values at all nodes; blocks of CELLS^3 that the surface cannot reach keep their first corner's value."""
    wide = CELLS * step_mm
    band_mm = SAFETY * wide * np.sqrt(3.0)
    corners = np.stack(np.meshgrid(*(np.arange(n + 1) for n in blocks), indexing="ij"), axis=-1)
    coarse = capped(field, (corners * wide + origin).reshape(-1, 3), band_mm).reshape(corners.shape[:3])
    busy = np.argwhere(np.abs(coarse[:-1, :-1, :-1]) < band_mm)
    inner = np.repeat(np.repeat(np.repeat(coarse[:-1, :-1, :-1], CELLS, 0), CELLS, 1), CELLS, 2)
    cell = np.stack(np.meshgrid(*(np.arange(CELLS),) * 3, indexing="ij"), axis=-1).reshape(-1, 3)
    for part in neighborhoods(busy):
        node = (part[:, None, :] * CELLS + cell).reshape(-1, 3)
        inner[tuple(node.T)] = capped(field, node * step_mm + origin, wide)
    return inner


def crumbs(chosen: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Nodes that do not hang together with the largest piece: grains cut off by a groove, or bubbles in a crevice."""
    piece, count = label(chosen)
    if count <= 1:
        return np.zeros_like(chosen)
    body = np.bincount(piece[chosen]).argmax()
    loose: NDArray[np.bool_] = chosen & (piece != body)
    return loose


def neighborhoods(blocks: NDArray[np.int_]) -> list[NDArray[np.int_]]:
    """The blocks (n, 3) in groups that lie close together, so that few shapes matter to each group."""
    key = np.ravel_multi_index(tuple((blocks // GROUP).T), tuple(blocks.max(axis=0) // GROUP + 1))
    order = np.argsort(key, kind="stable")
    cuts = np.flatnonzero(np.diff(key[order])) + 1
    return np.split(blocks[order], cuts)


def capped(field: Field, points_mm: NDArray[np.float64], band_mm: float) -> Floats:
    """The field cut by the board: max(f, -z)."""
    points = points_mm.astype(np.float32)
    return np.maximum(np.clip(field(points, band_mm), -FAR_MM, FAR_MM), -points[:, 2])
