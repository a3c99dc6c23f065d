"""What the shopping list prints: the plan's needs, grouped as one walks through a shop."""

from __future__ import annotations

from typing import Any

from moldwright.plan.plan import NeedPlan, Plan
from moldwright.ranges import Range
from moldwright.sheets.bench_data import heading
from moldwright.units import show_length, show_range

GROUPS = ("Rubber", "Shell", "Casting", "Finishing", "Protection")


def shopping_data(plan: Plan, paper: str) -> dict[str, Any]:
    """The form's data; quantities as likely and low to high."""
    groups = [{"title": title, "rows": [_row(n, plan.units) for n in rows]} for title, rows in _grouped(plan.needs)]
    return heading(plan, "shopping list", paper) | {
        "below": "Shopping list: quantities",
        "say": "For this mold and its edition. Buy the high end where a second trip costs more than what is left over.",
        "groups": groups,
    }


def _grouped(needs: tuple[NeedPlan, ...]) -> list[tuple[str, list[NeedPlan]]]:
    """Needs by what they are for, the usual groups first; a maker's own groups follow."""
    own = dict.fromkeys(need.for_.capitalize() for need in needs)
    order = [*GROUPS, *[title for title in own if title not in GROUPS]]
    return [(title, [n for n in needs if n.for_.capitalize() == title]) for title in order if title in own]


def _row(need: NeedPlan, units: str) -> dict[str, str]:
    amount, spread = _amount(need.amount, need.unit, units)
    return {"name": need.name, "amount": amount, "range": spread}


def _amount(amount: Range, unit: str, units: str) -> tuple[str, str]:
    if unit in ("g", "ml"):
        if amount.likely < 0.05:
            return "a trace", ""
        step = None if units == "us" else 1.0 if amount.likely >= 20 else 0.1
        text = show_range(amount, "mass" if unit == "g" else "volume", units, step)
        likely, _, spread = text.partition(" (")
        if not any(digit in likely for digit in "123456789"):
            return "a trace", ""
        low, _, high = spread.rstrip(")").partition("–")
        spread = f"up to {high}" if not low.strip("0.") else f"{low}–{high}"
        return likely, "" if amount.low == amount.high else spread
    if unit == "m":
        return show_length(1000 * amount.likely, units), ""
    word = "" if unit == "each" else f" {unit}" + ("s" if unit == "pair" and amount.likely != 1 else "")
    spread = "" if amount.low == amount.high else f"{amount.low:g}–{amount.high:g}"
    return f"{amount.likely:g}{word}", spread
