"""Lines on a mesh along which a value at its corners is zero."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class LevelLine:
    """A line in order: on which edges its points lie, (n, 2) corners, and how far along each, (n,) 0 to 1."""

    edges: NDArray[np.int64]
    share: Floats
    closed: bool

    def of(self, values: Floats) -> Floats:
        """(n, k) values at the line's points, straight along each edge.

        Parameters
        ----------
        values : (m, k) values at the mesh's corners.

        Source: our own.
        """
        first, last = values[self.edges[:, 0]], values[self.edges[:, 1]]
        between: Floats = first + self.share[:, None] * (last - first)
        return between


def level_lines(mesh: Mesh, values: Floats) -> list[LevelLine]:
    """Where a value at the corners is zero: closed lines on a closed mesh, longest first.

    Parameters
    ----------
    mesh : triangles whose shared corners are one vertex [mm].
    values : (n,) at its corners; 0 counts as positive.

    Source: marching triangles, as in Hoppe et al. 1992, "Surface reconstruction from unorganized points" (from memory).
    """
    above = values >= 0
    mixed = mesh.faces[above[mesh.faces].any(axis=1) & ~above[mesh.faces].all(axis=1)].astype(np.int64)
    if not len(mixed):
        return []
    sides = np.stack([mixed, np.roll(mixed, -1, axis=1)], axis=2)
    crossing = above[sides[:, :, 0]] != above[sides[:, :, 1]]
    ends = np.sort(sides[crossing].reshape(-1, 2, 2), axis=2)
    edges, number = np.unique(ends.reshape(-1, 2), axis=0, return_inverse=True)
    low, high = values[edges[:, 0]], values[edges[:, 1]]
    share = low / (low - high)
    chains = _chained(number.reshape(-1, 2), len(edges))
    lines = [LevelLine(edges[chain], share[chain], closed) for chain, closed in chains]
    return sorted(lines, key=lambda line: -len(line.share))


def _chained(pairs: NDArray[np.int64], count: int) -> list[tuple[NDArray[np.int64], bool]]:
    """Points in the order in which pairs join them; each has one or two neighbors."""
    beside: list[list[int]] = [[] for _ in range(count)]
    for a, b in pairs.tolist():
        beside[a].append(b)
        beside[b].append(a)
    seen = np.zeros(count, bool)
    chains = []
    starts = [n for n in range(count) if len(beside[n]) == 1] + list(range(count))
    for start in starts:
        if seen[start]:
            continue
        chain, at = [start], start
        seen[start] = True
        while (following := next((n for n in beside[at] if not seen[n]), None)) is not None:
            seen[following] = True
            chain.append(following)
            at = following
        chains.append((np.array(chain), start in beside[at] and len(chain) > 2))
    return chains
