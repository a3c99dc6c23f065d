"""Kinds of mold in words: what is held against the recommended one, what bars a kind, how long a glove lasts."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from job_plan_sample import sample_plan

from moldwright.plan.lines import Line
from moldwright.plan.plan import Plan
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.strategies import KindRemark, StrategiesPlan, Strategy, StrategyPlan
from moldwright.ranges import Range
from moldwright.sheets.mold_words import kinds_reason, life_told
from moldwright.told.kind_rows import kind_rows
from moldwright.units.system import UnitSystem

LOCKED = KindRemark(
    Line("mold-kind.locked"),
    (Quantity("deep", Dimension.VOLUME, 42.0), Quantity("hook", Dimension.LENGTH, 5.0)),
)


def row(strategy: Strategy, labor_min: float, material: str, barred: tuple[KindRemark, ...] = ()) -> StrategyPlan:
    return StrategyPlan(
        strategy=strategy,
        wall_mm=4.0,
        rubber_ml=300.0,
        rubber_g=Range(300.0, 330.0, 360.0),
        rubber=Decimal("11.00"),
        pieces=3,
        cut_mm=0.0,
        parting_mm=0.0,
        life=Range(14.0, 35.0, 80.0),
        molds=1 if strategy is not Strategy.GLOVE else 2,
        labor_min=labor_min,
        material=Decimal(material),
        days=9,
        barred=barred,
        risks=(KindRemark(Line("mold-kind.uneven")),),
    )


ROWS = (
    row(Strategy.GLOVE, 900.0, "60.00"),
    row(Strategy.BLOCK, 600.0, "90.00"),
    row(Strategy.HALVES, 0.0, "0.00", (LOCKED,)),
)


def plan_with(recommended: Strategy) -> Plan:
    return replace(sample_plan(), strategies=StrategiesPlan(ROWS, Strategy.GLOVE, recommended, Decimal("30.00")))


def test_each_kind_against_the_recommended() -> None:
    """Of equal rubber all bars are full."""
    glove, block, halves = kind_rows(plan_with(Strategy.BLOCK), UnitSystem.METRIC)
    assert (block.labor, block.material, block.remarks) == ("10 h", "90.00", ("recommended",))
    assert (glove.labor, glove.material, glove.remarks) == ("+5 h", "−30.00", ("as planned",))
    assert (glove.share, block.share) == (1.0, 1.0)
    assert (glove.molds, block.molds) == ("2 molds", "")
    assert halves.remarks == ("cannot be made",)
    assert halves.barred == (
        "42.0 ml of rubber hooks more than 5 mm behind the original, farther than this rubber gives way.",
    )


def test_why_a_kind_is_recommended_in_money_and_minutes() -> None:
    dearer = plan_with(Strategy.BLOCK).strategies
    alike = plan_with(Strategy.GLOVE).strategies
    assert dearer is not None
    assert alike is not None
    assert dearer.cheapest.strategy is Strategy.BLOCK, "what cannot be made costs nothing and does not count"
    assert kinds_reason(dearer) == (
        "One-piece block, open, no cut: least hands and material of the kinds that can be made. Brushed glove under a "
        "shell, as planned: hands +5 h, material −30.00 against it."
    )
    assert kinds_reason(alike) == (
        "Brushed glove under a shell. One-piece block, open, no cut would cost about the same, too close to tell by "
        "minutes of common practice (hands −5 h, material +30.00)."
    )


def test_how_long_a_glove_lasts() -> None:
    plan = replace(sample_plan(), count=40)
    assert plan.life is not None
    life = replace(plan.life, casts=Range(14.0, 35.0, 80.2), molds=2)
    assert life_told(plan, life) == "about 35 (14–80) casts of one glove; 40 asked for take 2 gloves"
