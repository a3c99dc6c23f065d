"""The splits that a search found, by their number of pieces."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from moldwright.errors import NoSafePlan
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.on_body import found_on
from moldwright.mold.split import CoarseSplit
from moldwright.mold.undrawn import Undrawn
from moldwright.ways import Change, figure


@dataclass(frozen=True, slots=True, eq=False)
class Splits:
    """The best split found of one piece, of two, and so on.

    real : of just so many pieces, each of a size to be held; None where none was found.
    any_order : in place of one of these whose pieces come off in their order only, the best that needs no order.
    coarse_fill_ml : its rubber on the coarser grid: how far that is from `fill_ml` tells how well it is known.
    stiff_ml : of its rubber, what is packed so thick that it is stiff.
    undrawn : the largest undercut that no draw frees; None where there is none.
    """

    real: tuple[CoarseSplit | None, ...]
    coarse_fill_ml: tuple[float, ...]
    stiff_ml: tuple[float, ...]
    any_order: tuple[CoarseSplit | None, ...] = ()
    undrawn: Undrawn | None = None

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
        return replace(
            self, real=tuple(real), coarse_fill_ml=tuple(coarse), stiff_ml=tuple(stiff), any_order=tuple(free)
        )

    def of(self, pieces: int, core: Mesh | None = None) -> CoarseSplit:
        """The split in just so many pieces, whether or not they come off in their order only.

        Parameters
        ----------
        pieces : 1 or more.
        core : body and rubber, on which a refusal shows its place.

        Raises NoSafePlan ("no-such-shell") where there is none.

        Source: our own.
        """
        found = self.real[pieces - 1]
        if found is None:
            raise self._none_of(pieces, core)
        return found

    def _none_of(self, pieces: int, core: Mesh | None) -> NoSafePlan:
        """The refusal, with the largest undercut that stays packed in any number of pieces, if there is one."""
        what, way, most = f"ways to split the shell in {pieces} real pieces", Change("mold.pieces"), self.undrawn
        if most is None:
            remedy = "Let the shell have another number of pieces, or turn the original another way up."
            return NoSafePlan("no-such-shell", 0, 1, what, remedy, way)
        volume, high = figure(round(most.volume_ml), "ml"), figure(round(most.at[2]), "mm")
        remedy = (
            "Let the shell have another number of pieces, or turn the original another way up. If neither will do: "
            f"the largest undercut that no draw frees, about {volume}, lies {high} over the board. Close it, in the "
            "scan or with wax on the original (casts are closed there too), or cut the original apart there and plan "
            "each part."
        )
        place = None if core is None else found_on(core, np.array(most.at), most.across_mm)
        return NoSafePlan("no-such-shell", 0, 1, what, remedy, way, place)

    def without_order(self, pieces: int) -> CoarseSplit | None:
        """What stands in for a split whose pieces come off in their order only; None where it has them in any.

        Parameters
        ----------
        pieces : 1 or more.

        Source: our own.
        """
        return self.any_order[pieces - 1] if self.any_order else None
