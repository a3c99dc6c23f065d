"""The splits that a search found, by their number of pieces."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.errors import NoSafePlan
from moldwright.mold.split import CoarseSplit


@dataclass(frozen=True, slots=True, eq=False)
class Splits:
    """The best split found of one piece, of two, and so on.

    real : of just so many pieces, each of a size to be held; None where none was found.
    any_order : in place of one of these whose pieces come off in their order only, the best that needs no order.
    coarse_fill_ml : its rubber on the coarser grid: how far that is from `fill_ml` tells how well it is known.
    stiff_ml : of its rubber, what is packed so thick that it is stiff.
    """

    real: tuple[CoarseSplit | None, ...]
    coarse_fill_ml: tuple[float, ...]
    stiff_ml: tuple[float, ...]
    any_order: tuple[CoarseSplit | None, ...] = ()

    def least(self, pieces: int) -> CoarseSplit:
        """The cheapest split in at most so many pieces.

        Parameters
        ----------
        pieces : 1 or more.

        Source: our own.
        """
        return min((each for each in self.real[:pieces] if each is not None), key=lambda split: split.energy_ml)

    def coarse_of(self, split: CoarseSplit) -> float:
        """What one of these splits needed packed on the coarser grid [ml].

        Parameters
        ----------
        split : one of `real`.

        Source: our own.
        """
        return self.coarse_fill_ml[split.pieces - 1]

    def stiff_of(self, split: CoarseSplit) -> float:
        """What one of these splits packs so thick that it is stiff [ml].

        Parameters
        ----------
        split : one of `real`.

        Source: our own.
        """
        return self.stiff_ml[split.pieces - 1]

    def with_order(self, n: int, split: CoarseSplit, coarse_fill_ml: float, stiff_ml: float) -> Splits:
        """The same, with a split in the place of another whose pieces come off in any order.

        Parameters
        ----------
        n : its pieces, less one.
        split : its pieces come off in their order only.
        coarse_fill_ml, stiff_ml : of it [ml].

        Source: our own.
        """
        free = list(self.any_order or [None] * len(self.real))
        real, coarse, stiff = list(self.real), list(self.coarse_fill_ml), list(self.stiff_ml)
        real[n], free[n], coarse[n], stiff[n] = split, real[n], coarse_fill_ml, stiff_ml
        return Splits(tuple(real), tuple(coarse), tuple(stiff), tuple(free))

    def of(self, pieces: int) -> CoarseSplit:
        """The split in just so many pieces, whether or not they come off in their order only.

        Parameters
        ----------
        pieces : 1 or more.

        Raises NoSafePlan ("no-such-shell") where there is none.

        Source: our own.
        """
        found = self.real[pieces - 1]
        if found is None:
            remedy = "Let the shell have another number of pieces, or turn the original another way up."
            raise NoSafePlan("no-such-shell", 0, 1, f"ways to split the shell in {pieces} real pieces", remedy)
        return found

    def without_order(self, pieces: int) -> CoarseSplit | None:
        """What stands in for a split whose pieces come off in their order only; None where it has them in any.

        Parameters
        ----------
        pieces : 1 or more.

        Source: our own.
        """
        return self.any_order[pieces - 1] if self.any_order else None
