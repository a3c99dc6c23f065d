"""Kinds of mold side by side: what each would take for the same original, and which can be made at all."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import ClassVar

from moldwright.plan.lines import Line
from moldwright.plan.quantity import Quantity
from moldwright.ranges import Range


class Strategy(StrEnum):
    """A kind of mold. A glove is brushed on, a jacket poured under a shell laid over clay, a block poured in a box, in
    one piece or in two halves."""

    GLOVE = "glove"
    JACKET = "jacket"
    BLOCK = "block"
    HALVES = "halves"


@dataclass(frozen=True, slots=True)
class KindRemark:
    """A sentence about a kind of mold, with what it quotes."""

    IN_WORDS: ClassVar[str] = "text"
    """The key under which plan.json tells it in words."""
    line: Line
    quantities: tuple[Quantity, ...] = ()


@dataclass(frozen=True, slots=True)
class StrategyPlan:
    """What one kind of mold takes: the molds that the edition needs, and all its casts.

    Parameters
    ----------
    strategy : which kind.
    wall_mm : how thick its rubber is: of coats together, of a jacket, of a block's walls at the thinnest [mm].
    rubber_ml : of one mold, as its solid measures.
    rubber_g : to mix for one mold.
    rubber : what that costs.
    pieces : of shell and rubber together, of one mold.
    cut_mm : how long it is cut open, 0 where it is not.
    parting_mm : how long the line is that its halves leave on every cast, 0 where there are none.
    life : casts that one mold gives.
    molds : that the edition takes.
    labor_min, material : hands and material of all molds and all casts.
    days : working days till one mold is ready, at the least.
    barred : why it cannot be made; none where it can.
    risks : what may go wrong with it.
    """

    strategy: Strategy
    wall_mm: float
    rubber_ml: float
    rubber_g: Range
    rubber: Decimal
    pieces: int
    cut_mm: float
    parting_mm: float
    life: Range
    molds: int
    labor_min: float
    material: Decimal
    days: int
    barred: tuple[KindRemark, ...]
    risks: tuple[KindRemark, ...]

    @property
    def possible(self) -> bool:
        """Whether it can be made."""
        return not self.barred

    def whole(self, hour: Decimal) -> Decimal:
        """Hands and material together, in money.

        Parameters
        ----------
        hour : what an hour of hands costs.
        """
        return self.material + hour * Decimal(self.labor_min) / 60


@dataclass(frozen=True, slots=True)
class StrategiesPlan:
    """All kinds, and which is recommended: of those that can be made what costs least in hands and material, or the
    planned one where the difference is none that minutes of common practice tell.

    Parameters
    ----------
    rows : one for each kind, the planned one first.
    planned : what the plan's steps make.
    recommended : which is recommended.
    hour : what an hour of hands costs in it.
    """

    rows: tuple[StrategyPlan, ...]
    planned: Strategy
    recommended: Strategy
    hour: Decimal

    @property
    def cheapest(self) -> StrategyPlan:
        """Of those that can be made what costs least."""
        return min((row for row in self.rows if row.possible), key=lambda row: row.whole(self.hour))

    def of(self, strategy: Strategy) -> StrategyPlan:
        """The row of a kind."""
        return next(row for row in self.rows if row.strategy is strategy)
