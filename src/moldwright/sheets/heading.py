"""What head and foot of every sheet say."""

from __future__ import annotations

from typing import Any, Protocol

from moldwright.units import show_temperature
from moldwright.units.system import UnitSystem

AID = [["On skin:", "wipe, then soap and water."], ["In an eye:", "rinse 15 min, lids open; see a doctor."]]
REMINDER = "This sheet reminds. The safety data sheet of each product, local code and licensed practice come first."
FRAME_MM = 35.0
"""What head and foot of a sheet take of its height [mm], as the form sets them."""
SHORT = 12
"""Longest name of a plan that the head prints whole."""


class Headed(Protocol):
    """What a head tells: a plan, or quantities alone."""

    @property
    def name(self) -> str:
        """What the piece is called."""

    @property
    def plan_hash(self) -> str:
        """Of all that is printed."""

    @property
    def rubber(self) -> str:
        """The chosen class."""

    @property
    def temperature_c(self) -> float:
        """The shop's [degC]."""

    @property
    def units(self) -> UnitSystem:
        """The reader's."""


def heading(plan: Headed, what: str, paper: str) -> dict[str, Any]:
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
