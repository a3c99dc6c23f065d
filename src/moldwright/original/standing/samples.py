"""Points spread over triangles."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
Ints = NDArray[np.int64]
MOST = 200_000


def spread(corners: Points, owner: Ints, spacing: float) -> tuple[Points, Ints, float]:
    """Points on triangles so that every place on them has one within `spacing`, the owner of each, and the spacing.

    The points divide each side into equal parts (a barycentric lattice); where that would take more than 200,000
    points they lie wider, as the third answer tells. Our own.

    Parameters
    ----------
    corners : (m, 3, 3) of the triangles, any unit.
    owner : (m,) a number for each triangle, handed on to its points.
    spacing : in the same unit, above 0.

    Source: our own.

    >>> points, owner, _ = spread(np.array([[[0.0, 0, 0], [2, 0, 0], [0, 2, 0]]]), np.array([7]), 1.5)
    >>> len(points), set(owner.tolist())
    (6, {7})
    """
    sides = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max(axis=1)
    while True:
        parts = np.maximum(np.ceil(np.minimum(sides / spacing, 1e6)), 1).astype(np.int64)
        each = (parts + 1) * (parts + 2) // 2
        if each.sum() <= max(MOST, 4 * len(corners)):
            break
        spacing *= 1.5
    found, owners = [], []
    for n in np.unique(parts):
        mine = parts == n
        found.append((_lattice(int(n)) @ corners[mine]).reshape(-1, 3))
        owners.append(np.repeat(owner[mine], (n + 1) * (n + 2) // 2))
    return np.concatenate(found), np.concatenate(owners), spacing


def _lattice(parts: int) -> Points:
    """(k, 3) barycentric coordinates of a triangle whose sides are cut into equal parts."""
    first, second = np.meshgrid(np.arange(parts + 1), np.arange(parts + 1), indexing="ij")
    inside = first + second <= parts
    a, b = first[inside] / parts, second[inside] / parts
    return np.stack([a, b, 1 - a - b], axis=1)
