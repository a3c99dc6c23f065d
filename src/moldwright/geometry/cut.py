"""The two-label minimum cut in which each label's space is closed along its own direction."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from ortools.graph.python.max_flow import SimpleMaxFlow

from moldwright.errors import ComputationFailed
from moldwright.geometry.grid import Field
from moldwright.geometry.shadow import DigitalLine, binary_shadow, digital_line, oriented
from moldwright.geometry.sign import Mask

UNIT = 100_000.0
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
    hidden: tuple[Field, Field],
    point_weight: float,
    area_weight: float,
) -> Split:
    """Label every free point 1 or 2 so that hidden points and the border between the labels cost least.

    E = point_weight * (sum of the hidden shares along each point's label) + area_weight * (border area in squared
    steps), where a point that sees out along its label's direction keeps the whole ray in its label. One minimum cut:
    the global optimum for the two given directions.

    Parameters
    ----------
    core : points of the body.
    free : points to be labeled (none of the core).
    directions : (2, 3) unit vectors.
    hidden : for each direction the share [0, 1] of each point's cell that is hidden along it.
    point_weight : cost of a hidden cell.
    area_weight : cost of a squared step of border.

    Source: a least cut by the greatest flow (Boykov & Kolmogorov 2004, "An experimental comparison of min-cut/max-flow
    algorithms for energy minimization in vision", IEEE PAMI 26 (9)), found by push-relabel (Goldberg & Tarjan 1988, "A
    new approach to the maximum-flow problem", Journal of the ACM 35 (4)) as OR-tools has it; the border's area by
    Cauchy-Crofton; that a label keeps its whole ray is our own.
    """
    number = np.full(core.shape, -1, np.int32)
    count = int(free.sum())
    number[free] = np.arange(count, dtype=np.int32)
    source, sink = count, count + 1
    flow = SimpleMaxFlow()
    _add_links(flow, number, area_weight)
    for label, direction in enumerate(directions):
        tails, heads = _forward_pairs(number, ~binary_shadow(core, direction), digital_line(direction, max(core.shape)))
        if label == 1:
            tails, heads = heads, tails
        flow.add_arcs_with_capacity(tails, heads, np.full(len(tails), FOREVER, np.int64))
        dear = (hidden[label] > 0) & free
        points = number[dear]
        cost = np.rint(hidden[label][dear] * point_weight * UNIT).astype(np.int64)
        end = np.full(len(points), sink if label == 0 else source, np.int32)
        flow.add_arcs_with_capacity(*((points, end) if label == 0 else (end, points)), cost)
    _anchor(flow, number, hidden, source, sink)
    if flow.solve(source, sink) != flow.OPTIMAL:
        raise ComputationFailed("cut-not-solved", "no optimum", None, "", "Report this commission.")
    side = np.zeros(count + 2, bool)
    side[np.asarray(flow.get_source_side_min_cut(), dtype=np.int64)] = True
    first = np.zeros(core.shape, bool)
    first[free] = side[:count]
    paid = hidden[0][first].sum(dtype=np.float64) + hidden[1][free & ~first].sum(dtype=np.float64)
    return Split(first, flow.optimal_flow() / UNIT, float(paid) * point_weight)


def _add_links(flow: SimpleMaxFlow, number: NDArray[np.int32], area_weight: float) -> None:
    for step, area in _half_neighbors():
        a, b = _pairs(number, step)
        capacity = np.full(len(a), max(1, round(area * area_weight * UNIT)), np.int64)
        flow.add_arcs_with_capacity(a, b, capacity)
        flow.add_arcs_with_capacity(b, a, capacity)


def _anchor(
    flow: SimpleMaxFlow, number: NDArray[np.int32], hidden: tuple[Field, Field], source: int, sink: int
) -> None:
    """A least pull of each point to the label along which less of it is hidden, so that ties fall the same way."""
    for label, better in enumerate((hidden[0] < hidden[1], hidden[1] < hidden[0])):
        points = number[better]
        points = points[points >= 0]
        one = np.ones(len(points), np.int64)
        end = np.full(len(points), source if label == 0 else sink, np.int32)
        flow.add_arcs_with_capacity(*((end, points) if label == 0 else (points, end)), one)
