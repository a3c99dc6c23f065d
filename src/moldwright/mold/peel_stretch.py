"""How far each loop of a glove must stretch to pass over all that lies beyond it."""

from __future__ import annotations

from collections import defaultdict

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError

from moldwright.mold.peel_parts import PeelPart, PeelParts
from moldwright.mold.peel_surface import PeelSurface

Floats = NDArray[np.float64]

LEAST_FREE = 0.05
"""So much of a loop's length gives way however thick it is packed: our own."""


def over_mm(surface: PeelSurface, parts: PeelParts) -> Floats:
    """(n,) the longest taut line round what each part's edge must pass [mm].

    That is the greatest of: the part's own loops, all together; each part within it; and, where it branches, each
    branch with the loop under the fork, seen along the way off, for while one branch leaves its sleeve the rubber
    still goes round the rest. The last branch to leave has no other beside it: the largest does not count there.

    Parameters
    ----------
    surface : the inner surface of the glove.
    parts : of it.

    Source: our own.
    """
    inner: dict[int, list[int]] = defaultdict(list)
    for number, part in enumerate(parts.all):
        inner[part.below].append(number)
    within = [parts.of_corner == number for number in range(len(parts.all))]
    found = np.zeros(len(parts.all))
    for number in range(len(parts.all) - 1, -1, -1):
        part, branches = parts.all[number], inner[number]
        reached = [_with_branch(part, surface.mesh.vertices[within[n]]) for n in branches] if len(branches) > 1 else []
        for branch in branches:
            within[number] |= within[branch]
        found[number] = max([round_all_mm(part), *found[branches], *sorted(reached)[:-1]])
    return found


def stretches(parts: PeelParts, over: Floats, opened: NDArray[np.bool_]) -> Floats:
    """(n,) how many times its own length each part's edge is stretched: `(over - stiff) / (own - stiff)`, 1 at least.

    Stiff rubber keeps its length, the rest of the loop stretches for it; `LEAST_FREE` of a loop counts as free at
    least. A handle's edges are cut open before anything is peeled, by its divider or through its web: 1. Where holes
    are stopped, rubber goes round all its edges together.

    Parameters
    ----------
    parts : of the surface.
    over : (n,) what each must pass, see `over_mm` [mm].
    opened : (n,) whose edges are cut open before, see `opened_handles`.

    Source: our own.
    """
    whole = np.array([round_all_mm(part) if part.handle else part.loops[0].length_mm for part in parts.all])
    stiff = np.array([sum(loop.stiff_mm for loop in part.loops) for part in parts.all])
    ratio = np.maximum(1.0, 1.0 + (over - whole) / np.maximum(whole - stiff, LEAST_FREE * whole))
    return np.where(opened, 1.0, ratio)


def round_all_mm(part: PeelPart) -> float:
    """Length of a taut line round all of a part's loops, seen along the way off, or as they look smallest [mm].

    Parameters
    ----------
    part : of a surface.

    Source: as `taut_mm`.
    """
    points, way = part.points, sum((loop.toward for loop in part.loops), np.zeros(3))
    ways = [way]
    if part.handle:
        ways.append(np.linalg.svd(points - points.mean(axis=0), full_matrices=False)[2][2])
    return min(taut_mm(points, each) for each in ways)


def _with_branch(part: PeelPart, branch: Floats) -> float:
    way = sum((loop.toward for loop in part.loops), np.zeros(3))
    return taut_mm(np.concatenate([part.points, branch]), way)


def taut_mm(points: Floats, way: Floats) -> float:
    """Length of a taut line round points that are seen along a way: the perimeter of their convex hull [mm].

    Parameters
    ----------
    points : (n, 3) [mm].
    way : (3,) not 0, or any way counts as up.

    Source: convex hulls by Qhull (scipy).

    >>> square = np.array([[0.0, 0, 0], [3, 0, 1], [3, 3, 0], [0, 3, 7]])
    >>> round(taut_mm(square, np.array([0.0, 0.0, 2.0])), 6)
    12.0
    """
    length = float(np.linalg.norm(way))
    unit = way / length if length > 1e-9 else np.array([0.0, 0.0, 1.0])
    across = np.linalg.svd(unit[None])[2][1:]
    flat = points @ across.T
    try:
        return float(ConvexHull(flat).area)
    except QhullError:
        return 2.0 * float(np.ptp(flat, axis=0).max(initial=0.0))
