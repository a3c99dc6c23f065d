"""How the glove comes off: how far it must stretch, where, and what is done about it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.plan.seam import SeamPlan

Point = tuple[float, float, float]


class PeelWay(StrEnum):
    """How a glove comes off: it slides like a sock, it is rolled over itself, or it is slit first and opened; not known
    of one that nobody has peeled yet, which no finished plan has."""

    UNKNOWN = "not known"
    SLIDE = "slide off"
    ROLL = "roll off"
    SLIT = "slit"


@dataclass(frozen=True, slots=True)
class TightPlace:
    """Where the rubber must widen to pass over what lies beyond.

    Parameters
    ----------
    at : middle of the loop of rubber [mm].
    away_mm : the way from the board to it, over the surface [mm].
    around_mm : how long the loop is as it lies [mm].
    stiff_mm : of it, what is packed so thick that it does not stretch [mm].
    over_mm : what it must pass: the length of a taut line round that [mm].
    stretch : how many times its length what stretches of it is stretched.
    """

    at: Point
    away_mm: float
    around_mm: float
    stiff_mm: float
    over_mm: float
    stretch: float


@dataclass(frozen=True, slots=True)
class PeelShape:
    """What peeling asks of a glove, whatever its rubber.

    Parameters
    ----------
    stretch : how many times its own length the tightest loop is stretched if nothing is slit.
    farthest_mm : the longest way that it comes off over, from the board over the surface [mm].
    places : where it is tight, the tightest first; none where nothing widens.
    stiff_mm : rubber thicker than this counts as stiff [mm].
    error_mm : how far the surface that was measured may lie off the original's [mm].
    """

    stretch: float
    farthest_mm: float
    places: tuple[TightPlace, ...]
    stiff_mm: float
    error_mm: float


@dataclass(frozen=True, slots=True)
class PeelPlan:
    """How the glove comes off, in one piece with its flange, from the board on.

    Parameters
    ----------
    way : sliding, rolling or slit; unknown before it is peeled.
    allowed : how many times its own length the rubber may be stretched, by its sheet.
    shape : what peeling asks.
    """

    way: PeelWay
    allowed: float
    shape: PeelShape


@dataclass(frozen=True, slots=True)
class SlitPlan:
    """The cut that opens a glove which cannot widen enough.

    Parameters
    ----------
    length_mm : of all its cuts, over the inner surface, the flange not counted [mm].
    on_cast_mm : of it, what leaves a line on every cast: what lies over the plinth [mm].
    stretch : how far the tightest loop is stretched that stays closed.
    ends : where each cut ends, the farthest first [mm].
    line : its cuts as they are marked on the outside of the rubber, and how they go out over the flange; of no piece.
    """

    length_mm: float
    on_cast_mm: float
    stretch: float
    ends: tuple[Point, ...]
    line: SeamPlan


@dataclass(frozen=True, slots=True)
class PeelFound:
    """How a glove comes off, and its slit, None where it needs none."""

    plan: PeelPlan
    slit: SlitPlan | None = None

    @property
    def stretch(self) -> float:
        """How many times its own length the tightest loop is stretched if nothing is slit."""
        return self.plan.shape.stretch


NOT_PEELED = PeelFound(PeelPlan(PeelWay.UNKNOWN, 1.0, PeelShape(1.0, 0.0, (), 0.0, 0.0)))
"""Of a glove that nobody has peeled yet: whether it slides is not known, and nothing is told of it."""


def elongation_pct(stretch: float) -> float:
    """The elongation that a stretch asks of a rubber [%].

    Parameters
    ----------
    stretch : how many times its own length, >= 1.

    Source: as ISO 37 and ASTM D412 define it (from memory).

    >>> elongation_pct(3.0)
    200.0
    """
    return (stretch - 1.0) * 100.0
