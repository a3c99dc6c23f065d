"""Where a glove is slit: the way from the board to what is too tight that shows and costs least."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.csgraph import dijkstra

from moldwright.geometry.closest import away_from_lines, nearest_on_mesh
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import Rays
from moldwright.mold.peel_places import Peeled
from moldwright.mold.seam_stations import toward
from moldwright.plan.seam import ViewSide

Floats = NDArray[np.float64]
Numbers = NDArray[np.int64]

VIEWS, TILTS_DEG = 16, (0.0, 25.0, 55.0)
"""A place is looked at from so many sides and so far from above: our own."""
FRONT = 0.6
"""By how much more a look from the front counts than one from the side, and one from the back less: our own."""
LEAST, CREASED = 0.15, 0.6
"""What a place out of sight costs of one in full view, and how much less a crease costs, a ridge more: our own."""
OFF_SIDE = 6.0
"""By how much a place on the far side costs more than one on the chosen side: our own."""
STIFF, BY_SEAM, SEAM_MM = 2.0, 2.0, 12.0
"""How much dearer a cut is in thick packing, and where the shell's seam lies nearer than this: our own."""
SMOOTHINGS, STEP_EDGES, OFF_MM = 30, 1.0, 0.05


def corner_costs(peeled: Peeled, seam: Sequence[Floats], side: ViewSide | None) -> Floats:
    """(n,) what a millimeter of cut costs at each corner of the surface, above 0.

    Little where it is out of sight and in a crease; more at the front than at the back, on a far side where one is
    chosen, in thick packing and along the shell's seam, which would not hold it shut.

    Parameters
    ----------
    peeled : the glove as it comes off.
    seam : the lines of the shell's seam, each (m, 3) [mm].
    side : where it is wanted; None: where it shows least.

    Source: our own.
    """
    mesh = peeled.surface.mesh
    normals = corner_normals(mesh)
    views, weights = _views(side is None)
    cost = LEAST + _seen_from(mesh, normals, views, weights)
    cost *= 1.0 - CREASED * _creased(mesh, normals)
    if side is not None:
        cost *= 1.0 + OFF_SIDE * _off_side(mesh, normals, side)
    cost[peeled.surface.stiff] *= STIFF
    if seam:
        cost[away_from_lines(mesh.vertices, seam) < SEAM_MM] *= BY_SEAM
    return cost


def slit_paths(peeled: Peeled, tight: Numbers, costs: Floats) -> tuple[Floats, ...]:
    """Cuts that open every tight loop, each (n, 3) points over the surface from its low end up [mm].

    The first goes from the board to the farthest tight loop, each later one from the board or a cut before it. A way
    out of a part crosses the edge of every part that holds it.

    Parameters
    ----------
    peeled : the glove as it comes off.
    tight : numbers of the parts whose edges are too tight.
    costs : (n,) what a millimeter costs at each corner.

    Source: Dijkstra 1959 (scipy), along edges and across pairs of triangles.
    """
    mesh = peeled.surface.mesh
    graph = _graph(mesh, costs)
    cut = np.flatnonzero(peeled.surface.away_mm == 0.0)
    paths: list[Floats] = []
    for number in _farthest(peeled, tight):
        ends = np.unique(peeled.parts.all[number].loops[0].edges)
        far, before, _ = dijkstra(graph, directed=False, indices=cut, return_predecessors=True, min_only=True)
        path = _followed(before, int(ends[np.argmin(far[ends])]))[::-1]
        paths.append(_smoothed(mesh.vertices[path], mesh, peeled.surface.edge_mm))
        cut = np.union1d(cut, path)
    return tuple(paths)


def opened(peeled: Peeled, tight: Numbers) -> NDArray[np.bool_]:
    """(k,) the parts whose edges the cuts of `slit_paths` open.

    Parameters
    ----------
    peeled, tight : as there.

    Source: our own.
    """
    open_ = np.zeros(len(peeled.parts.all), bool)
    for number in tight.tolist():
        at = number
        while at >= 0 and not open_[at]:
            open_[at] = True
            at = peeled.parts.all[at].below
    return open_


def _farthest(peeled: Peeled, tight: Numbers) -> list[int]:
    """The tight parts that hold no other tight one, the farthest first."""
    holding: set[int] = set()
    for number in tight.tolist():
        at = peeled.parts.all[number].below
        while at >= 0 and at not in holding:
            holding.add(at)
            at = peeled.parts.all[at].below
    return sorted((n for n in tight.tolist() if n not in holding), key=lambda n: -peeled.parts.all[n].away_mm)


def corner_normals(mesh: Mesh) -> Floats:
    """(n, 3) outward unit vectors at the corners, each triangle by its area.

    Parameters
    ----------
    mesh : triangles [mm].

    Source: as Gouraud 1971 averages them (from memory).
    """
    a, b, c = mesh.corners.transpose(1, 0, 2)
    across = np.cross(b - a, c - a)
    sums = np.stack(
        [np.bincount(mesh.faces.ravel(), np.repeat(across[:, k], 3), len(mesh.vertices)) for k in range(3)], axis=1
    )
    unit: Floats = sums / np.maximum(np.linalg.norm(sums, axis=1, keepdims=True), 1e-12)
    return unit


def _views(front_counts: bool) -> tuple[Floats, Floats]:
    """(m, 3) ways toward viewers all round, and (m,) how much each counts."""
    ways = []
    for tilt in np.radians(TILTS_DEG):
        turn = 2 * np.pi * np.arange(VIEWS) / VIEWS
        level = np.cos(tilt) * np.stack([np.cos(turn), np.sin(turn)], axis=1)
        ways.append(np.column_stack([level, np.full(VIEWS, np.sin(tilt))]))
    views = np.concatenate(ways)
    return views, 1.0 + FRONT * (views @ toward(ViewSide.FRONT)) if front_counts else np.ones(len(views))


def _seen_from(mesh: Mesh, normals: Floats, views: Floats, weights: Floats) -> Floats:
    """(n,) how much each corner is looked at, 1 where an upright place is in full view."""
    rays, seen = Rays([mesh]), np.zeros(len(normals))
    origins = mesh.vertices + OFF_MM * normals
    for way, weight in zip(views, weights, strict=True):
        facing = np.flatnonzero(normals @ way > 0)
        free = rays.first_hits(origins[facing], way).solid < 0
        seen[facing[free]] += weight * (normals[facing[free]] @ way)
    share: Floats = seen * np.pi / weights.sum()
    return share


def _creased(mesh: Mesh, normals: Floats) -> Floats:
    """(n,) 1 in a sharp crease, -1 on a sharp ridge, 0 where it is flat."""
    a, b = _edges(mesh).T
    ends = np.concatenate([a, b]), np.concatenate([b, a])
    way = mesh.vertices[ends[1]] - mesh.vertices[ends[0]]
    lean = np.einsum("ij,ij->i", way, normals[ends[0]]) / np.maximum(np.linalg.norm(way, axis=1), 1e-12)
    count = np.maximum(np.bincount(ends[0], minlength=len(normals)), 1)
    found: Floats = np.clip(3.0 * np.bincount(ends[0], lean, len(normals)) / count, -1.0, 1.0)
    return found


def _off_side(mesh: Mesh, normals: Floats, side: ViewSide) -> Floats:
    """(n,) 0 where a place faces a side, or lies on it seen from the middle; 1 on the far side."""
    way, low_high = toward(side)[:2], mesh.vertices[:, :2]
    out = low_high - (low_high.min(axis=0) + low_high.max(axis=0)) / 2
    out /= np.maximum(np.linalg.norm(out, axis=1, keepdims=True), 1e-9)
    found: Floats = (1.0 - np.maximum(out @ way, normals[:, :2] @ way)) / 2
    return found


def _edges(mesh: Mesh) -> Numbers:
    faces = mesh.faces.astype(np.int64)
    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    return edges[edges[:, 0] < edges[:, 1]]


def _graph(mesh: Mesh, costs: Floats) -> csr_matrix:
    edges = np.concatenate([_edges(mesh), _across(mesh)])
    length = np.linalg.norm(mesh.vertices[edges[:, 0]] - mesh.vertices[edges[:, 1]], axis=1)
    weight = length * (costs[edges[:, 0]] + costs[edges[:, 1]]) / 2
    count = len(mesh.vertices)
    return coo_matrix((np.maximum(weight, 1e-9), (edges[:, 0], edges[:, 1])), shape=(count, count)).tocsr()


def _across(mesh: Mesh) -> Numbers:
    """Pairs of corners that lie across an edge from each other, each pair of triangles once."""
    faces = mesh.faces.astype(np.int64)
    a, b, c = (np.concatenate([faces[:, (k + turn) % 3] for k in range(3)]) for turn in range(3))
    order = np.lexsort((a > b, np.maximum(a, b), np.minimum(a, b)))
    pairs = c[order].reshape(-1, 2)
    return np.sort(pairs[pairs[:, 0] != pairs[:, 1]], axis=1)


def _followed(before: NDArray[np.int32], start: int) -> list[int]:
    path = [start]
    while before[path[-1]] >= 0:
        path.append(int(before[path[-1]]))
    return path


def _smoothed(points: Floats, mesh: Mesh, step_mm: float) -> Floats:
    """A path over the surface evened out, its ends kept, its points a step apart."""
    along = np.concatenate([[0.0], np.linalg.norm(np.diff(points, axis=0), axis=1).cumsum()])
    count = max(2, int(along[-1] / (STEP_EDGES * step_mm)) + 1)
    at = np.linspace(0.0, along[-1], count)
    out = np.stack([np.interp(at, along, points[:, k]) for k in range(3)], axis=1)
    for _ in range(SMOOTHINGS if count > 2 else 0):
        out[1:-1] = 0.5 * out[1:-1] + 0.25 * (out[:-2] + out[2:])
        out[1:-1] = nearest_on_mesh(out[1:-1], mesh)
    return out
