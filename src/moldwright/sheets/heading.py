"""What head and foot of every sheet say."""

from __future__ import annotations

from typing import Any

from moldwright.plan.plan import Plan
from moldwright.units import show_temperature

AID = [["On skin:", "wipe, then soap and water."], ["In an eye:", "rinse 15 min, lids open; see a doctor."]]
REMINDER = "This sheet reminds. The safety data sheet of each product, local code and licensed practice come first."
FRAME_MM = 37.5
"""What head and foot of a sheet take of its height [mm], as the form sets them."""
SHORT = 12
"""Longest name of a plan that the head prints whole."""


def heading(plan: Plan, what: str, paper: str) -> dict[str, Any]:
    """Texts of head and foot.

    Parameters
    ----------
    plan : the plan.
    what : which of its papers.
    paper : the paper's name in the form.
    """
    short = plan.plan_hash if len(plan.plan_hash) <= SHORT else plan.plan_hash[:8]
    facts = [
        ["Shop at", show_temperature(plan.temperature_c, plan.units)],
        ["Rubber", plan.rubber],
        ["Plan", short],
    ]
    return {
        "paper": paper, "title": plan.name, "what": what, "hash": plan.plan_hash, "facts": facts,
        "aid": AID, "reminder": REMINDER,
    }  # fmt: skip
