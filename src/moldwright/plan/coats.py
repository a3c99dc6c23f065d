"""A coat of rubber: one type from the order of the maker to the cup on the bench."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.plan.ids import CoatId
from moldwright.ranges import Range


class Gesture(StrEnum):
    """How a coat is laid."""

    STIPPLE = "stipple"
    BRUSH = "brush"
    STICK = "stick"


class PigmentColor(StrEnum):
    """Colors of the coats in their order, neighbors far apart also without color vision; our choice."""

    YELLOW = "yellow"
    BLUE = "blue"
    RED = "red"
    WHITE = "white"
    GREEN = "green"
    ORANGE = "orange"
    VIOLET = "violet"
    BLACK = "black"


@dataclass(frozen=True, slots=True)
class Coat:
    """One coat as it is laid. `name` is the maker's word for it and decides nothing; `passes`: in how many layers, each
    dried before the next."""

    id: CoatId
    name: str
    thickness_mm: float
    thixotrope_pct: float
    pigment: PigmentColor
    gesture: Gesture
    passes: int

    @property
    def pass_mm(self) -> float:
        """How thick one layer is [mm]."""
        return self.thickness_mm / self.passes


@dataclass(frozen=True, slots=True)
class CoatHold:
    """How thick a coat's mix stays where it is laid, wet.

    Parameters
    ----------
    coat : which.
    layer_mm : how thick it is laid at once.
    wall_mm, ceiling_mm : what an upright wall holds of it, and what hangs from a face that looks down.
    slumps : share of the surface that holds less than the layer, 0 to 1; `may_slump`: by the low end of what is known.
    layers : in how many layers it would stay nearly everywhere.
    enough_pct : with so much thixotropic agent it would stay so in one; None where that is more than the mix may have.
    """

    coat: CoatId
    layer_mm: float
    wall_mm: Range
    ceiling_mm: Range
    slumps: float
    may_slump: float
    layers: int
    enough_pct: float | None


@dataclass(frozen=True, slots=True)
class CoatPlan(Coat):
    """A coat with what it takes: `net_g` on the work, `mixed_g` with what stays in pots and brushes."""

    volume_ml: float
    net_g: float
    mixed_g: Range
    cups: int
