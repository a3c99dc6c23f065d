"""A plan's figures, each with its value and how it is told: what two plans are compared by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import reduce
from operator import add

from moldwright.plan.cast import CastWay
from moldwright.plan.mixes import RUBBER_KINDS
from moldwright.plan.needs import NeedPlan, NeedUnit
from moldwright.plan.plan import Plan
from moldwright.ranges import Amount, Range
from moldwright.sheets.need_words import need_name
from moldwright.sheets.rubber_words import to_mix
from moldwright.sheets.totals_words import hands
from moldwright.told.surfaces.scale import show_percent, show_times
from moldwright.units import (
    show_deadline,
    show_length,
    show_range,
    show_share,
    show_temperature,
    show_volume,
    show_volume_amount,
)
from moldwright.words.speaker import say

DIMENSION = {NeedUnit.GRAM: "mass", NeedUnit.MILLILITER: "volume"}


class FigureGroup(StrEnum):
    """What a figure is of."""

    ASKED = "Asked for"
    RUBBER = "Rubber"
    SHELL = "Shell"
    CAST = "Cast"
    WORK = "Work"
    BUY = "To buy"


@dataclass(frozen=True, slots=True)
class PlanFigure:
    """One figure.

    Parameters
    ----------
    group : what it is of.
    key : its name within the group, the same in every plan; of coats and needs their ids.
    name : what it is called.
    value : what is compared.
    told : how it is read.
    """

    group: FigureGroup
    key: tuple[str, ...]
    name: str
    value: Amount | str | int
    told: str


def plan_figures(plan: Plan) -> tuple[PlanFigure, ...]:
    """All of them, in the units of the plan.

    Parameters
    ----------
    plan : the plan.
    """
    return tuple(each for part in (_asked, _rubber, _shell, _cast, _work, _buy) for each in part(plan))


def _asked(plan: Plan) -> Iterator[PlanFigure]:
    group, thick = FigureGroup.ASKED, sum(coat.thickness_mm for coat in plan.glove.coats)
    yield PlanFigure(group, ("rubber",), say("Rubber"), plan.rubber, plan.rubber)
    yield PlanFigure(group, ("thickness",), say("Thickness"), thick, show_length(thick, plan.units))
    temperature = show_temperature(plan.temperature_c, plan.units)
    yield PlanFigure(group, ("temperature",), say("Shop's temperature"), plan.temperature_c, temperature)
    yield PlanFigure(group, ("count",), say("Casts"), plan.count, str(plan.count))
    yield PlanFigure(group, ("pieces",), say("Shell pieces"), len(plan.shell.pieces), str(len(plan.shell.pieces)))


def _rubber(plan: Plan) -> Iterator[PlanFigure]:
    group, glove = FigureGroup.RUBBER, plan.glove
    parts = [*((c.id, say("Coat {n}, {name}", n=n, name=c.name), c.mixed_g) for n, c in enumerate(glove.coats, 1)),
             ("flange", say("Flange"), glove.flange.mixed_g), ("fill", say("Packing"), glove.fill.mixed_g)]  # fmt: skip
    whole = reduce(add, (mixed for _, _, mixed in parts))
    for id_, name, mixed in (("all", say("All to mix"), whole), *parts):
        yield PlanFigure(group, ("mix", id_), name, mixed, to_mix(mixed, plan))
    cups = [mix for mix in plan.mixes if mix.for_.kind in RUBBER_KINDS]
    peel, slit = glove.peel, glove.slit
    yield PlanFigure(group, ("stretch",), say("Stretch"), peel.shape.stretch, show_times(peel.shape.stretch))
    if glove.strain is not None:
        most = glove.strain.most_99_pct
        yield PlanFigure(group, ("strain",), say("Strain"), most, show_percent(most))
    if slit is not None:
        yield PlanFigure(group, ("slit",), say("Slit"), slit.length_mm, show_length(slit.length_mm, plan.units))
    yield PlanFigure(group, ("cups",), say("Cups"), len(cups), str(len(cups)))
    lasting = [mix.work_by_s for mix in cups if mix.work_by_s is not None]
    if lasting:
        yield PlanFigure(
            group, ("work-by",), say("Shortest time to work a cup"), min(lasting), show_deadline(min(lasting))
        )


def _shell(plan: Plan) -> Iterator[PlanFigure]:
    group, shell = FigureGroup.SHELL, plan.shell
    fill = sum(piece.fill_ml for piece in shell.pieces)
    yield PlanFigure(group, ("fill",), say("Packed into undercuts"), fill, show_volume(fill, plan.units))
    yield PlanFigure(group, ("seam",), say("Seam"), shell.seam_mm, show_length(shell.seam_mm, plan.units))
    yield PlanFigure(group, ("wall",), say("Wall"), shell.thickness_mm, show_length(shell.thickness_mm, plan.units))
    if plan.bandage is not None:
        yield PlanFigure(group, ("strips",), say("Strips of bandage"), plan.bandage.strips, str(plan.bandage.strips))


def _cast(plan: Plan) -> Iterator[PlanFigure]:
    group, cast, units = FigureGroup.CAST, plan.cast, plan.units
    yield PlanFigure(group, ("mass",), say("Finished piece"), cast.mass_g, show_range(cast.mass_g, "mass", units))
    skin = show_volume_amount(cast.skin.volume_ml, units)
    yield PlanFigure(
        group, ("skin",), say("Skin") if cast.way is not CastWay.SOLID else say("Cast solid"), cast.skin.volume_ml, skin
    )
    if cast.way is CastWay.FILLED:
        backfill = show_volume_amount(cast.backfill_ml, units)
        yield PlanFigure(group, ("back-fill",), say("Back-fill"), cast.backfill_ml, backfill)
    loading = cast.loading_wt_pct
    yield PlanFigure(group, ("loading",), say("Powder in the skin, by weight"), loading, show_share(loading / 100))
    shrinks = show_range(cast.shrinkage_mm, "length", units)
    yield PlanFigure(group, ("shrinkage",), say("Shrinks on its height"), cast.shrinkage_mm, shrinks)


def _work(plan: Plan) -> Iterator[PlanFigure]:
    group, totals = FigureGroup.WORK, plan.totals
    for key, name, minutes in (
        ("mold", say("Hands, for the mold"), totals.mold_labor_min),
        ("cast", say("Hands, for each cast"), totals.cast_labor_min),
    ):
        yield PlanFigure(group, ("hands", key), name, minutes, hands(minutes))
    both = (
        ("mold", say("Days, for the mold"), totals.days.mold),
        ("cast", say("Days, for each cast"), totals.days.cast),
    )
    for key, name, days in both:
        yield PlanFigure(group, ("days", key), name, days, str(days))
    yield PlanFigure(group, ("steps",), say("Steps"), len(plan.steps), str(len(plan.steps)))


def _buy(plan: Plan) -> Iterator[PlanFigure]:
    steps = [step.id for step in plan.steps]
    for need in plan.needs:
        key = (need.kind, need.id, need.for_, need.part or "", need.color, need.form or "", str(need.size_ml),
               need.cups_for or "", need.called)  # fmt: skip
        yield PlanFigure(FigureGroup.BUY, key, need_name(need, plan.units, steps), need.amount, _amount(need, plan))


def _amount(need: NeedPlan, plan: Plan) -> str:
    if need.unit in DIMENSION:
        return show_range(need.amount, DIMENSION[need.unit], plan.units)
    if need.unit is NeedUnit.METER:
        return show_range(need.amount * 1000.0, "length", plan.units)
    return f"{need.amount.high:.0f}"


def same_value(one: Amount | str | int, other: Amount | str | int) -> bool:
    """Whether two values are one to who reads them: numbers within a millionth.

    Parameters
    ----------
    one, other : of the same figure in two plans.

    >>> same_value(Range(1.0, 2.0, 3.0), Range(1.0, 2.0, 3.0 + 1e-9)), same_value(2, 3), same_value("a", "a")
    (True, False, True)
    """
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return all(abs(a - b) <= 1e-6 * max(abs(a), abs(b)) for a, b in zip(_three(one), _three(other), strict=True))


def _three(value: Amount | int) -> tuple[float, float, float]:
    return (value.low, value.likely, value.high) if isinstance(value, Range) else (value, value, value)
