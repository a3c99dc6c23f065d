"""What shells in one to four pieces would take, as values: a plan is chosen by them without the solids."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.mold.measures import MoldMeasures
from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class Searched:
    """The cheapest split found in at most so many pieces.

    Parameters
    ----------
    pieces : at most.
    used : of them.
    fill_ml : rubber to pack, over the grids on which it was searched and cut.
    stiff_ml : of it, what is so thick that it does not roll.
    seam_mm : how long its seams are.
    energy_ml : what was weighed in the search.
    measures : all that quantities are reckoned from, were it built.
    """

    pieces: int
    used: int
    fill_ml: Range
    stiff_ml: float
    seam_mm: float
    energy_ml: float
    measures: MoldMeasures


@dataclass(frozen=True, slots=True)
class Tried:
    """A row for one piece, for two, and so on."""

    rows: tuple[Searched, ...]
