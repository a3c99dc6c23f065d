"""How narrow a through-hole is: the greatest ball that passes right through it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import breadth_first_order, minimum_spanning_tree
from scipy.spatial import Delaunay

from moldwright.geometry.narrow_points import FINE, NarrowPoints, Points

FINEST, LEAST_FINE_MM = 120.0, 0.25
"""Points near the hole lie apart by its width, taken as round, over `FINE`; where it is narrower, by less, but not less
than the loop's length over the first, nor than the last [mm]."""
SURE = 1.5
"""A ball's radius is taken where it is so many times as large as the points lie apart, else they are laid closer."""
NOISE, TRIES = 0.35, 3
"""A smaller share of that may slip between the points; a loop through which nothing passes is given up after these."""
AS_NARROW = 0.03
"""Room that differs by no greater share counts as the same."""

Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class _Ways:
    """The ways outside the body as a graph: (n, 3) crossings [mm], (m, 2) ways between them, the ball that passes each
    and where it is tightest [mm]."""

    places: Points
    ends: Ints
    ball_mm: Points
    tightest: Points


@dataclass(frozen=True, slots=True)
class Narrowest:
    """The greatest ball that passes through a hole: its diameter, and its middle at the tightest place [mm]."""

    at: tuple[float, float, float]
    width_mm: float


def narrowest_of(body: NarrowPoints, loop: Points) -> Narrowest | None:
    """The greatest ball that passes right through a hole and round back, clear of the body; None where the loop is
    round no hole.

    It is the bottleneck, what a rule laid across the hole's narrowest place reads, if that is round or long. Balls
    roll best along the edges of the Voronoi diagram of points on the surface; the way round that is linked with the
    loop an odd number of times and whose tightest place is widest is that of a maximum spanning tree and one edge.
    Within 3 % of closed forms. Where a hole is as narrow at the loop's middle, that is told as its place.

    Parameters
    ----------
    body : one closed body, made ready.
    loop : (n, 3) in order, closed, on its surface and round the hole [mm], n >= 3.

    Source: bottleneck paths by spanning trees (Hu 1961) over the Voronoi diagram, both from memory; the linking by
    crossings of a film over the loop, our own.
    """
    around_mm, missed = _length(loop), 0
    apart_mm, least_mm = around_mm / np.pi / FINE, max(around_mm / FINEST, LEAST_FINE_MM)
    while missed < TRIES:
        apart_mm = max(least_mm, apart_mm)
        ball_mm, at = _ball(body, loop, apart_mm)
        if ball_mm >= SURE * apart_mm or (apart_mm <= least_mm and ball_mm >= NOISE * apart_mm):
            return Narrowest(at, 2 * ball_mm)
        if apart_mm <= least_mm:
            return None
        missed += ball_mm < NOISE * apart_mm
        apart_mm /= 2
    return None


def _length(loop: Points) -> float:
    return float(np.linalg.norm(loop - np.roll(loop, 1, axis=0), axis=1).sum())


def _ball(body: NarrowPoints, loop: Points, apart_mm: float) -> tuple[float, tuple[float, float, float]]:
    """Radius of the greatest ball that goes through, seen by points so far apart, and where it is tightest [mm]."""
    points = body.about(loop, apart_mm)
    ways = _ways(points, body)
    through = _through(loop, ways.places[ways.ends[:, 0]], ways.places[ways.ends[:, 1]])
    closing = np.flatnonzero(_closing(ways, through))
    middle = loop.mean(axis=0)
    at, ball_mm = middle, 0.0
    if len(closing):
        widest = closing[np.argmax(ways.ball_mm[closing])]
        ball_mm = float(ways.ball_mm[widest])
        room_mm = float(np.linalg.norm(points - middle, axis=1).min())
        at = middle if abs(room_mm - ball_mm) <= AS_NARROW * ball_mm else ways.tightest[widest]
    return ball_mm, (float(at[0]), float(at[1]), float(at[2]))


def _ways(points: Points, body: NarrowPoints) -> _Ways:
    """The Voronoi diagram's edges outside the body, each with the ball that passes its tightest place."""
    whole = Delaunay(points)
    centers = _centers(points[whole.simplices])
    outside = body.outside(centers)
    one, across = np.nonzero(whole.neighbors > np.arange(len(centers))[:, None])
    kept = outside[one] & outside[whole.neighbors[one, across]]
    one, across = one[kept], across[kept]
    two = whole.neighbors[one, across]
    wall = np.stack([whole.simplices[one, (across + k) % 4] for k in (1, 2, 3)], axis=1)
    corner, along = points[wall[:, 0]], centers[two] - centers[one]
    share = np.einsum("ij,ij->i", corner - centers[one], along) / np.maximum(np.einsum("ij,ij->i", along, along), 1e-30)
    tightest = centers[one] + np.clip(share, 0.0, 1.0)[:, None] * along
    ball = np.linalg.norm(corner - tightest, axis=1)
    return _Ways(centers, np.stack([one, two], axis=1).astype(np.int64), ball, tightest)


def _centers(corners: Points) -> Points:
    """The middles of the balls through four points each; the points' own middle where they lie in a plane."""
    sides = corners[:, 1:] - corners[:, :1]
    flat = np.abs(np.linalg.det(sides)) < 1e-12 * np.linalg.norm(sides, axis=2).max(axis=1) ** 3
    sides[flat] = np.eye(3)
    middles = corners[:, 0] + np.linalg.solve(2 * sides, (sides**2).sum(axis=2)[:, :, None])[:, :, 0]
    middles[flat] = corners[flat].mean(axis=1)
    return middles


def _through(loop: Points, start: Points, end: Points) -> NDArray[np.bool_]:
    """Which straight ways cross a film over the loop, its fan from the middle, an odd number of times."""
    odd = np.zeros(len(start), dtype=bool)
    low, high = loop.min(axis=0), loop.max(axis=0)
    asked = np.flatnonzero(((np.minimum(start, end) <= high) & (np.maximum(start, end) >= low)).all(axis=1))
    base, along, middle = start[asked], end[asked] - start[asked], loop.mean(axis=0)
    for a, b in zip(loop - middle, np.roll(loop, -1, axis=0) - middle, strict=True):
        across = np.cross(along, b)
        scale = across @ a
        with np.errstate(divide="ignore", invalid="ignore"):
            off = base - middle
            u = np.einsum("ij,ij->i", off, across) / scale
            turned = np.cross(off, a)
            v = np.einsum("ij,ij->i", along, turned) / scale
            t = turned @ b / scale
        odd[asked] ^= (u >= 0) & (v >= 0) & (u + v <= 1) & (t >= 0) & (t < 1)
    return odd


def _closing(ways: _Ways, through: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Which ways close a round, with the tree of the widest ways from the open, that goes through the film."""
    count, (one, two) = len(ways.places), ways.ends.T
    tight = 1.0 + ways.ball_mm.max() - ways.ball_mm
    tree = minimum_spanning_tree(coo_matrix((tight, (one, two)), shape=(count, count)))
    crossed = coo_matrix((through.astype(np.int8) + 1, (one, two)), shape=(count, count)).tocsr()
    farthest = int(ways.ends[np.argmax(ways.ball_mm), 0])
    order, before = breadth_first_order(tree, farthest, directed=False)
    steps = order[1:]
    a, b = np.minimum(steps, before[steps]), np.maximum(steps, before[steps])
    crossing = np.asarray(crossed[a, b]).ravel() == 2
    side = np.zeros(count, dtype=bool)
    for node, parent, over in zip(steps.tolist(), before[steps].tolist(), crossing.tolist(), strict=True):
        side[node] = side[parent] ^ over
    reached = np.zeros(count, dtype=bool)
    reached[order] = True
    odd: NDArray[np.bool_] = (side[one] ^ side[two] ^ through) & reached[one]
    return odd
