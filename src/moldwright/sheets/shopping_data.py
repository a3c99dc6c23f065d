"""What the shopping list prints: the plan's needs, grouped as one walks through a shop."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, floor, log10
from typing import Any

from moldwright.plan.assumptions import Assumption
from moldwright.plan.ids import StepId
from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.sheets.at_hand import at_hand
from moldwright.sheets.heading import heading
from moldwright.sheets.need_words import need_name
from moldwright.sheets.wording import Wording, show_value, table
from moldwright.sheets.words import reads_nothing
from moldwright.steps.sheet import Listed
from moldwright.units import range_parts, show_length
from moldwright.units.system import UnitSystem

TRACE_BELOW = 0.05
"""Less of anything is a trace [g or ml]: our own."""
FINEST = 0.1
"""What is bought is told no finer [g or ml]: our own."""
DIMENSION = {NeedUnit.GRAM: "mass", NeedUnit.MILLILITER: "volume"}


def shopping_data(plan: Plan, paper: str) -> dict[str, Any]:
    """The form's data; quantities as likely and low to high."""
    return heading(plan, "shopping list", paper) | {
        "below": "Shopping list: quantities",
        "say": "For this mold and its edition. Buy the high end where a second trip costs more than what is left over.",
        "groups": need_groups(plan.needs, plan.units, [step.id for step in plan.steps]),
        "at_hand": table()["at_hand"] | {"groups": _at_hand(plan)},
        "assumed": table()["assumed"] | {"rows": assumed_rows(plan.assumed, plan.units)},
    }


def _at_hand(plan: Plan) -> list[dict[str, Any]]:
    """What is used up and what is the shop's, behind the rows."""
    titles, words = table()["at_hand"]["titles"], Wording(plan.units, plan.scale_g)
    groups = [{"title": titles[each], "rows": at_hand(plan, words, each)} for each in (Listed.USED, Listed.SHOP)]
    return [group for group in groups if group["rows"]]


def assumed_rows(assumed: Iterable[Assumption], units: UnitSystem) -> list[list[str]]:
    """What nobody gave: key, value and source of each row.

    Parameters
    ----------
    assumed : of the plan.
    units : the reader's.
    """
    return [[each.key, show_value(each.value, each.unit, units), each.source] for each in assumed]


def need_groups(needs: tuple[NeedPlan, ...], units: UnitSystem, steps: Sequence[StepId] = ()) -> list[dict[str, Any]]:
    """What to buy, by what it is for, in the order of the work.

    Parameters
    ----------
    needs : the rows.
    units : the reader's.
    steps : ids of the plan's steps in their order.
    """
    return [
        {"title": group.capitalize(), "rows": [_row(need, units, steps) for need in rows]}
        for group, rows in _grouped(needs)
    ]


def _grouped(needs: tuple[NeedPlan, ...]) -> list[tuple[NeedGroup, list[NeedPlan]]]:
    """Needs by what they are for, in the order of the work."""
    groups = [(group, [need for need in needs if need.for_ is group]) for group in NeedGroup]
    return [(group, rows) for group, rows in groups if rows]


def _row(need: NeedPlan, units: UnitSystem, steps: Sequence[StepId]) -> dict[str, str]:
    amount, spread = _amount(need.amount, need.unit, units)
    name = need_name(need, units, steps)
    return {"name": name, "amount": amount, "range": spread}


def _amount(amount: Range, unit: NeedUnit, units: UnitSystem) -> tuple[str, str]:
    """What to buy, and from how much to how much."""
    if unit in DIMENSION:
        return _measured(amount, DIMENSION[unit], units)
    if unit is NeedUnit.METER:
        return show_length(1000 * amount.likely, units), ""
    word = "" if unit is NeedUnit.EACH else f" {unit}" + ("s" if amount.likely != 1 else "")
    return f"{amount.likely:g}{word}", _spread(amount, f"{amount.low:g}", f"{amount.high:g}", amount.low == 0)


def _measured(amount: Range, dimension: str, units: UnitSystem) -> tuple[str, str]:
    """A mass or a volume to a gram or a tenth; below what can be printed it is a trace."""
    low, _, high, unit = range_parts(amount, dimension, units, FINEST)
    likely = range_parts(Range.exactly(enough(amount.likely)), dimension, units, FINEST)[1]
    if amount.likely < TRACE_BELOW or reads_nothing(likely):
        return "a trace", ""
    return f"{likely} {unit}", _spread(amount, low, high, reads_nothing(low))


def enough(amount: float) -> float:
    """An amount to three figures, never less than it is: who buys it must not run short.

    Parameters
    ----------
    amount : in any unit, >= 0.

    >>> enough(13480.4), enough(0.0)
    (13500.0, 0.0)
    """
    if amount <= 0:
        return 0.0
    step = 10.0 ** (floor(log10(amount)) - 2)
    return ceil(amount / step - 1e-9) * step


def _spread(amount: Range, low: str, high: str, from_nothing: bool) -> str:
    if amount.low == amount.high:
        return ""
    return f"up to {high}" if from_nothing else f"{low}–{high}"
