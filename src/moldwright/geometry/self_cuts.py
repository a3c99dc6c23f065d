"""Where the surface of a mesh passes through itself: the segments along which its triangles cross."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

MOST_CELLS = 4_000_000
ENTRIES_PER_TRIANGLE = 16
MOST_TESTS = 400_000_000
MOST_CUTS = 2_000_000
TOUCH_MM = 1e-3


@dataclass(frozen=True, slots=True, eq=False)
class SelfCuts:
    """Pairs of triangles that cross.

    Parameters
    ----------
    pairs : (n, 2) int32, the two triangles' numbers.
    segments : (n, 2, 3) ends of the segment that each pair has in common [mm].
    complete : False where the search was given up: more pairs than could be looked at.
    """

    pairs: NDArray[np.int32]
    segments: NDArray[np.float64]
    complete: bool


def find_self_cuts(
    mesh: Mesh, part: NDArray[np.int32] | None = None, touch_mm: float = TOUCH_MM, most_tests: int = MOST_TESTS
) -> SelfCuts:
    """All pairs of triangles of one part that pass through each other, found with a lattice of cells.

    Triangles that only touch, lie in one plane or share an edge do not count. A pair crosses where an edge of one goes
    through the inside of the other (after Moller 1997, "A fast triangle-triangle intersection test", from memory), both
    ends and the other's border further off than rounding. The lattice is our own.

    Parameters
    ----------
    mesh : triangles, open or closed [mm].
    part : (m,) the part of each triangle; pairs of different parts are passed over. None: all are one part.
    touch_mm : what lies nearer than this only touches [mm].
    most_tests : pairs of triangles that are looked at before the search is given up.

    Source: Moller 1997, from memory; the lattice is our own.
    """
    corners = np.ascontiguousarray(mesh.corners.reshape(-1, 9))
    label = np.zeros(len(mesh.faces), np.int32) if part is None else np.ascontiguousarray(part, dtype=np.int32)
    low, cell_mm, shape = _lattice(mesh)
    starts, entries = _sorted_into_cells(corners, low, cell_mm, shape)
    pairs = np.empty((1024, 2), np.int32)
    while True:
        segments = np.empty((len(pairs), 2, 3))
        count, tests = _crossing_pairs(
            corners, mesh.faces, label, low, cell_mm, shape, starts, entries, pairs, segments,
            touch_mm, most_tests,
        )  # fmt: skip
        if count <= len(pairs) or len(pairs) >= MOST_CUTS:
            break
        pairs = np.empty((min(MOST_CUTS, 4 * len(pairs)), 2), np.int32)
    found = min(count, len(pairs))
    return SelfCuts(pairs[:found], segments[:found], count <= len(pairs) and tests <= most_tests)


def _lattice(mesh: Mesh) -> tuple[NDArray[np.float64], float, NDArray[np.int64]]:
    """Corner, cell size [mm] and shape of a lattice whose cells hold a few triangles each."""
    low, high = mesh.bounds_mm
    size = np.maximum(high - low, 1e-9)
    cell = max(2.0 * float(np.sqrt(mesh.area_mm2 / max(len(mesh.faces), 1))), float(size.max()) / 1000)
    boxes = np.ptp(mesh.corners, axis=1)
    while True:
        shape = np.floor(size / cell).astype(np.int64) + 1
        entries = np.prod(np.floor(boxes / cell) + 2, axis=1).sum()
        if (np.prod(shape) <= MOST_CELLS and entries <= ENTRIES_PER_TRIANGLE * len(boxes) + 1000) or (shape == 1).all():
            return np.asarray(low), cell, shape
        cell *= 1.3


@nb.njit(cache=True, inline="always")
def _cell(x: float, low: float, cell_mm: float, count: int) -> int:
    return min(max(int((x - low) / cell_mm), 0), count - 1)


@nb.njit(cache=True)
def _sorted_into_cells(corners: Any, low: Any, cell_mm: float, shape: Any) -> Any:
    """Triangles by the cells that their boxes meet: where each cell's list starts, and the lists."""
    starts = np.zeros(shape[0] * shape[1] * shape[2] + 1, np.int64)
    for fill in range(2):
        if fill:
            total = 0
            for n in range(starts.shape[0]):
                total, starts[n] = total + starts[n], total
            entries = np.empty(total, np.int32)
        else:
            entries = np.empty(0, np.int32)
        for n in range(corners.shape[0]):
            i0, i1, j0, j1, k0, k1 = _box_cells(corners, n, low, cell_mm, shape)
            for i in range(i0, i1 + 1):
                for j in range(j0, j1 + 1):
                    for k in range(k0, k1 + 1):
                        at = (i * shape[1] + j) * shape[2] + k
                        if fill:
                            entries[starts[at]] = n
                        starts[at] += 1
    for n in range(starts.shape[0] - 1, 0, -1):
        starts[n] = starts[n - 1]
    starts[0] = 0
    return starts, entries


@nb.njit(cache=True, inline="always")
def _box_cells(corners: Any, n: int, low: Any, cell_mm: float, shape: Any) -> Any:
    c = corners[n]
    x, y, z = shape
    i0, i1 = (
        _cell(min(c[0], c[3], c[6]), low[0], cell_mm, x),
        _cell(max(c[0], c[3], c[6]), low[0], cell_mm, x),
    )
    j0, j1 = (
        _cell(min(c[1], c[4], c[7]), low[1], cell_mm, y),
        _cell(max(c[1], c[4], c[7]), low[1], cell_mm, y),
    )
    k0, k1 = (
        _cell(min(c[2], c[5], c[8]), low[2], cell_mm, z),
        _cell(max(c[2], c[5], c[8]), low[2], cell_mm, z),
    )
    return i0, i1, j0, j1, k0, k1


@nb.njit(cache=True)
def _crossing_pairs(
    corners: Any, faces: Any, label: Any, low: Any, cell_mm: float, shape: Any, starts: Any, entries: Any,
    pairs: Any, segments: Any, touch_mm: float, most_tests: int,
) -> Any:  # fmt: skip
    """Fill in the crossing pairs; how many there are (perhaps more than fit) and how many pairs were looked at."""
    count, tests = 0, 0
    for at in range(starts.shape[0] - 1):
        first, last = starts[at], starts[at + 1]
        k = at % shape[2]
        j = (at // shape[2]) % shape[1]
        i = at // (shape[2] * shape[1])
        for p in range(first, last):
            n = entries[p]
            for q in range(p + 1, last):
                m = entries[q]
                tests += 1
                if label[n] != label[m] or not _boxes_meet(corners, n, m):
                    continue
                if not _is_first_cell(corners, n, m, low, cell_mm, shape, i, j, k):
                    continue
                if _cross(corners, faces, n, m, touch_mm, segments, min(count, pairs.shape[0] - 1)):
                    if count < pairs.shape[0]:
                        pairs[count, 0], pairs[count, 1] = n, m
                    count += 1
        if tests > most_tests or count > pairs.shape[0]:
            return count, tests
    return count, tests


@nb.njit(cache=True, inline="always")
def _boxes_meet(corners: Any, n: int, m: int) -> Any:
    a, b = corners[n], corners[m]
    for x in range(3):
        if max(a[x], a[x + 3], a[x + 6]) < min(b[x], b[x + 3], b[x + 6]):
            return False
        if max(b[x], b[x + 3], b[x + 6]) < min(a[x], a[x + 3], a[x + 6]):
            return False
    return True


@nb.njit(cache=True, inline="always")
def _is_first_cell(corners: Any, n: int, m: int, low: Any, cell_mm: float, shape: Any, i: int, j: int, k: int) -> bool:
    """Whether a cell is the one that holds the low corner of what two boxes share: each pair is looked at once."""
    a, b = corners[n], corners[m]
    for x in range(3):
        at = max(min(a[x], a[x + 3], a[x + 6]), min(b[x], b[x + 3], b[x + 6]))
        own = i if x == 0 else (j if x == 1 else k)
        if _cell(at, low[x], cell_mm, shape[x]) != own:
            return False
    return True


@nb.njit(cache=True)
def _cross(corners: Any, faces: Any, n: int, m: int, touch_mm: float, segments: Any, slot: int) -> Any:
    """Whether two triangles cross; the ends of what they share go into a slot."""
    shared, s = 0, -1
    for p in range(3):
        for q in range(3):
            if faces[n, p] == faces[m, q]:
                shared += 1
                s = p
    if shared >= 2:
        return False
    hits = 0
    for turn in range(2):
        u, v = (n, m) if turn == 0 else (m, n)
        for e in range(3):
            f = (e + 1) % 3
            if shared and (_among(faces, v, faces[u, e]) or _among(faces, v, faces[u, f])):
                continue
            share = _pierces(corners[u], 3 * e, 3 * f, corners[v], touch_mm)
            if share < 0.0:
                continue
            end = min(hits, 1)
            for x in range(3):
                segments[slot, end, x] = corners[u, 3 * e + x] + share * (corners[u, 3 * f + x] - corners[u, 3 * e + x])
            hits += 1
    if hits == 0:
        return False
    if hits == 1:
        for x in range(3):
            segments[slot, 1, x] = corners[n, 3 * s + x] if shared else segments[slot, 0, x]
    return True


@nb.njit(cache=True, inline="always")
def _among(faces: Any, n: int, vertex: int) -> Any:
    return faces[n, 0] == vertex or faces[n, 1] == vertex or faces[n, 2] == vertex


@nb.njit(cache=True)
def _pierces(u: Any, e: int, f: int, v: Any, touch_mm: float) -> Any:
    """How far along an edge of `u` it goes through the inside of `v`, a share of its length; -1 where it does not."""
    ax, ay, az = v[0], v[1], v[2]
    bx, by, bz = v[3] - ax, v[4] - ay, v[5] - az
    cx, cy, cz = v[6] - ax, v[7] - ay, v[8] - az
    px, py, pz = u[e] - ax, u[e + 1] - ay, u[e + 2] - az
    qx, qy, qz = u[f] - ax, u[f + 1] - ay, u[f + 2] - az
    nx, ny, nz = by * cz - bz * cy, bz * cx - bx * cz, bx * cy - by * cx
    area = np.sqrt(nx * nx + ny * ny + nz * nz)
    dp = nx * px + ny * py + nz * pz
    dq = nx * qx + ny * qy + nz * qz
    near = touch_mm * area
    if not ((dp > near and dq < -near) or (dp < -near and dq > near)):
        return -1.0
    t = dp / (dp - dq)
    hx, hy, hz = px + t * (qx - px), py + t * (qy - py), pz + t * (qz - pz)
    beta = ((hy * cz - hz * cy) * nx + (hz * cx - hx * cz) * ny + (hx * cy - hy * cx) * nz) / area
    gamma = ((by * hz - bz * hy) * nx + (bz * hx - bx * hz) * ny + (bx * hy - by * hx) * nz) / area
    long_b = np.sqrt(bx * bx + by * by + bz * bz)
    long_c = np.sqrt(cx * cx + cy * cy + cz * cz)
    long_a = np.sqrt((bx - cx) ** 2 + (by - cy) ** 2 + (bz - cz) ** 2)
    if beta <= touch_mm * long_c or gamma <= touch_mm * long_b or area - beta - gamma <= touch_mm * long_a:
        return -1.0
    return t
