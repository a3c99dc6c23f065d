"""Through-holes of a solid: how many, and a short loop at each."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.csgraph import dijkstra, minimum_spanning_tree
from shapely import MultiPoint

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.narrow_points import NarrowPoints
from moldwright.geometry.narrowest import Narrowest, narrowest_of
from moldwright.geometry.outline import least_rectangle_sides
from moldwright.geometry.sign import winding_numbers
from moldwright.geometry.solid import mesh_of, solid_of

ROOTS = 24
LEAST_WIDTH_MM = 1.5
Pairs = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Handle:
    """One through-hole: where it is narrowest, and how wide there, the greatest ball that passes through [mm]; the
    longer and the shorter side of the least rectangle about a short loop round it [mm]."""

    at: tuple[float, float, float]
    width_mm: float
    across_mm: tuple[float, float]


def genus_of(mesh: Mesh, coarse_mm: float) -> int:
    """How many through-holes one closed body has when it is simplified: 1 - (corners - edges + triangles) / 2.

    Parameters
    ----------
    mesh : one closed body [mm].
    coarse_mm : how far the simplified surface may move [mm].

    Source: Euler's formula.
    """
    return int(solid_of(mesh).simplify(coarse_mm).genus())


def find_handles(mesh: Mesh, coarse_mm: float) -> tuple[Handle, ...]:
    """The through-holes of one closed body that remain when it is simplified to `coarse_mm`.

    Their number is the genus. Loops come from trees and co-trees (Eppstein 2003, "Dynamic generators of
    topologically embedded graphs", from memory): for many roots, every edge in neither tree closes a loop; the
    shortest loop whose middle lies in the open is taken at each hole, and loops near a chosen one are passed over.
    Pinholes whose loop is that of a circle under 1.5 mm, which a coat closes, are not told. A hole's width is the
    greatest ball's that passes right through it.

    Parameters
    ----------
    mesh : one closed body [mm].
    coarse_mm : how far it may be simplified first [mm], >= 0.

    Source: Eppstein 2003; which loops are told is our own.
    """
    simple = solid_of(mesh).simplify(coarse_mm)
    genus = int(simple.genus())
    if genus <= 0:
        return ()
    small, body = mesh_of(simple), NarrowPoints(mesh)
    loops = _loops(small)
    middles = np.array([small.vertices[loop].mean(axis=0) for loop in loops])
    lengths = np.array([_length(small.vertices[loop]) for loop in loops])
    open_air = winding_numbers(small, middles) < 0.5
    order = np.lexsort((lengths, ~open_air))
    found: list[tuple[int, Narrowest]] = []
    for n in order:
        radius = lengths[n] / (2 * np.pi)
        if all(np.linalg.norm(middles[n] - middles[m]) > max(radius, lengths[m] / (2 * np.pi)) for m, _ in found):
            narrowest = narrowest_of(body, small.vertices[loops[n]])
            found += [(int(n), narrowest)] if narrowest is not None else []
        if len(found) == genus:
            break
    return tuple(
        Handle(narrowest.at, narrowest.width_mm, loop_sides(small.vertices[loops[n]]))
        for n, narrowest in found
        if lengths[n] / np.pi >= LEAST_WIDTH_MM
    )


def loop_sides(loop: NDArray[np.float64]) -> tuple[float, float]:
    """The longer and the shorter side of the least rectangle about a loop, seen square to the plane it lies in best.

    Parameters
    ----------
    loop : (n, 3) its points [mm], n >= 3.

    Source: the plane by least squares; `outline.least_rectangle_sides`.

    >>> loop_sides(np.array([[0.0, 0, 0], [0, 5, 0], [0, 5, 3], [0, 0, 3]]))
    (5.0, 3.0)
    """
    off = loop - loop.mean(axis=0)
    long, short = least_rectangle_sides(MultiPoint(off @ np.linalg.svd(off)[2][:2].T))
    return round(long, 6), round(short, 6)


def open_loop(mesh: Mesh) -> NDArray[np.float64] | None:
    """(n, 3) the shortest of the loops about through-holes whose middle lies in the open [mm]; None without one.

    Parameters
    ----------
    mesh : one closed body, no edge shared by more than two triangles [mm].

    Source: as `find_handles`.
    """
    corners = len(np.unique(mesh.faces))
    if corners - len(mesh.faces) // 2 >= 2:
        return None
    loops = [mesh.vertices[loop] for loop in _loops(mesh)]
    in_open = winding_numbers(mesh, np.array([loop.mean(axis=0) for loop in loops])) < 0.5
    return min((loop for loop, free in zip(loops, in_open, strict=True) if free), key=_length, default=None)


def _length(points: NDArray[np.float64]) -> float:
    return float(np.linalg.norm(points - np.roll(points, 1, axis=0), axis=1).sum())


def _edges(faces: NDArray[np.int32]) -> tuple[Pairs, Pairs]:
    """(e, 2) vertices and (e, 2) faces of every edge of a closed mesh."""
    sides = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]).astype(np.int64)
    owner = np.tile(np.arange(len(faces)), 3)
    ordered = np.sort(sides, axis=1)
    order = np.lexsort((ordered[:, 1], ordered[:, 0]))
    return ordered[order[::2]], np.stack([owner[order[::2]], owner[order[1::2]]], axis=1)


def _loops(mesh: Mesh) -> list[NDArray[np.int64]]:
    ends, sides = _edges(mesh.faces)
    length = np.linalg.norm(mesh.vertices[ends[:, 0]] - mesh.vertices[ends[:, 1]], axis=1)
    n = len(mesh.vertices)
    graph = coo_matrix((length, (ends[:, 0], ends[:, 1])), shape=(n, n)).tocsr()
    roots = np.unique(np.linspace(0, n - 1, ROOTS).astype(int))
    depth, before = dijkstra(graph, directed=False, indices=roots, return_predecessors=True)
    loops: list[NDArray[np.int64]] = []
    for number in range(len(roots)):
        loops += _loops_of_root(ends, sides, depth[number], before[number], len(mesh.faces))
    return loops


def _loops_of_root(
    ends: Pairs, sides: Pairs, depth: NDArray[np.float64], before: NDArray[np.int32], faces: int
) -> list[NDArray[np.int64]]:
    """Loops of the edges that are in neither the shortest-path tree nor the best tree of faces."""
    in_tree = (before[ends[:, 0]] == ends[:, 1]) | (before[ends[:, 1]] == ends[:, 0])
    rest = np.flatnonzero(~in_tree & np.isfinite(depth[ends]).all(axis=1))
    far = depth[ends[rest, 0]] + depth[ends[rest, 1]]
    weight = 1.0 + far.max() - far
    dual = csr_matrix((weight, (sides[rest, 0], sides[rest, 1])), shape=(faces, faces))
    tree = minimum_spanning_tree(dual).tocoo()
    kept = np.minimum(tree.row, tree.col).astype(np.int64) * faces + np.maximum(tree.row, tree.col)
    left = rest[~np.isin(sides[rest].min(axis=1) * faces + sides[rest].max(axis=1), kept)]
    return [_close(int(ends[e, 0]), int(ends[e, 1]), before) for e in left]


def _close(a: int, b: int, before: NDArray[np.int32]) -> NDArray[np.int64]:
    """The loop of an edge and the two tree paths to where they meet."""
    up_a, up_b = [a], [b]
    while before[up_a[-1]] >= 0:
        up_a.append(int(before[up_a[-1]]))
    while before[up_b[-1]] >= 0:
        up_b.append(int(before[up_b[-1]]))
    while len(up_a) > 1 and len(up_b) > 1 and up_a[-2] == up_b[-2]:
        up_a.pop()
        up_b.pop()
    return np.array(up_a + up_b[-2::-1])
