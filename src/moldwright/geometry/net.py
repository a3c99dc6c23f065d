"""The zero set of a sampled field as a net of even triangles: one corner in every cell that the surface passes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.field import Sampled
from moldwright.geometry.mesh import Faces, Mesh

Floats = NDArray[np.float64]


def net_of(sampled: Sampled) -> Mesh:
    """The surface field = 0 inside the grid, wound so that lower values are inside; open where it leaves the grid.

    Parameters
    ----------
    sampled : a field with its grid [mm].

    Source: S. F. F. Gibson, "Constrained elastic surface nets", MERL TR99-24 (from memory): each corner lies in the
    middle of the crossings of its cell's edges.
    """
    field = np.asarray(sampled.field, dtype=np.float64)
    number, corners = _corners(field)
    quads = np.concatenate([_quads(field, number, axis) for axis in range(3)])
    vertices = sampled.grid.origin + sampled.grid.step_mm * corners
    return Mesh(vertices, _halved(vertices, quads))


def _corners(field: Floats) -> tuple[NDArray[np.int64], Floats]:
    """Number of each cell's corner, -1 for none, and (n, 3) where they are in steps."""
    shape = tuple(n - 1 for n in field.shape)
    total, crossings = np.zeros((*shape, 3)), np.zeros(shape)
    for axis in range(3):
        for shift in np.ndindex(2, 2):
            low = [slice(0, n) for n in shape]
            for other, by in zip((a for a in range(3) if a != axis), shift, strict=True):
                low[other] = slice(by, by + shape[other])
            high = low.copy()
            high[axis] = slice(1, 1 + shape[axis])
            one, two = field[tuple(low)], field[tuple(high)]
            crossed = (one < 0) != (two < 0)
            at = np.divide(one, one - two, out=np.zeros(shape), where=crossed)
            crossings += crossed
            total[..., axis] += at
            for other, by in zip((a for a in range(3) if a != axis), shift, strict=True):
                total[..., other] += by * crossed
    cells = np.argwhere(crossings > 0)
    number = np.full(shape, -1, np.int64)
    number[tuple(cells.T)] = np.arange(len(cells))
    inside = tuple(cells.T)
    return number, cells + total[inside] / crossings[inside][:, None]


def _quads(field: Floats, number: NDArray[np.int64], axis: int) -> NDArray[np.int64]:
    """(n, 4) corners about every edge along an axis that the surface crosses."""
    b, c = (axis + 1) % 3, (axis + 2) % 3
    inner: list[slice] = [slice(None)] * 3
    inner[b], inner[c] = slice(1, -1), slice(1, -1)
    part = np.moveaxis(field[tuple(inner)], axis, 0)
    edges = np.argwhere(np.moveaxis((part[:-1] < 0) != (part[1:] < 0), 0, axis))
    rising = part[:-1] < 0
    up = np.moveaxis(rising, 0, axis)[tuple(edges.T)]
    around = []
    for by_b, by_c in ((0, 0), (1, 0), (1, 1), (0, 1)):
        cell = edges.copy()
        cell[:, b] += by_b
        cell[:, c] += by_c
        around.append(number[tuple(cell.T)])
    quads = np.stack(around, axis=1)
    return np.where(up[:, None], quads, quads[:, ::-1])


def _halved(vertices: Floats, quads: NDArray[np.int64]) -> Faces:
    """Each quad as two triangles, along its shorter diagonal."""
    one, two = (np.linalg.norm(vertices[quads[:, a]] - vertices[quads[:, b]], axis=1) for a, b in ((0, 2), (1, 3)))
    turned = np.where((one <= two)[:, None], quads, np.roll(quads, -1, axis=1))
    return np.concatenate([turned[:, [0, 1, 2]], turned[:, [0, 2, 3]]]).astype(np.int32)
