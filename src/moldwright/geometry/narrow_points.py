"""Points on a body's surface that show how narrow a through-hole is: the closer together the narrower the room is."""

from __future__ import annotations

from math import ceil

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import Rays

FINE = 6.0
"""Points lie apart by the room before them over this."""
COARSE = 20.0
"""Where the room is wide they lie apart by the body's size over this."""
REACH = 1.2
"""What is near: within so many times the loop's reach from its middle."""
AROUND = 3.0
"""How far the points stand that close the room round the body, in body sizes."""
JITTER_MM = 1e-3
OFF_MM = 1e-3
"""So far off the surface rays start."""
LOOKED = np.array([0.42, 0.57, 0.7]) / np.linalg.norm([0.42, 0.57, 0.7])
"""Along which it is looked whether a point is outside: along no face of what is built square."""
MOST = 200_000
"""No more points than about this are tried in narrow room, those near the hole first: our own."""

Points = NDArray[np.float64]


class NarrowPoints:
    """Points on a body, for one hole after another.

    Parameters
    ----------
    mesh : one closed body [mm].
    """

    def __init__(self, mesh: Mesh) -> None:
        low, high = mesh.bounds_mm
        self._middle, self._size_mm = (low + high) / 2, float(np.linalg.norm(high - low))
        self._corners = _parted(mesh.corners, self._size_mm / COARSE)
        middles = self._corners.mean(axis=1)
        normal = _normals(self._corners)
        self._long_mm, self._high_mm, _ = _laid(self._corners)
        self._rays, self._facing = Rays([mesh]), _normals(mesh.corners) @ LOOKED
        self._room_mm = self._rays.first_hits(middles + OFF_MM * normal, normal).distance_mm.astype(np.float64)
        self._middles = middles

    def outside(self, points: Points) -> NDArray[np.bool_]:
        """(n,) which points lie outside the body: a ray from there meets nothing, or a face from before.

        Parameters
        ----------
        points : (n, 3) [mm].

        Source: geometry.
        """
        face = self._rays.first_hits(points, LOOKED).face
        found: NDArray[np.bool_] = (face < 0) | (self._facing[face] < 0.0)
        return found

    def about(self, loop: Points, apart_mm: float) -> Points:
        """(n, 3) points on the surface, dense round a hole and in narrow room, and some far round the body [mm].

        Parameters
        ----------
        loop : (n, 3) round the hole, closed [mm].
        apart_mm : how far points lie apart at the hole; in narrower room elsewhere they lie no closer.

        Source: our own.
        """
        middle = loop.mean(axis=0)
        reach_mm = REACH * float(np.linalg.norm(loop - middle, axis=1).max()) + apart_mm
        dense = _spread(_near(self._corners, middle, reach_mm), apart_mm)
        found = [dense[np.linalg.norm(dense - middle, axis=1) <= reach_mm]]
        own_mm = self._apart_mm(middle, apart_mm)
        level = np.floor(np.log2(own_mm / apart_mm))
        found += [_spread(self._corners[level == n], apart_mm * 2.0**n) for n in np.unique(level)]
        points = np.concatenate([*found, _sphere(400) * AROUND * self._size_mm + self._middle])
        shaken: Points = points + np.random.default_rng(1).uniform(-JITTER_MM, JITTER_MM, points.shape)
        return shaken

    def _apart_mm(self, middle: Points, apart_mm: float) -> Points:
        """How far points lie apart on each triangle: by the room before it, but wide where there would be too many."""
        wide_mm = max(apart_mm, self._size_mm / COARSE)
        own_mm = np.clip(self._room_mm / FINE, apart_mm, wide_mm)
        order = np.argsort(np.linalg.norm(self._middles - middle, axis=1))
        count = np.where(own_mm < wide_mm, (2 * self._long_mm / own_mm + 2) * (self._high_mm / own_mm + 1), 0.0)
        own_mm[order[np.cumsum(count[order]) > MOST]] = wide_mm
        return own_mm


def _normals(corners: Points) -> Points:
    """(n, 3) outward unit normals."""
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals: Points = across / np.maximum(np.linalg.norm(across, axis=1), 1e-12)[:, None]
    return normals


def _spread(corners: Points, apart_mm: float) -> Points:
    """Points on triangles, one in each cell half as wide as they may lie apart."""
    cell_mm = apart_mm / 2
    long_mm, high_mm, turned = _laid(corners)
    parts = np.maximum(1, np.ceil(np.column_stack([long_mm, high_mm]) / cell_mm).astype(int))
    found = [np.empty((0, 3))]
    for row in np.unique(parts, axis=0):
        mine = turned[(parts == row).all(axis=1)]
        found.append((_shares(*row.tolist()) @ mine).reshape(-1, 3))
    every = np.concatenate(found)
    kept = np.sort(np.unique(np.rint(every / cell_mm).astype(np.int64), axis=0, return_index=True)[1])
    return every[kept]


def _laid(corners: Points) -> tuple[Points, Points, Points]:
    """(n,) length of triangles' longest sides and their height over it [mm], (n, 3, 3) corners with the last off it."""
    each, sides = np.arange(len(corners)), _sides(corners)
    longest = sides.argmax(axis=1)
    turned = np.stack([corners[each, (longest + k) % 3] for k in (0, 2, 1)], axis=1)
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    long_mm = np.maximum(sides[each, longest], 1e-12)
    return long_mm, np.linalg.norm(across, axis=1) / long_mm, turned


def _shares(long: int, high: int) -> Points:
    """(k, 3) shares of the corners, of points in rows along the longest side, so many parts of it and of the height."""
    rows = []
    for row in range(high + 1):
        up = row / high
        along = np.linspace(0.0, 1.0, ceil(long * (1.0 - up)) + 1)
        rows.append(np.column_stack([(1.0 - up) * (1.0 - along), (1.0 - up) * along, np.full(len(along), up)]))
    return np.concatenate(rows)


def _near(corners: Points, middle: Points, reach_mm: float) -> Points:
    """(n, 3, 3) what of triangles may lie near a place: larger ones are halved, and parts that lie far off dropped."""
    near = [np.empty((0, 3, 3))]
    while len(corners):
        sides = _sides(corners)
        longest = sides.max(axis=1)
        close = np.linalg.norm(corners - middle, axis=2).min(axis=1) <= reach_mm + longest
        small = longest <= reach_mm
        near.append(corners[close & small])
        corners = _halved(corners[close & ~small], sides[close & ~small])
    return np.concatenate(near)


def _parted(corners: Points, longest_mm: float) -> Points:
    """(n, 3, 3) triangles halved until none has a longer side."""
    done = [np.empty((0, 3, 3))]
    while len(corners):
        sides = _sides(corners)
        small = sides.max(axis=1) <= longest_mm
        done.append(corners[small])
        corners = _halved(corners[~small], sides[~small])
    return np.concatenate(done)


def _halved(corners: Points, sides: Points) -> Points:
    """(2 n, 3, 3) triangles parted from the middle of their longest sides."""
    each, longest = np.arange(len(corners)), sides.argmax(axis=1)
    a, b, c = (corners[each, (longest + k) % 3] for k in range(3))
    middle = (a + c) / 2
    return np.concatenate([np.stack([middle, a, b], axis=1), np.stack([c, middle, b], axis=1)])


def _sides(corners: Points) -> Points:
    """(n, 3) lengths of the sides that end in each corner, from the one before."""
    lengths: Points = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2)
    return lengths


def _sphere(count: int) -> Points:
    """Points all over a ball of radius 1, by the golden angle."""
    n = np.arange(count) + 0.5
    up, turn = 1 - 2 * n / count, np.pi * (3 - np.sqrt(5.0)) * n
    flat = np.sqrt(1 - up**2)
    return np.stack([flat * np.cos(turn), flat * np.sin(turn), up], axis=1)
