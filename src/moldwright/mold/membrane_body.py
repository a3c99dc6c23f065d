"""A body as a coarse obstacle, and the glove on it as an even sheet that fits it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import binary_dilation, find_objects, label
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from moldwright.geometry.distance import unsigned_band
from moldwright.geometry.field import Sampled, standing_band
from moldwright.geometry.grid import Grid
from moldwright.geometry.handles import open_loop
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.net import net_of
from moldwright.mold.membrane_fit import fit

Floats = NDArray[np.float64]

FINER = 3
"""The distance is sampled so many times finer than it is used, since it errs by a share of its step: our own."""
CLOSED = 1.5
"""Hollows narrower than twice so many steps are filled: our own."""
ROUNDS = 12
"""So often the corners are moved toward the middle of their neighbors and back onto the surface: our own."""
BELOW = 3
"""Layers under the board."""
SHORT_SHARE = 0.25
"""Edges shorter than this share of a step are collapsed: our own."""
MOST_HOLES = 12
"""So many through-holes are closed at most: our own."""
PLUG_SHARE = 0.75
"""Half the thickness of what closes a through-hole, in steps: our own."""


def coarse_field(body: Mesh, step_mm: float, off_mm: float, thin_mm: float = 0.0) -> Sampled:
    """Signed distance to the surface `off_mm` outside of a body that stands on z = 0.

    Hollows narrower than twice `CLOSED` steps are filled: no sheet of such triangles lies in them. The body goes on
    below the board as it slopes there, `BELOW` layers of it; the board lies half a step over the highest of these.

    Parameters
    ----------
    body : closed, standing on z = 0 [mm].
    step_mm : between two points [mm], > 0.
    off_mm : how far the surface lies outside [mm]; less than 0: inside.
    thin_mm : what ends freely and is thinner is left out [mm].

    Source: our own; see `geometry.field`; closing: Serra 1982, "Image analysis and mathematical morphology" (from
    memory).
    """
    low, high = body.bounds_mm
    closed_mm, fine = CLOSED * step_mm, step_mm / FINER
    margin = max(off_mm, 0.0) + closed_mm + 1.5 * step_mm
    first = np.floor((low - margin) / step_mm)
    counts = [int(n) for n in np.ceil((high + margin) / step_mm) - first]
    shape = (counts[0] * FINER + 1, counts[1] * FINER + 1, (int((high[2] + margin) / step_mm) + 1) * FINER)
    grid = Grid((first[0] * step_mm, first[1] * step_mm, fine / 2), fine, shape)
    exact = standing_band(body, grid, 4 * step_mm + abs(off_mm)) - np.float32(off_mm)
    under = BELOW * FINER
    lowest = Grid((*grid.origin_mm[:2], (0.5 - under) * fine), fine, (shape[0], shape[1], shape[2] + under))
    rises = exact[:, :, :1] - exact[:, :, 1:2]
    below = exact[:, :, :1] + rises * np.arange(under, 0, -1, dtype=np.float32)
    whole = _filled(Sampled(np.concatenate([below, exact], axis=2), lowest), closed_mm)
    whole = _without_limbs(Sampled(whole, lowest), thin_mm / 2) if thin_mm > 0 else whole
    field = np.ascontiguousarray(whole[::FINER, ::FINER, FINER // 2 :: FINER])
    origin = (*lowest.origin_mm[:2], (0.5 - BELOW) * step_mm)
    return Sampled(field, Grid(origin, step_mm, (field.shape[0], field.shape[1], field.shape[2])))


def _filled(sampled: Sampled, radius_mm: float) -> NDArray[np.float32]:
    """The field closed by a ball: where no ball of that radius comes to from outside is inside."""
    field, grid = sampled.field, sampled.grid
    grown = net_of(Sampled(field - np.float32(radius_mm), grid))
    reach = np.float32(2 * radius_mm)
    depth, _ = unsigned_band(grown, grid, float(reach))
    closed = np.minimum(field, np.float32(radius_mm) - np.minimum(depth, reach))
    return np.where(field < radius_mm, closed, field).astype(np.float32)


def _without_limbs(sampled: Sampled, radius_mm: float) -> NDArray[np.float32]:
    """The field opened by a ball: what no ball of that radius comes to from inside is outside, if it ends freely; what
    hangs on the rest at two places or more, as a leg on its plinth, stays."""
    opened = -_filled(Sampled(-sampled.field, sampled.grid), radius_mm)
    left, touching = opened < 0, np.ones((3, 3, 3), np.bool_)
    gone, count = label((sampled.field < 0) & ~left)
    for number, box in enumerate(find_objects(gone, count), start=1):
        place = tuple(slice(max(side.start - 1, 0), side.stop + 1) for side in box)
        mine = binary_dilation(gone[place] == number)
        if label(mine & left[place], touching)[1] > 1:
            opened[place] = np.where(mine, sampled.field[place], opened[place])
    return opened


def without_holes(sampled: Sampled) -> Sampled:
    """A coarse body with its through-holes closed where they are narrowest, as by a divider or a cut web.

    Parameters
    ----------
    sampled : of `coarse_field`.

    Source: our own.
    """
    for _ in range(MOST_HOLES):
        loop = open_loop(_capped(sheet_on(sampled)))
        if loop is None:
            break
        sampled = Sampled(np.minimum(sampled.field, _plug(loop, sampled.grid)), sampled.grid)
    return sampled


def _plug(loop: Floats, grid: Grid) -> NDArray[np.float32]:
    """Distance to the sheet between a loop and its middle, less half a thickness."""
    count = len(loop)
    around = np.arange(count)
    faces = np.stack([around, (around + 1) % count, np.full(count, count)], axis=1).astype(np.int32)
    distance, _ = unsigned_band(Mesh(np.vstack([loop, loop.mean(axis=0)]), faces), grid, 4 * grid.step_mm)
    return distance - np.float32(PLUG_SHARE * grid.step_mm)


def _capped(sheet: Mesh) -> Mesh:
    """The sheet closed over its open edges by one more corner for each."""
    vertices, faces = [sheet.vertices], [sheet.faces]
    count = len(sheet.vertices)
    for loop in open_edges(sheet):
        vertices.append(sheet.vertices[loop].mean(axis=0, keepdims=True))
        faces.append(np.stack([np.roll(loop, -1), loop, np.full(len(loop), count)], axis=1).astype(np.int32))
        count += 1
    return Mesh(np.vstack(vertices), np.vstack(faces))


def open_edges(sheet: Mesh) -> list[NDArray[np.int64]]:
    """The corners of every open edge in turn, the longest edge first.

    Parameters
    ----------
    sheet : triangles, no edge shared by more than two [mm].

    Source: our own.
    """
    f = sheet.faces.astype(np.int64)
    runs = np.concatenate([f[:, [0, 1]], f[:, [1, 2]], f[:, [2, 0]]])
    count = len(sheet.vertices)
    alone = runs[~np.isin(runs[:, 0] * count + runs[:, 1], runs[:, 1] * count + runs[:, 0])]
    after = dict(alone.tolist())
    loops = []
    while after:
        start, follows = after.popitem()
        loop = [start]
        while follows in after:
            loop.append(follows)
            follows = after.pop(follows)
        loops.append(np.array(loop, np.int64))
    return sorted(loops, key=len, reverse=True)


def sheet_on(sampled: Sampled) -> Mesh:
    """The surface of a coarse field over the board as even triangles, open where it stands on it.

    Parameters
    ----------
    sampled : of `coarse_field`.

    Source: corners moved toward the middle of their neighbors and back onto the surface, in turn: our own.
    """
    grid = sampled.grid
    first = BELOW - 1
    lowest = (grid.origin_mm[0], grid.origin_mm[1], -grid.step_mm / 2)
    over = Grid(lowest, grid.step_mm, (grid.shape[0], grid.shape[1], grid.shape[2] - first))
    net = _largest(_parted(net_of(Sampled(sampled.field[:, :, first:], over))))
    sides = np.concatenate([net.faces[:, [0, 1]], net.faces[:, [1, 2]], net.faces[:, [2, 0]]])
    edges, times = np.unique(np.sort(sides, axis=1), axis=0, return_counts=True)
    rim = np.zeros(len(net.vertices), np.bool_)
    rim[edges[times == 1]] = True
    x = net.vertices.copy()
    x[rim, 2] = 0.0
    fit(x, edges, rim, ROUNDS, np.asarray(sampled.field, np.float64), grid.origin, grid.step_mm)
    return _joined(Mesh(x, net.faces), edges, SHORT_SHARE * grid.step_mm)


def _joined(mesh: Mesh, edges: NDArray[np.int32], short_mm: float) -> Mesh:
    """Corners nearer than that along an edge made one."""
    x, count = mesh.vertices, len(mesh.vertices)
    short = edges[np.linalg.norm(x[edges[:, 0]] - x[edges[:, 1]], axis=1) < short_mm]
    graph = coo_matrix((np.ones(len(short)), (short[:, 0], short[:, 1])), shape=(count, count))
    _, part = connected_components(graph, directed=False)
    _, kept = np.unique(part, return_index=True)
    faces = part[mesh.faces]
    flat = (faces == np.roll(faces, 1, axis=1)).any(axis=1)
    return _largest(Mesh(x[kept], faces[~flat].astype(np.int32)))


def _parted(mesh: Mesh) -> Mesh:
    """Corners at which the surface touches itself told apart: each fan of triangles gets its own."""
    f = mesh.faces
    count, corners = len(f), np.arange(3 * len(f)).reshape(3, -1).T
    one = np.concatenate([f[:, a] for a in range(3)])
    sides = np.concatenate([np.sort(f[:, [a, (a + 1) % 3]], axis=1) for a in range(3)])
    key = sides[:, 0].astype(np.int64) * len(mesh.vertices) + sides[:, 1]
    order = np.argsort(key, kind="stable")
    _, start, times = np.unique(key[order], return_index=True, return_counts=True)
    twice = start[times == 2]
    pairs = [np.stack([order[twice], order[twice + 1]], axis=1)]
    pairs += [_across_solid(mesh, order[at : at + 4]) for at in start[times == 4]]
    first, second = np.concatenate(pairs).T
    links = []
    for turn in range(2):
        at_first = (first // count + turn) % 3
        end = f[first % count, at_first]
        at_second = np.where(f[second % count, second // count] == end, second // count, (second // count + 1) % 3)
        links.append(np.stack([corners[first % count, at_first], corners[second % count, at_second]], axis=1))
    linked = np.concatenate(links)
    graph = coo_matrix((np.ones(len(linked)), (linked[:, 0], linked[:, 1])), shape=(3 * count, 3 * count))
    _, fan = connected_components(graph, directed=False)
    _, index = np.unique(fan, return_index=True)
    return Mesh(mesh.vertices[one[index]], fan[corners].astype(np.int32))


def _across_solid(mesh: Mesh, sides: NDArray[np.int64]) -> NDArray[np.int64]:
    """Four triangles at one edge in pairs, each with the one across the solid between them."""
    f, count = mesh.faces, len(mesh.faces)
    face, at = sides % count, sides // count
    start, end, apex = (mesh.vertices[f[face, (at + turn) % 3]] for turn in range(3))
    forward = f[face, at] == f[face[0], at[0]]
    along, across = _unit(end[0] - start[0]), apex - start[0]
    u = _unit(across[0] - along * (across[0] @ along))
    turned = np.argsort(np.arctan2(across @ np.cross(along, u), across @ u))
    backward = np.flatnonzero(~forward[turned])
    one, other = turned[backward], turned[(backward + 1) % 4]
    if not forward[other].all():
        one, other = np.flatnonzero(~forward), np.flatnonzero(forward)
    return np.stack([sides[one], sides[other]], axis=1)


def _unit(vector: Floats) -> Floats:
    """Of length 1; 0 stays 0."""
    unit: Floats = vector / max(float(np.linalg.norm(vector)), 1e-12)
    return unit


def _largest(mesh: Mesh) -> Mesh:
    """The connected part with the most triangles."""
    a, b, c = mesh.faces.T
    count = len(mesh.vertices)
    graph = coo_matrix((np.ones(2 * len(a)), (np.r_[a, b], np.r_[b, c])), shape=(count, count))
    _, part = connected_components(graph, directed=False)
    faces = mesh.faces[part[a] == np.bincount(part[a]).argmax()]
    used, numbers = np.unique(faces, return_inverse=True)
    return Mesh(mesh.vertices[used], numbers.reshape(-1, 3).astype(np.int32))
