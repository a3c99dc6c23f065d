"""What shells in one to four pieces would take, as values: a plan is chosen by them without the solids."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.mold.measures import MoldMeasures
from moldwright.plan.doubt import Hollow, Shape
from moldwright.plan.mold import PiecesSearched
from moldwright.plan.peel import TightPlace


@dataclass(frozen=True, slots=True)
class Searched(PiecesSearched):
    """The same with what it measures.

    Parameters
    ----------
    measures : all that quantities are reckoned from, were it built.
    """

    measures: MoldMeasures


@dataclass(frozen=True, slots=True)
class Tried:
    """A row for one piece, for two, and so on."""

    rows: tuple[Searched, ...]


@dataclass(frozen=True, slots=True)
class OnSolid:
    """What the found splits take about a solid that the original could be, on a coarse grid.

    Parameters
    ----------
    shape : which.
    volume_ml : of the original.
    crevice_ml : what bridging crevices takes.
    fill_ml, stiff_ml, caught_share : of the split in one piece, in two, and so on, its draws and seam held to: see
        `mold.held.Held`; of a number without a split, nothing.
    stretch : how many times its own length the tightest loop of its glove is stretched in peeling.
    tight : where; None where nothing widens.
    """

    shape: Shape
    volume_ml: float
    crevice_ml: float
    fill_ml: tuple[float, ...]
    stiff_ml: tuple[float, ...]
    caught_share: tuple[float, ...]
    stretch: tuple[float, ...]
    tight: tuple[TightPlace | None, ...]


@dataclass(frozen=True, slots=True)
class Doubted:
    """The likely solid, and the others that the original could be; for each number of pieces the hollows that are to be
    measured. No solids where the original is known."""

    likely: OnSolid | None = None
    others: tuple[OnSolid, ...] = ()
    hollows: tuple[tuple[Hollow, ...], ...] = ()


KNOWN = Doubted()
"""Of an original that is known."""
