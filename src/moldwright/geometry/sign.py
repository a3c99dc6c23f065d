"""Inside or outside: by generalized winding number for scans, by counting crossings for clean solids."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import igl
import numba as nb
import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh

Mask = NDArray[np.bool_]
POINTS_AT_ONCE = 50_000


@nb.njit(cache=True)
def _count_crossings(a: Any, b: Any, c: Any, up: Any, crossings: Any, most: int) -> bool:
    """Add each triangle's crossing of the columns along z (units: steps) to the first point above it.

    Whether every count stayed within +-`most`: the caller takes wider counters where it did not.
    """
    sx, sy, sz = crossings.shape
    dx, dy = 1.370e-6, 0.713e-6
    for n in range(a.shape[0]):
        ax, ay, bx, by, cx, cy = a[n, 0] - dx, a[n, 1] - dy, b[n, 0] - dx, b[n, 1] - dy, c[n, 0] - dx, c[n, 1] - dy
        area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        if area == 0.0:
            continue
        i0, i1 = max(0, int(np.ceil(min(ax, bx, cx)))), min(sx - 1, int(np.floor(max(ax, bx, cx))))
        j0, j1 = max(0, int(np.ceil(min(ay, by, cy)))), min(sy - 1, int(np.floor(max(ay, by, cy))))
        for i in range(i0, i1 + 1):
            for j in range(j0, j1 + 1):
                wa = ((bx - i) * (cy - j) - (by - j) * (cx - i)) / area
                wb = ((cx - i) * (ay - j) - (cy - j) * (ax - i)) / area
                wc = 1.0 - wa - wb
                if wa < 0.0 or wb < 0.0 or wc < 0.0:
                    continue
                k = max(0, int(np.ceil(wa * a[n, 2] + wb * b[n, 2] + wc * c[n, 2])))
                if k >= sz:
                    continue
                crossings[i, j, k] += -1 if up[n] else 1
                if abs(int(crossings[i, j, k])) > most:
                    return False
    return True


@nb.njit(cache=True)
def _sum_columns(crossings: Any, inside: Any) -> None:
    """Mark the points whose winding number, the sum of the crossings below them in their column, is above 0."""
    for i in range(crossings.shape[0]):
        for j in range(crossings.shape[1]):
            winding = 0
            for k in range(crossings.shape[2]):
                winding += int(crossings[i, j, k])
                inside[i, j, k] = winding > 0


def inside_solid(solid: Mesh, grid: Grid) -> Mask:
    """Which points of the grid lie in a closed mesh: crossings counted along every column of the grid.

    Exact for closed, consistently wound meshes: bodies nested in one another or overlapping count by winding number
    > 0, however many. Source: the crossing count of a ray (Jordan's theorem) with signs; counters our own.

    Parameters
    ----------
    solid : a closed mesh, wound outward [mm].
    grid : where to ask.

    Returns
    -------
    grid.shape bool
    """
    corners = (solid.corners - grid.origin) / grid.step_mm
    a, b, c = (np.ascontiguousarray(corners[:, n]) for n in range(3))
    up = np.cross(b - a, c - a)[:, 2] > 0
    inside = np.empty(grid.shape, np.bool_)
    for counter in (np.int8, np.int32):
        crossings = np.zeros(grid.shape, counter)
        if _count_crossings(a, b, c, up, crossings, np.iinfo(counter).max - 1):
            break
    _sum_columns(crossings, inside)
    return inside


def _unwatched(share: float) -> None:
    """Progress that nobody watches."""


def winding_numbers(
    soup: Mesh, points: NDArray[np.float64], told: Callable[[float], None] = _unwatched
) -> NDArray[np.float64]:
    """(n,) generalized winding number of `soup` at (n, 3) points [mm].

    Source: Jacobson et al. 2013, "Robust inside-outside segmentation using generalized winding numbers"; Barill et al.
    2018, "Fast winding numbers for soups and clouds", through libigl. Approximate where the soup is far from a point.

    Parameters
    ----------
    soup : any triangles [mm].
    points : (n, 3) where to ask [mm].
    told : called with the share done after every 50,000 points; it may raise to cancel.
    """
    if len(points) == 0:
        return np.zeros(0)
    tree = igl.FastWindingNumberBVH()
    tree.init(np.ascontiguousarray(soup.vertices), soup.faces.astype(np.int64))
    numbers = np.empty(len(points))
    for first in range(0, len(points), POINTS_AT_ONCE):
        part = np.ascontiguousarray(points[first : first + POINTS_AT_ONCE])
        numbers[first : first + len(part)] = tree.winding_number(part)
        told((first + len(part)) / len(points))
    return numbers


def inside_soup(soup: Mesh, distance: Field, grid: Grid, told: Callable[[float], None] = _unwatched) -> Mask:
    """Which points lie in a triangle soup that may be open, self-intersecting or in several bodies.

    A grid edge whose two ends are both more than half a step from the surface cannot cross it, so all points that
    such edges connect share one sign: winding numbers are asked at the points next to the surface and once (at the
    point furthest from the surface) for every connected region. Our own, on winding numbers (Barill et al. 2018).

    Parameters
    ----------
    soup : any triangles, wound outward [mm].
    distance : grid.shape, to the nearest triangle [mm].
    grid : where to ask.
    told : called with the share done; it may raise to cancel.

    Returns
    -------
    grid.shape bool

    Source: our own, on winding numbers (Barill et al. 2018).
    """
    near = distance <= 0.5 * grid.step_mm
    labels, count = ndimage.label(~near)
    index = np.argwhere(near)
    furthest = _furthest_of_each(labels, distance, count)
    probes = np.concatenate([index, furthest])
    probes_mm = grid.at(probes)
    probes_mm[probes[:, 2] == 0, 2] += 0.01 * grid.step_mm
    inside_probe = winding_numbers(soup, probes_mm, told) > 0.5
    of_label = np.concatenate([[False], inside_probe[len(index) :]])
    inside = of_label[labels]
    inside[tuple(index.T)] = inside_probe[: len(index)]
    return inside


def _furthest_of_each(labels: NDArray[Any], distance: Field, count: int) -> NDArray[np.int64]:
    """(count, 3) index of one point deep in each labeled region."""
    flat = labels.ravel()
    order = np.full(count + 1, -1, np.int64)
    depth = np.full(count + 1, -1.0, np.float32)
    _deepest(flat, distance.ravel(), order, depth)
    return np.stack(np.unravel_index(order[1:], labels.shape), axis=1).astype(np.int64)


@nb.njit(cache=True)
def _deepest(labels: Any, distance: Any, order: Any, depth: Any) -> None:
    for n in range(labels.size):
        m = labels[n]
        if distance[n] > depth[m]:
            depth[m] = distance[n]
            order[m] = n
