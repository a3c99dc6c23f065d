"""Where a shell splits: the pieces' draws, and which piece takes each point about the core."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.cut import Labeling, Labels, WayOff
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.sign import Mask
from moldwright.mold.space import Directions, Space, hidden_share


@dataclass(frozen=True, slots=True)
class SplitSettings:
    """How a split is searched. Weights in ml; common practice, no source.

    seam_ml_per_mm : rubber one would rather pack than make the seam a millimeter longer.
    least_share : each of two pieces holds at least this share of the space about the core.
    least_of_more : the same of three and four.
    least_angle_deg : the draws of two pieces open at least this much.
    tilts_deg : how far the rings of candidates rise over the level.
    shortlist : pairs of draws that are tried, before what lies near the best.
    further : draws that are tried for each further piece.
    draft_deg : every piece still draws off when it is turned by so much.
    stiff_from_mm : rubber packed farther than this over the core is stiff: it does not roll with the glove.
    budget : points that are cut in all before what lies near the best pair is looked at: of few points all pairs are
        tried.
    """

    seam_ml_per_mm: float = 0.015
    least_share: float = 0.2
    least_of_more: float = 0.08
    least_angle_deg: float = 110.0
    tilts_deg: tuple[float, ...] = (0, 12, 24, 36, 48, 60, 72)
    shortlist: int = 14
    further: int = 10
    draft_deg: int = 0
    stiff_from_mm: float = 6.0
    budget: int = 400_000

    def least_of(self, pieces: int) -> float:
        """The least share of the space that each of so many pieces holds.

        Parameters
        ----------
        pieces : 1 or more.

        Source: our own.
        """
        return 0.0 if pieces == 1 else self.least_share if pieces == 2 else self.least_of_more


@dataclass(frozen=True, slots=True, eq=False)
class CoarseSplit:
    """A split: directions (k, 3), and for each point of `grid` the piece that takes it, from 0; -1 where none may.

    energy_ml, fill_ml : what the cut cost, and the rubber among it.
    in_order : the pieces come off in their order, the first one first: the way of one leads through the space of
        earlier ones; else in any.
    """

    directions: Directions
    grid: Grid
    labels: NDArray[np.int8]
    energy_ml: float
    fill_ml: float
    in_order: bool = False

    @property
    def pieces(self) -> int:
        """How many pieces there are."""
        return len(self.directions)

    @property
    def everywhere(self) -> NDArray[np.int8]:
        """The piece that takes each point, or the nearest one that a piece may take."""
        index = ndimage.distance_transform_edt(self.labels < 0, return_distances=False, return_indices=True)
        carried: NDArray[np.int8] = self.labels[tuple(index)]
        return carried

    @property
    def least_share(self) -> float:
        """The smallest piece's share of the space about the core."""
        return min(map(self.share_of, range(self.pieces)))

    def goes_on_from(self, other: CoarseSplit) -> bool:
        """Whether its first draws are another split's.

        Parameters
        ----------
        other : with no more pieces.

        Source: our own.
        """
        return np.array_equal(self.directions[: other.pieces], other.directions)

    def share_of(self, number: int) -> float:
        """A piece's share of the space about the core.

        Parameters
        ----------
        number : of the piece, from 0.

        Source: our own.
        """
        return int((self.labels == number).sum()) / max(1, int((self.labels >= 0).sum()))

    def smooth_sides(self) -> tuple[Field, ...]:
        """Which piece takes each point, for each piece 1 where it does to -1: carried into the core, and smoothed.

        Source: our own.
        """
        carried = self.everywhere
        shares = [_smooth(carried == number) for number in range(self.pieces)]
        return tuple(_over_the_others(shares, number) for number in range(self.pieces))


def _smooth(mask: NDArray[np.bool_]) -> Field:
    smooth: Field = ndimage.gaussian_filter(mask.astype(np.float32), 1.0, mode="nearest")
    return smooth


def _over_the_others(shares: list[Field], number: int) -> Field:
    """By how much a piece's share exceeds the largest of the others; 1 where there is no other."""
    others = [share for n, share in enumerate(shares) if n != number]
    return shares[number] - np.maximum.reduce(others) if others else np.ones_like(shares[number])


class SpaceCut:
    """A space whose points are given to pieces by minimum cuts.

    Parameters
    ----------
    space : what the pieces may fill.
    settings : what a millimeter of seam is worth.
    """

    def __init__(self, space: Space, settings: SplitSettings) -> None:
        self.space, self._settings, step_mm = space, settings, space.grid.step_mm
        area_ml = settings.seam_ml_per_mm * step_mm**2 / space.width_mm
        self.points = Labeling(space.body, space.free, step_mm**3 / 1000, area_ml)
        self._ways: dict[tuple[float, ...], WayOff] = {}

    def ways(self, draws: Directions) -> list[WayOff]:
        """What each draw hides, looked along once.

        Parameters
        ----------
        draws : (k, 3) unit vectors.

        Source: our own.
        """
        return [self._way(draw) for draw in draws]

    def _way(self, draw: NDArray[np.float64]) -> WayOff:
        key = tuple(draw.tolist())
        if key not in self._ways:
            self._ways[key] = self.points.way(draw, self._hidden(draw))
        return self._ways[key]

    def _hidden(self, draw: NDArray[np.float64]) -> Field:
        return hidden_share(self.space.field, draw, self.space.grid.step_mm, self._settings.draft_deg)

    def all_in_one(self, draws: Directions) -> CoarseSplit:
        """The split in which the first piece takes all.

        Parameters
        ----------
        draws : (k, 3) unit vectors.

        Source: our own.
        """
        return self.split(draws, np.zeros(self.points.count, np.int8))

    def split(self, draws: Directions, labels: Labels, in_order: bool = False) -> CoarseSplit:
        """A split with what it costs.

        Parameters
        ----------
        draws : (k, 3) unit vectors.
        labels : (n,) the piece that takes each free point.
        in_order : the pieces come off in their order only.

        Source: our own.
        """
        ways = self.ways(draws)
        costs = self.points.energy(labels, ways), self.points.hidden(labels, ways)
        return CoarseSplit(draws, self.space.grid, self.points.on_grid(labels), *costs, in_order)

    def stiff_ml(self, split: CoarseSplit) -> float:
        """Rubber that a split packs so far over the core that it is stiff [ml].

        Parameters
        ----------
        split : of this space.

        Source: our own.
        """
        labels, step_mm = split.labels[self.space.free], self.space.grid.step_mm
        over_mm = ndimage.distance_transform_edt(~self.space.body, step_mm)[self.space.free]
        packed = np.choose(labels, [way.hidden for way in self.ways(split.directions)])
        return float(packed[over_mm > self._settings.stiff_from_mm].sum(dtype=np.float64)) * step_mm**3 / 1000

    def two(self, draws: Directions, in_order: bool = False) -> CoarseSplit:
        """The seam that costs least for two given draws: the global optimum.

        Parameters
        ----------
        draws : (2, 3) unit vectors.
        in_order : the first piece comes off first; else any does.

        Source: our own.
        """
        labels = np.ones(self.points.count, np.int8)
        return self.split(draws, self.points.moved(labels, self.ways(draws), 0, in_order=in_order), in_order)

    def with_one_more(self, split: CoarseSplit, draw: NDArray[np.float64], open_: Mask | None = None) -> CoarseSplit:
        """A split with a further piece, which takes what is cheaper there: its energy is never above what it was.

        Parameters
        ----------
        split : of this space.
        draw : (3,) unit vector of the further piece.
        open_ : (n,) which free points may go over to it; None: all.

        Source: our own.
        """
        draws = np.concatenate([split.directions, draw[None]])
        labels = self.points.moved(split.labels[self.space.free], self.ways(draws), split.pieces, open_=open_)
        return self.split(draws, labels)

    def settled(self, split: CoarseSplit, open_: Mask | None = None) -> CoarseSplit:
        """A split after every piece in turn took what is cheaper there.

        Parameters
        ----------
        split : of this space.
        open_ : (n,) which free points may go over; None: all.

        Source: our own.
        """
        ways = self.ways(split.directions)
        for number in range(split.pieces):
            own, in_order = split.labels[self.space.free], split.in_order
            labels = self.points.moved(own, ways, number, open_=open_, in_order=in_order)
            moved = self.split(split.directions, labels, in_order)
            split = moved if moved.energy_ml < split.energy_ml else split
        return split

    def along(self, draws: Directions) -> CoarseSplit:
        """A split along given draws: the best of one piece and of two; of more one that no piece betters alone.

        Parameters
        ----------
        draws : (k, 3) unit vectors, k >= 1.

        Source: our own.
        """
        if len(draws) <= 2:
            return self.all_in_one(draws) if len(draws) == 1 else self.two(draws)
        return self.settled(self.with_one_more(self.along(draws[:-1]), draws[-1]))

    def is_real(self, split: CoarseSplit) -> bool:
        """Whether each piece is of a size to be held.

        Parameters
        ----------
        split : of this space.

        Source: our own.
        """
        return split.least_share >= self._settings.least_of(split.pieces)
