"""Open boundary loops: where a scan has no surface, above all under its base."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.edges import components, edges_of
from moldwright.scan.raw import Indices
from moldwright.scan.scan import Scan

Points = NDArray[np.float64]
LEAST_AREA = 0.02
LOW = 0.10
HIGHEST = 0.40
ABOVE = 0.001
MOST = 5000


@dataclass(frozen=True, slots=True, eq=False)
class Rim:
    """One boundary loop: the points on it and its area as a vector (half the sum of p x q along it)."""

    points: Points
    area: Points


def rims_of(vertices: Points, open_edges: Indices) -> tuple[Rim, ...]:
    """The boundary loops, those with the most edges first (no more than 5000)."""
    if not len(open_edges):
        return ()
    used, place = np.unique(open_edges, return_inverse=True)
    place = place.reshape(-1, 2)
    count, label = components(place.astype(np.int64), len(used))
    of_edge = label[place[:, 0]]
    order = np.argsort(of_edge, kind="stable")
    groups = np.split(order, np.cumsum(np.bincount(of_edge, minlength=count))[:-1])
    groups = sorted(groups, key=lambda group: -len(group))[:MOST]
    return tuple(_rim(vertices[open_edges[group, 0]], vertices[open_edges[group, 1]]) for group in groups)


def rims_of_scan(scan: Scan, vertices: Points) -> tuple[Rim, ...]:
    """The boundary loops of a scan whose vertices have been turned."""
    if scan.watertight:
        return ()
    return rims_of(vertices, edges_of(scan.mesh.faces, len(vertices)).open)


def _rim(start: Points, end: Points) -> Rim:
    middle = start.mean(axis=0)
    return Rim(start, np.cross(start - middle, end - middle).sum(axis=0) / 2)


def base_rim(rims: tuple[Rim, ...], low: Points, high: Points) -> float | None:
    """Height above the lowest point just above the rim of an open base; None where the base is closed.

    A rim belongs to the base if it starts in the lowest tenth, ends in the lowest two fifths, and its opening seen
    from below takes 2 % of the footprint's box or more (common practice, no source).
    """
    height = float(high[2] - low[2])
    footprint = float((high[0] - low[0]) * (high[1] - low[1]))
    tops = [
        float(rim.points[:, 2].max() - low[2])
        for rim in rims
        if rim.points[:, 2].min() - low[2] <= LOW * height and abs(rim.area[2]) >= LEAST_AREA * footprint
    ]
    below = [top for top in tops if top <= HIGHEST * height]
    return max(below) + ABOVE * height if below else None
