"""The search of a shell's splits: for one to four pieces the draws and the seam that cost least."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.directions import upper_directions
from moldwright.geometry.mesh import Mesh
from moldwright.mold.pairs import pair_bounds, shortlist
from moldwright.mold.space import Directions, space_about
from moldwright.mold.split import CoarseSplit, SpaceCut, SplitSettings
from moldwright.mold.split_closer import closer
from moldwright.mold.split_ordered import cheapest_in_order, closer_in_order
from moldwright.mold.split_real import to_be_held
from moldwright.mold.splits import Splits
from moldwright.mold.undrawn import Undrawn, largest_undrawn
from moldwright.plan.mold import MOST_PIECES
from moldwright.progress import Progress, silent

SEARCHED, COARSER = 10_000, 2.5
"""Draws are searched on about so many points, at most so many times as far apart as those on which seams are cut."""
FINALISTS = 2
"""So many of the best are cut on the closer points, where the best of them is taken: our own."""
NEAR = 6
"""Candidates about a draw that are tried in its place."""
BEST = 3
"""Of the draws that are tried for a further piece so many are settled with the others."""
TURNS = 6
"""Turns of draws spread evenly that are tried."""
PAIRS_IN_ORDER, ANGLE_IN_ORDER_DEG = 6, 80.0
"""Pairs of draws that are tried of two pieces which come off in their order only, and how far they open at least: our
own."""
Pair = tuple[int, int]


def splits_about(
    core: Mesh,
    width_mm: float,
    floor_mm: float,
    step_mm: float,
    settings: SplitSettings,
    most: int = MOST_PIECES,
    progress: Progress = silent,
) -> Splits:
    """Search the splits of a shell in one to `most` pieces about a core.

    Parameters
    ----------
    core : body and rubber as one closed solid [mm].
    width_mm : reach of the shell from the core (seam flange) [mm].
    floor_mm : height over the board from which the shell stands [mm].
    step_mm : step of the grid on which the seam is cut [mm].
    settings : how the splits are searched.
    most : pieces, 1 to `MOST_PIECES`.
    progress : told the stage.

    Source: our own, on `geometry.cut.Labeling`.
    """
    fine = SpaceCut(space_about(core, width_mm, floor_mm, step_mm), settings)
    coarser = min(max((fine.points.count / SEARCHED) ** (1 / 3), 1.0), COARSER)
    rough = SpaceCut(space_about(core, width_mm, floor_mm, coarser * step_mm), settings)
    search = Search(rough, settings, progress)
    coarse = [[search.one()], search.two()]
    while len(coarse) < most:
        base = next(best[0] for best in reversed(coarse) if best)
        coarse.append(search.more(len(coarse) + 1, base))
    ordered = [search.in_order(coarse[: number + 1]) for number in range(most)]
    finer = replace(_finer(fine, coarse[:most], progress), undrawn=search.undrawn())
    return _ordered(fine, finer, ordered)


def _ordered(cut: SpaceCut, splits: Splits, ordered: Sequence[CoarseSplit | None]) -> Splits:
    """With those in the place of others whose order is worth minding on closer points too."""
    for n, coarse in enumerate(ordered):
        free = splits.real[n]
        if coarse is None or free is None:
            continue
        base = min((each for each in splits.real[: n + 1] if each is not None), key=lambda split: split.energy_ml)
        found = closer_in_order(cut, coarse, free, base)
        if found is not None:
            splits = splits.with_order(n, found, coarse.fill_ml, cut.stiff_ml(found))
    return splits


def _finer(cut: SpaceCut, coarse: Sequence[Sequence[CoarseSplit]], progress: Progress) -> Splits:
    """The same draws, their seams cut on closer points."""
    real: list[CoarseSplit | None] = []
    rough: list[float] = []
    for number, best in enumerate(coarse):
        progress("split the shell", 0.6 + 0.4 * number / len(coarse))
        known = [split for split in real if split is not None]
        pairs = [(closer(cut, split, known), split.fill_ml) for split in best]
        held = [(fine, fill_ml) for fine, fill_ml in pairs if fine is not None]
        fine, rough_ml = min(held, key=lambda pair: pair[0].energy_ml, default=(None, 0.0))
        real.append(fine)
        rough.append(rough_ml)
    stiff = [cut.stiff_ml(split) if split is not None else 0.0 for split in real]
    return Splits(tuple(real), tuple(rough), tuple(stiff))


class Search:
    """The search on the coarser grid.

    Parameters
    ----------
    cut : the space.
    settings : how the splits are searched.
    progress : told the stage.
    """

    def __init__(self, cut: SpaceCut, settings: SplitSettings, progress: Progress = silent) -> None:
        self._cut, self._settings, self._progress = cut, settings, progress
        self.candidates = upper_directions(tilts_deg=settings.tilts_deg)
        self._hidden = np.stack([way.hidden for way in cut.ways(self.candidates)])
        self._tried: dict[Pair, CoarseSplit] = {}
        self._in_order: list[Directions] = []

    def one(self) -> CoarseSplit:
        """One piece, drawn along what hides least.

        Source: our own.
        """
        best = int(self._hidden.sum(axis=1, dtype=np.float64).argmin())
        return self._cut.along(self.candidates[best : best + 1])

    def undrawn(self) -> Undrawn | None:
        """The largest undercut that none of the candidates frees.

        Source: our own.
        """
        return largest_undrawn(self._cut.space, self._hidden)

    def two(self) -> list[CoarseSplit]:
        """The best in two pieces: the pairs that may cost least are cut, then what lies near the best, until none
        betters it.

        Source: our own.
        """
        space = self._cut.space
        bounds = pair_bounds(space.body, space.free | space.body, self.candidates)
        wide = replace(self._settings, shortlist=PAIRS_IN_ORDER, least_angle_deg=ANGLE_IN_ORDER_DEG)
        self._in_order = [self.candidates[list(pair)] for pair in shortlist(bounds, self.candidates, wide)]
        tries = max(self._settings.shortlist, self._settings.budget // self._cut.points.count)
        pairs = shortlist(bounds, self.candidates, replace(self._settings, shortlist=tries))
        best = self._least_of(pairs)
        while best is not None:
            better = self._least_of(self._near(best))
            if better is None or self._tried[better].energy_ml >= self._tried[best].energy_ml:
                return self._held(split for split in self._tried.values() if self._cut.is_real(split))
            best = better
        return self._held(self._tried[pair] for pair in pairs)

    def _least_of(self, pairs: Iterable[Pair]) -> Pair | None:
        """The cheapest of some pairs that leave two real pieces; of equals the first."""
        real = []
        for pair in pairs:
            if pair not in self._tried:
                self._progress("split the shell", 0.3)
                self._tried[pair] = self._cut.two(self.candidates[list(pair)])
            if self._cut.is_real(self._tried[pair]):
                real.append(pair)
        return min(real, key=lambda pair: self._tried[pair].energy_ml, default=None)

    def _near(self, pair: Pair) -> Iterator[Pair]:
        """The pair, and those in which one of its draws is one that lies near."""
        yield pair
        widest = np.cos(np.radians(self._settings.least_angle_deg)) + 1e-9
        for place, other in enumerate(reversed(pair)):
            near = np.argsort(-(self.candidates @ self.candidates[pair[place]]), kind="stable")[1 : NEAR + 1]
            for one in map(int, near):
                if self.candidates[one] @ self.candidates[other] <= widest:
                    yield (one, other) if place == 0 else (other, one)

    def more(self, pieces: int, base: CoarseSplit) -> list[CoarseSplit]:
        """The best in so many pieces: a further one where it spares most of what a split packs, or draws spread evenly.

        Parameters
        ----------
        pieces : 3 or more.
        base : the best split in one piece less.

        Source: our own.
        """
        self._progress("split the shell", 0.1 * pieces)
        tried = sorted(self._further(base), key=lambda split: split.energy_ml)
        settled = [self._cut.settled(split) for split in tried[:BEST]]
        every = (*settled, *self._spread(pieces))
        return self._held(split for split in every if split.pieces == pieces)

    def in_order(self, found: Sequence[Sequence[CoarseSplit]]) -> CoarseSplit | None:
        """The cheapest whose pieces come off in their order only; None where minding that is worth nothing.

        Parameters
        ----------
        found : the best in one piece, in two and so on, up to as many as are asked about.

        Source: our own.
        """
        if len(found) == 1 or not found[-1]:
            return None
        base = min((best[0] for best in found if best), key=lambda split: split.energy_ml)
        return cheapest_in_order(self._cut, found[-1][0], base, self._in_order)

    def _further(self, base: CoarseSplit) -> Iterator[CoarseSplit]:
        labels = base.labels[self._cut.space.free]
        packed = sum(np.where(labels == n, way.hidden, 0) for n, way in enumerate(self._cut.ways(base.directions)))
        spared = np.maximum(packed - self._hidden, 0).sum(axis=1, dtype=np.float64)
        for number in np.argsort(-spared, kind="stable")[: self._settings.further]:
            yield self._cut.with_one_more(base, self.candidates[number])

    def _held(self, splits: Iterable[CoarseSplit]) -> list[CoarseSplit]:
        """The cheapest that can be held; holding one makes it dearer, so that none is held which costs more before."""
        best: list[CoarseSplit] = []
        for split in sorted(splits, key=lambda each: each.energy_ml):
            if len(best) == FINALISTS and split.energy_ml >= best[-1].energy_ml:
                break
            held = to_be_held(self._cut, split)
            best = sorted((*best, held) if held else best, key=lambda each: each.energy_ml)[:FINALISTS]
        return best

    def _spread(self, pieces: int) -> Iterator[CoarseSplit]:
        """Splits along level draws spread evenly, turned a little from one to the next."""
        for turn in range(TURNS):
            angle = 2 * np.pi * (np.arange(pieces) + turn / TURNS) / pieces
            yield self._cut.along(level(angle))


def level(angle: NDArray[np.float64]) -> Directions:
    """(n, 3) level unit vectors.

    Parameters
    ----------
    angle : (n,) from +x counterclockwise [rad].

    Source: a closed form.
    """
    return np.stack([np.cos(angle), np.sin(angle), np.zeros(len(angle))], axis=1)
