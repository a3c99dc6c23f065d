"""What the shopping list prints: the plan's needs, grouped as one walks through a shop."""

from __future__ import annotations

from typing import Any

from moldwright.job.plan import NeedPlan, Plan
from moldwright.ranges import Range
from moldwright.sheets.bench_data import heading
from moldwright.units import show_length, show_mass, show_range, show_volume

GROUPS = ("Rubber", "Shell", "Casting", "Finishing", "Protection")
_WORDS = (
    ("Protection", ("glove", "goggle", "respirat", "mask", "apron", "protect", "extraction", "eye", "first-aid")),
    ("Finishing", ("finish", "burnish", "wool", "dark wax", "dark-wax", "felt", "base", "pack", "solvent", "isopropanol",
                   "sandpaper", "number", "polish")),
    ("Casting", ("cast", "resin", "skin", "back-fill", "backfill", "powder", "tint", "urethane-", "hardener")),
    ("Shell", ("shell", "bandage", "plaster", "wax", "clay", "band", "strip", "talc", "seam", "dipping")),
)  # fmt: skip


def shopping_data(plan: Plan, paper: str) -> dict[str, Any]:
    """The form's data; quantities as likely and low to high."""
    rows: dict[str, list[dict[str, str]]] = {group: [] for group in GROUPS}
    for need in plan.needs:
        rows[group_of(need)].append(_row(need, plan.units))
    return heading(plan, "shopping list", paper) | {
        "below": "Shopping list: quantities",
        "say": "For this mold and its edition. Buy the high end where a second trip costs more than the rest of a can.",
        "groups": [{"title": group, "rows": rows[group]} for group in GROUPS if rows[group]],
    }


def group_of(need: NeedPlan) -> str:
    """The group of a need, by what it is for, else by its name; what nothing tells is for the rubber."""
    for text in (need.for_.lower(), f"{need.id} {need.name}".lower()):
        for group, words in _WORDS:
            if any(word in text for word in words) and not _rubber(text):
                return group
    return "Rubber"


def _rubber(text: str) -> bool:
    return any(word in text for word in ("rubber", "coat", "silicone", "latex rubber"))


def _row(need: NeedPlan, units: str) -> dict[str, str]:
    amount, spread = _amount(need.amount, need.unit, units)
    return {"name": need.name, "amount": amount, "range": spread, "for_": need.for_}


def _amount(amount: Range, unit: str, units: str) -> tuple[str, str]:
    if unit in ("g", "ml"):
        text = show_range(amount, "mass" if unit == "g" else "volume", units)
        likely = (show_mass if unit == "g" else show_volume)(amount.likely, units)
        return likely, "" if amount.low == amount.high else text[text.rindex("(") + 1 : -1]
    if unit == "m":
        return show_length(1000 * amount.likely, units), ""
    word = "" if unit == "each" else f" {unit}"
    spread = "" if amount.low == amount.high else f"{amount.low:g}–{amount.high:g}"
    return f"{amount.likely:g}{word}", spread
