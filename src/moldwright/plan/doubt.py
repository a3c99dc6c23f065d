"""What of a mold is sure, and what is not, where its original is not known exactly."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.plan.original import Point
from moldwright.plan.peel import PeelWay, TightPlace
from moldwright.ranges import Range


class Shape(StrEnum):
    """What an original may be: likely; as little and as much as its volume may be; with recesses where nothing shows
    them; uneven."""

    LIKELY = "likely"
    LEAN = "lean"
    FULL = "full"
    HOLLOWED = "hollowed"
    UNEVEN = "uneven"


class Matter(StrEnum):
    """What is asked of every solid: whether so many pieces are cheapest, whether the seam and the ways off hold,
    whether the glove rolls, whether it comes off as planned, slit or not, whether about as much is packed."""

    PIECES = "pieces"
    SEAM = "seam"
    ROLLS = "rolls"
    PEEL = "peel"
    PACKING = "packing"


class Settle(StrEnum):
    """What would settle what is not sure: how deep the hollows are, how far it is round a neck and round what lies
    beyond, the volume by water, more views or levels, photos instead of a tape."""

    HOLLOWS = "hollows"
    GIRTHS = "girths"
    WATER = "water"
    VIEWS = "views"
    PHOTOS = "photos"


@dataclass(frozen=True, slots=True)
class SolidTried:
    """The mold about one solid that the original could be.

    Parameters
    ----------
    shape : which.
    volume_ml : of the original.
    pieces : how many the shell would best have.
    packing_ml : all that is packed with the planned draws and seam.
    stiff_ml : of it, what does not roll.
    caught_share : of the shell, where the planned seam would not let it off, so that it has a gap.
    stretch : how many times its own length the glove's tightest loop is stretched, were it not slit.
    way : how the glove comes off.
    """

    shape: Shape
    volume_ml: float
    pieces: int
    packing_ml: float
    stiff_ml: float
    caught_share: float
    stretch: float
    way: PeelWay


@dataclass(frozen=True, slots=True)
class Hollow:
    """A place where nothing shows a hollow that may be there: where on the mold's frame, how much deeper than the
    solid's surface it may be [mm], and what it would then take of packing [ml]."""

    at: Point
    depth_mm: float
    packing_ml: float


@dataclass(frozen=True, slots=True)
class MoldDoubt:
    """What holds on all solids that the original could be, and what does not.

    Parameters
    ----------
    solids : that were tried, besides the likely one.
    packing_ml : all that is packed, over all of them.
    rolls_below_ml : the glove rolls while no more is stiff.
    stretch : of the glove's tightest loop, over all of them, were it not slit.
    unslit_below : up to so much it comes off without a slit.
    tight : where it is tightest on that of them where it is stretched most; None where nothing widens.
    hollows : to measure, what packs most first.
    sure, unsure : each matter in one of them.
    untold : of the unsure, what holds on all solids, though a tape cannot tell that it does.
    settled_by : what would settle what is unsure; empty where nothing is.
    """

    solids: tuple[SolidTried, ...]
    packing_ml: Range
    rolls_below_ml: float
    stretch: Range
    unslit_below: float
    tight: TightPlace | None
    hollows: tuple[Hollow, ...]
    sure: tuple[Matter, ...]
    unsure: tuple[Matter, ...]
    untold: tuple[Matter, ...]
    settled_by: tuple[Settle, ...]
