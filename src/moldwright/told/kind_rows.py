"""Kinds of mold side by side, a row for each, for the screen."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.plan import Plan
from moldwright.plan.strategies import KindRemark, StrategiesPlan, StrategyPlan
from moldwright.sheets.mold_words import casts_told, hands_against, kind_name, money_against
from moldwright.sheets.totals_words import hands
from moldwright.sheets.wording import Wording
from moldwright.units import show_length, show_range
from moldwright.units.system import UnitSystem
from moldwright.words.speaker import say, say_count, with_mark


@dataclass(frozen=True, slots=True)
class KindRow:
    """What one kind of mold takes, in words.

    Parameters
    ----------
    name : of it.
    wall, rubber, price : how thick its rubber is, what is mixed for one mold, and what that costs.
    labor, material : hands and material of the whole job against the recommended kind.
    lasts : casts that one mold gives; `molds`: how many the edition takes, "" for one.
    days : till one mold is ready.
    remarks : whether it is recommended or planned.
    barred, risks : why it cannot be made, and what may go wrong.
    share : its rubber as a share of the most, 0 to 1, for a bar.
    """

    name: str
    wall: str
    rubber: str
    price: str
    labor: str
    material: str
    lasts: str
    molds: str
    days: str
    remarks: tuple[str, ...]
    barred: tuple[str, ...]
    risks: tuple[str, ...]
    share: float


def kind_rows(plan: Plan, units: UnitSystem) -> tuple[KindRow, ...]:
    """A row for each kind of mold, the planned one first; none where the plan has none.

    Parameters
    ----------
    plan : the plan.
    units : of who reads.
    """
    kinds = plan.strategies
    if kinds is None:
        return ()
    words = Wording(units, plan.scale_g)
    most_g = max(row.rubber_g.likely for row in kinds.rows)
    return tuple(_row(row, kinds, words, row.rubber_g.likely / most_g) for row in kinds.rows)


def _row(row: StrategyPlan, kinds: StrategiesPlan, words: Wording, share: float) -> KindRow:
    best = kinds.of(kinds.recommended)
    itself = row.strategy is best.strategy
    return KindRow(
        name=kind_name(row),
        wall=show_length(row.wall_mm, words.units),
        rubber=show_range(row.rubber_g, "mass", words.units),
        price=with_mark(str(row.rubber)),
        labor=hands(row.labor_min) if itself else hands_against(row.labor_min, best.labor_min),
        material=with_mark(str(row.material)) if itself else money_against(row.material, best.material),
        lasts=casts_told(row.life),
        molds=say_count("{num} mold", "{num} molds", row.molds, num=row.molds) if row.molds > 1 else "",
        days=say_count("{num} day", "{num} days", row.days, num=row.days),
        remarks=_remarks(row, kinds),
        barred=_told(row.barred, words),
        risks=_told(row.risks, words),
        share=share,
    )


def _remarks(row: StrategyPlan, kinds: StrategiesPlan) -> tuple[str, ...]:
    said = (
        (row.strategy is kinds.planned, say("as planned")),
        (row.strategy is kinds.recommended, say("recommended")),
        (not row.possible, say("cannot be made")),
    )
    return tuple(text for holds, text in said if holds)


def _told(every: tuple[KindRemark, ...], words: Wording) -> tuple[str, ...]:
    return tuple(words.line(each.line, each.quantities) for each in every)
