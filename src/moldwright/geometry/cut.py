"""Labels for points such that each label's space is closed along its own direction, by minimum cuts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numba as nb
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

Labels = NDArray[np.int8]
Points = NDArray[np.int32]


@dataclass(frozen=True, slots=True, eq=False)
class WayOff:
    """A direction along which a label may be drawn off.

    Parameters
    ----------
    hidden : (n,) share of each free point's cell that is hidden along it, 0 to 1.
    cost : (n,) what that costs, in the cut's whole numbers.
    sees : (n,) which free points see out along it.
    tails, heads : those that do, and the next free point on their way.
    """

    hidden: NDArray[np.float32]
    cost: NDArray[np.int64]
    sees: Mask
    tails: Points
    heads: Points


class Labeling:
    """Free points that are to be labeled so that hidden points and the border between labels cost least.

    E = point_weight * (sum of the hidden shares along each point's label) + area_weight * (border area in squared
    steps), where a point that sees out along its label's direction keeps the whole ray in its label; where labels are
    drawn off in their order, in its label or earlier ones, which have left by then.

    Parameters
    ----------
    core : points of the body.
    free : points to be labeled (none of the core).
    point_weight : cost of a hidden cell.
    area_weight : cost of a squared step of border.

    Source: the border's area by Cauchy-Crofton; that a label keeps its whole ray is our own.
    """

    def __init__(self, core: Mask, free: Mask, point_weight: float, area_weight: float) -> None:
        self.core, self.free, self.point_weight = core, free, point_weight
        self.count = int(free.sum())
        self._number = np.full(free.shape, -1, np.int32)
        self._number[free] = np.arange(self.count, dtype=np.int32)
        links = [(_pairs(self._number, step), area) for step, area in _half_neighbors()]
        self._one = np.concatenate([one for (one, _), _ in links])
        self._other = np.concatenate([other for (_, other), _ in links])
        self._area = np.concatenate(
            [np.full(len(one), max(1, round(area * area_weight * UNIT))) for (one, _), area in links]
        )

    def way(self, direction: NDArray[np.float64], hidden: Field) -> WayOff:
        """What a direction hides, and which points keep their rays along it.

        Parameters
        ----------
        direction : (3,) unit vector.
        hidden : the share [0, 1] of each point's cell that is hidden along it.

        Source: our own.
        """
        share = hidden[self.free].astype(np.float32)
        cost = np.rint(share.astype(np.float64) * (self.point_weight * UNIT)).astype(np.int64)
        line, seen = digital_line(direction, max(self.free.shape)), ~binary_shadow(self.core, direction)
        return WayOff(share, cost, seen[self.free], *_forward_pairs(self._number, seen, line))

    def hidden(self, labels: Labels, ways: Sequence[WayOff]) -> float:
        """What the hidden points of a labeling cost.

        Parameters
        ----------
        labels : (n,) a label of each free point.
        ways : of each label.

        Source: our own.
        """
        paid = sum(way.hidden[labels == n].sum(dtype=np.float64) for n, way in enumerate(ways))
        return float(paid) * self.point_weight

    def energy(self, labels: Labels, ways: Sequence[WayOff]) -> float:
        """What a labeling costs.

        Parameters
        ----------
        labels : (n,) a label of each free point.
        ways : of each label.

        Source: our own.
        """
        paid = sum(int(way.cost[labels == n].sum()) for n, way in enumerate(ways))
        border = int(self._area[labels[self._one] != labels[self._other]].sum())
        return (paid + border) / UNIT

    def moved(
        self,
        labels: Labels,
        ways: Sequence[WayOff],
        into: int,
        besides: NDArray[np.float32] | None = None,
        open_: Mask | None = None,
        in_order: bool = False,
    ) -> Labels:
        """The labeling that costs least of all in which any points went over to one label: a minimum cut.

        Of two labels with all points in one of them it is the global optimum. Each label's space stays closed along
        its direction if it was.

        Parameters
        ----------
        labels : (n,) a label of each free point, each label's space closed along its direction.
        ways : of each label.
        into : the label that may gain points.
        besides : (k, n) what each label costs each point besides, where it counts in no energy.
        open_ : (n,) which points may go over; None: all.
        in_order : the labels are drawn off in their order, the first one first; else in any.

        Raises ComputationFailed where the cut is not solved.

        Source: alpha expansion (Boykov, Veksler & Zabih 2001, "Fast approximate energy minimization via graph cuts",
        IEEE PAMI 23 (11)); a least cut by the greatest flow (Boykov & Kolmogorov 2004, "An experimental comparison of
        min-cut/max-flow algorithms for energy minimization in vision", IEEE PAMI 26 (9)), found by push-relabel
        (Goldberg & Tarjan 1988, "A new approach to the maximum-flow problem", Journal of the ACM 35 (4)) as OR-tools
        has it; that rays are kept through a move is our own.
        """
        flow, source, sink = SimpleMaxFlow(), self.count, self.count + 1
        goes = labels != into
        if open_ is not None:
            goes &= open_
        more = _more(labels, ways, into)
        if besides is not None:
            own = besides[labels, np.arange(self.count)]
            more += np.rint((besides[into] - own).astype(np.float64) * UNIT).astype(np.int64)
        flow.add_arcs_with_capacity(*_links(self._one, self._other, self._area, labels, np.int8(into), goes, more))
        _add_rays(flow, _kept(labels, ways, into, goes, in_order), goes, more)
        flow.add_arc_with_capacity(source, sink, 0)  # so that both are there where no point is dear
        free = np.arange(self.count, dtype=np.int32)
        dear, cheap = free[goes & (more > 0)], free[goes & (more < 0)]
        flow.add_arcs_with_capacity(dear, np.full(len(dear), sink, np.int32), more[dear])
        flow.add_arcs_with_capacity(np.full(len(cheap), source, np.int32), cheap, -more[cheap])
        if flow.solve(source, sink) != flow.OPTIMAL:
            raise ComputationFailed("cut-not-solved", "no optimum", None, "", "Report this commission.")
        side = np.zeros(self.count + 2, bool)
        side[np.asarray(flow.get_source_side_min_cut(), dtype=np.int64)] = True
        return np.where(side[: self.count], np.int8(into), labels).astype(np.int8)

    def on_grid(self, labels: Labels) -> NDArray[np.int8]:
        """Labels at their points, -1 elsewhere.

        Parameters
        ----------
        labels : (n,) a label of each free point.

        Source: our own.
        """
        out = np.full(self.free.shape, -1, np.int8)
        out[self.free] = labels
        return out


def _more(labels: Labels, ways: Sequence[WayOff], into: int) -> NDArray[np.int64]:
    """What each point costs more in a label than where it is, and a least pull to where less of it is hidden, so that
    ties fall the same way."""
    cost, hidden = np.zeros(len(labels), np.int64), np.zeros(len(labels), np.float32)
    for n, way in enumerate(ways):
        own = labels == n
        cost[own], hidden[own] = way.cost[own], way.hidden[own]
    pull: NDArray[np.int64] = np.sign(ways[into].hidden - hidden).astype(np.int64)
    return ways[into].cost - cost + pull


@nb.njit(cache=True)
def _links(
    one: Points, other: Points, area: NDArray[np.int64], labels: Labels, into: int, goes: Mask, more: NDArray[np.int64]
) -> tuple[Points, Points, NDArray[np.int64]]:
    """Arcs of the border between neighbors that may both go over; what a neighbor that does not go pays or spares is
    put on `more`, as is what one of two that differ pays as long as it stays."""
    tails, heads = np.empty(2 * len(one), np.int32), np.empty(2 * len(one), np.int32)
    room = np.empty(2 * len(one), np.int64)
    count = 0
    for n in range(len(one)):
        a, b, paid = one[n], other[n], area[n]
        apart = labels[a] != labels[b]
        if goes[a] and goes[b]:
            tails[count], heads[count], room[count] = a, b, paid
            count += 1
            if apart:
                more[a] -= paid
            else:
                tails[count], heads[count], room[count] = b, a, paid
                count += 1
        elif goes[a] or goes[b]:
            goer, stayer = (a, b) if goes[a] else (b, a)
            if labels[stayer] == into:
                more[goer] -= paid
            elif not apart:
                more[goer] += paid
    return tails[:count], heads[:count], room[:count]


def _kept(
    labels: Labels, ways: Sequence[WayOff], into: int, goes: Mask, in_order: bool
) -> Iterator[tuple[Points, Points]]:
    """Of each label the points, and those that have to go over where they do.

    A point that goes over takes its ray along, one that stays keeps its own: but where the labels are drawn off in
    their order, for what sees out in an earlier one.
    """
    for n, way in enumerate(ways):
        tails, heads = way.tails, way.heads
        if n == into:
            clear = labels == into
            for m in range(into if in_order else 0):
                clear |= (labels == m) & ways[m].sees
            held = goes[tails] & ~clear[heads]
            yield tails[held], heads[held]
        else:
            held = (labels[tails] == n) & goes[heads]
            if in_order and into < n:
                held &= ~ways[into].sees[heads]
            yield heads[held], tails[held]


def _add_rays(flow: SimpleMaxFlow, kept: Iterable[tuple[Points, Points]], goes: Mask, more: NDArray[np.int64]) -> None:
    """One that has to take along what cannot go stays (`more`)."""
    for tails, heads in kept:
        bound = goes[heads]
        more[tails[~bound]] = FOREVER
        flow.add_arcs_with_capacity(tails[bound], heads[bound], np.full(int(bound.sum()), FOREVER, np.int64))


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
