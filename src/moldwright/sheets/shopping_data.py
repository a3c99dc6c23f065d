"""What the shopping list prints: the plan's needs, grouped as one walks through a shop."""

from __future__ import annotations

from typing import Any

from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.sheets.bench_data import heading
from moldwright.sheets.need_words import need_name
from moldwright.units import show_length, show_range

DIMENSION = {NeedUnit.GRAM: "mass", NeedUnit.MILLILITER: "volume"}


def shopping_data(plan: Plan, paper: str) -> dict[str, Any]:
    """The form's data; quantities as likely and low to high."""
    groups = [
        {"title": group.capitalize(), "rows": [_row(n, plan.units) for n in rows]}
        for group, rows in _grouped(plan.needs)
    ]
    return heading(plan, "shopping list", paper) | {
        "below": "Shopping list: quantities",
        "say": "For this mold and its edition. Buy the high end where a second trip costs more than what is left over.",
        "groups": groups,
    }


def _grouped(needs: tuple[NeedPlan, ...]) -> list[tuple[NeedGroup, list[NeedPlan]]]:
    """Needs by what they are for, in the order of the work."""
    groups = [(group, [need for need in needs if need.for_ is group]) for group in NeedGroup]
    return [(group, rows) for group, rows in groups if rows]


def _row(need: NeedPlan, units: str) -> dict[str, str]:
    amount, spread = _amount(need.amount, need.unit, units)
    return {"name": need_name(need), "amount": amount, "range": spread}


def _amount(amount: Range, unit: NeedUnit, units: str) -> tuple[str, str]:
    if unit in DIMENSION:
        if amount.likely < 0.05:
            return "a trace", ""
        step = None if units == "us" else 1.0 if amount.likely >= 20 else 0.1
        text = show_range(amount, DIMENSION[unit], units, step)
        likely, _, spread = text.partition(" (")
        if not any(digit in likely for digit in "123456789"):
            return "a trace", ""
        low, _, high = spread.rstrip(")").partition("–")
        spread = f"up to {high}" if not low.strip("0.") else f"{low}–{high}"
        return likely, "" if amount.low == amount.high else spread
    if unit is NeedUnit.METER:
        return show_length(1000 * amount.likely, units), ""
    word = "" if unit is NeedUnit.EACH else f" {unit}" + ("s" if amount.likely != 1 else "")
    spread = "" if amount.low == amount.high else f"{amount.low:g}–{amount.high:g}"
    return f"{amount.likely:g}{word}", spread
