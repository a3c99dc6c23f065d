"""The two-label minimum cut in which each label's space is closed along its own direction."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from ortools.graph.python.max_flow import SimpleMaxFlow

from moldwright.errors import ComputationFailed
from moldwright.geometry.shadow import DigitalLine, binary_shadow, digital_line, oriented
from moldwright.geometry.sign import Mask

UNIT = 1000.0
FOREVER = 1 << 40
# Shares of the 13 undirected neighbor directions in Cauchy-Crofton's formula: Voronoi areas on the sphere
# (Lindblad 2005, "Surface area estimation of digitized 3D objects", table of 26-neighborhood weights; from memory).
FACE_SHARE, EDGE_SHARE, CORNER_SHARE = 0.091556, 0.073961, 0.070391


@dataclass(frozen=True, slots=True, eq=False)
class Split:
    """`first` marks the points of label 1 (of the free points); `energy` in the unit of the point's weight."""

    first: Mask
    energy: float
    hidden: float


def _half_neighbors() -> list[tuple[tuple[int, int, int], float]]:
    """The 13 undirected neighbor steps with the area in squared steps that one cut link stands for."""
    out = []
    share = {1: FACE_SHARE, 2: EDGE_SHARE, 3: CORNER_SHARE}
    for a in (-1, 0, 1):
        for b in (-1, 0, 1):
            for c in (-1, 0, 1):
                if (a, b, c) > (0, 0, 0):
                    order = abs(a) + abs(b) + abs(c)
                    out.append(((a, b, c), 2 * share[order] / order**0.5))
    return out


def _pairs(number: NDArray[np.int32], step: tuple[int, int, int]) -> tuple[NDArray[np.int32], NDArray[np.int32]]:
    """Numbers of all free points and of their neighbors at `step`, where both are free."""
    here, there = [], []
    for s, n in zip(step, number.shape, strict=True):
        here.append(slice(max(0, -s), min(n, n - s)))
        there.append(slice(max(0, s), min(n, n + s)))
    a, b = number[tuple(here)].ravel(), number[tuple(there)].ravel()
    both = (a >= 0) & (b >= 0)
    return a[both], b[both]


def _forward_pairs(
    number: NDArray[np.int32], seen: Mask, line: DigitalLine
) -> tuple[NDArray[np.int32], NDArray[np.int32]]:
    """Numbers of free points that see out along the line (`seen`), and of the free points one step on."""
    view, open_ = oriented(number, line), oriented(seen, line)
    tails, heads = [], []
    for s in range(view.shape[0] - 1):
        da, db = (int(v) for v in line.step_of[s])
        na, nb = view.shape[1:]
        here = (slice(max(0, -da), min(na, na - da)), slice(max(0, -db), min(nb, nb - db)))
        there = (slice(max(0, da), min(na, na + da)), slice(max(0, db), min(nb, nb + db)))
        a, b = view[s][here], view[s + 1][there]
        both = (a >= 0) & (b >= 0) & open_[s][here]
        tails.append(a[both])
        heads.append(b[both])
    return np.concatenate(tails), np.concatenate(heads)


def two_way_cut(
    core: Mask,
    free: Mask,
    directions: NDArray[np.float64],
    point_weight: float,
    area_weight: float,
) -> Split:
    """Label every free point 1 or 2 so that hidden points and the border between the labels cost least.

    E = point_weight * (points hidden along their label's direction) + area_weight * (border area in squared steps),
    where a point that sees out along its label's direction keeps the whole ray in its label. One minimum cut: the
    global optimum for the two given directions.

    Parameters
    ----------
    core : points of the body.
    free : points to be labeled (none of the core).
    directions : (2, 3) unit vectors.
    """
    number = np.full(core.shape, -1, np.int32)
    count = int(free.sum())
    number[free] = np.arange(count, dtype=np.int32)
    hidden = [binary_shadow(core, direction) for direction in directions]
    source, sink = count, count + 1
    flow = SimpleMaxFlow()
    _add_links(flow, number, area_weight)
    for label, (dark, direction) in enumerate(zip(hidden, directions, strict=True)):
        line = digital_line(direction, max(core.shape))
        tails, heads = _forward_pairs(number, ~dark, line)
        if label == 1:
            tails, heads = heads, tails
        flow.add_arcs_with_capacity(tails, heads, np.full(len(tails), FOREVER, np.int64))
        points = number[dark & free]
        cost = np.full(len(points), round(point_weight * UNIT), np.int64)
        ends = (points, np.full(len(points), sink, np.int32)) if label == 0 else (np.full(len(points), source, np.int32), points)
        flow.add_arcs_with_capacity(*ends, cost)
    _anchor(flow, number, hidden, source, sink)
    if flow.solve(source, sink) != flow.OPTIMAL:
        raise ComputationFailed("cut-not-solved", "no optimum", None, "", "Report this commission.")
    side = np.zeros(count + 2, bool)
    side[np.asarray(flow.get_source_side_min_cut(), dtype=np.int64)] = True
    first = np.zeros(core.shape, bool)
    first[free] = side[:count]
    dark_points = int((hidden[0] & first).sum() + (hidden[1] & free & ~first).sum())
    return Split(first, flow.optimal_flow() / UNIT, dark_points * point_weight)


def _add_links(flow: SimpleMaxFlow, number: NDArray[np.int32], area_weight: float) -> None:
    for step, area in _half_neighbors():
        a, b = _pairs(number, step)
        capacity = np.full(len(a), max(1, round(area * area_weight * UNIT)), np.int64)
        flow.add_arcs_with_capacity(a, b, capacity)
        flow.add_arcs_with_capacity(b, a, capacity)


def _anchor(flow: SimpleMaxFlow, number: NDArray[np.int32], hidden: list[Mask], source: int, sink: int) -> None:
    """A least pull of each point to the label that alone sees out, so that neither label stays empty for nothing."""
    for own, other, label in ((hidden[0], hidden[1], 0), (hidden[1], hidden[0], 1)):
        points = number[~own & other]
        points = points[points >= 0]
        one = np.ones(len(points), np.int64)
        if label == 0:
            flow.add_arcs_with_capacity(np.full(len(points), source, np.int32), points, one)
        else:
            flow.add_arcs_with_capacity(points, np.full(len(points), sink, np.int32), one)
