"""Splits whose pieces come off in their order only: found where they spare rubber and leave each piece in one body."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from moldwright.mold.space import Directions
from moldwright.mold.split import CoarseSplit, SpaceCut
from moldwright.mold.split_real import to_be_held
from moldwright.mold.split_whole import in_one_body_each

LEAST_SPARED_ML = 3.0
"""What has to be spared so that an order is worth minding: our own."""


def cheapest_in_order(
    cut: SpaceCut, free: CoarseSplit, base: CoarseSplit, pairs: Sequence[Directions]
) -> CoarseSplit | None:
    """The cheapest split found in as many pieces whose order is worth minding; None where none is.

    Parameters
    ----------
    cut : the space.
    free : of it; more than two pieces keep its draws.
    base : the cheapest split in at most as many pieces so far.
    pairs : (2, 3) draws that are tried of two pieces.

    Source: our own; of two pieces each is the global optimum for its draws and order.
    """
    draws = pairs if free.pieces == 2 else [free.directions]
    worth = [each for each in draws if base.fill_ml - hidden_by_all_ml(cut, each) >= LEAST_SPARED_ML]
    tried = _pairs_in_order(cut, worth) if free.pieces == 2 else _turned_about(cut, free) if worth else ()
    return min(_worth_it(cut, tried, base), key=_energy_ml, default=None)


def closer_in_order(cut: SpaceCut, coarse: CoarseSplit, free: CoarseSplit, base: CoarseSplit) -> CoarseSplit | None:
    """The same on closer points; None where its order is not worth minding there.

    Parameters
    ----------
    cut : the space on closer points.
    coarse : found on points farther apart, its pieces in their order.
    free : of the closer points, in as many pieces; three and more go on from its seams.
    base : the cheapest split of theirs in at most as many pieces so far.

    Source: our own.
    """
    if coarse.pieces == 2:
        return next(_worth_it(cut, [cut.two(coarse.directions, in_order=True)], base), None)
    places = [np.flatnonzero((free.directions == draw).all(axis=1)) for draw in coarse.directions]
    if not all(len(place) == 1 for place in places):
        return None
    split = cut.settled(reordered(free, [int(place[0]) for place in places]))
    return next(_worth_it(cut, [split], base), None)


def _worth_it(cut: SpaceCut, tried: Iterable[CoarseSplit], base: CoarseSplit) -> Iterator[CoarseSplit]:
    """Those which spare rubber worth minding the order, each piece such that it can be held, and one body."""
    for split in tried:
        held = to_be_held(cut, split) if _spares(split, base) else None
        whole = in_one_body_each(cut, held) if held is not None and _spares(held, base) else None
        if whole is not None and cut.is_real(whole) and _spares(whole, base):
            yield whole


def _spares(split: CoarseSplit, base: CoarseSplit) -> bool:
    return min(base.energy_ml - split.energy_ml, base.fill_ml - split.fill_ml) >= LEAST_SPARED_ML


def hidden_by_all_ml(cut: SpaceCut, draws: Directions) -> float:
    """What lies hidden along every draw: no order of the pieces packs less [ml].

    Parameters
    ----------
    cut : the space.
    draws : (k, 3) unit vectors.

    Source: our own.
    """
    hidden = np.minimum.reduce([way.hidden for way in cut.ways(draws)])
    return float(hidden.sum(dtype=np.float64)) * cut.points.point_weight


def reordered(split: CoarseSplit, order: Sequence[int]) -> CoarseSplit:
    """The same split, its pieces to come off in another order and in that only.

    Parameters
    ----------
    split : any.
    order : the numbers of its pieces, from 0, in the order they are to come off.

    Source: our own.
    """
    place = np.full(split.pieces + 1, -1, np.int8)
    place[list(order)] = np.arange(split.pieces)
    draws, labels = split.directions[list(order)], place[split.labels]
    return CoarseSplit(draws, split.grid, labels, split.energy_ml, split.fill_ml, in_order=True)


def _pairs_in_order(cut: SpaceCut, pairs: Sequence[Directions]) -> Iterator[CoarseSplit]:
    for draws in pairs:
        yield cut.two(draws, in_order=True)
        yield cut.two(draws[::-1], in_order=True)


def _turned_about(cut: SpaceCut, free: CoarseSplit) -> Iterator[CoarseSplit]:
    """From its own order on, neighbors in the order change places as long as that spares something."""
    better: CoarseSplit | None = cut.settled(reordered(free, range(free.pieces)))
    while better is not None:
        yield better
        best = better
        turned = [cut.settled(reordered(best, _swapped(best.pieces, n))) for n in range(best.pieces - 1)]
        better = min((each for each in turned if each.energy_ml < best.energy_ml), key=_energy_ml, default=None)


def _energy_ml(split: CoarseSplit) -> float:
    return split.energy_ml


def _swapped(count: int, n: int) -> list[int]:
    order = list(range(count))
    order[n], order[n + 1] = order[n + 1], order[n]
    return order
