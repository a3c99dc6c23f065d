"""Where a plan's folder lies among those of a shop: under the plan's id."""

from __future__ import annotations

import re
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.log.ids import PlanId
from moldwright.making.plans import PLAN_FILE
from moldwright.text.shown import short

PLANS = "plans"
_ID = re.compile(r"[0-9a-f]{64}")


def plan_home(data: Path, plan: PlanId) -> Path:
    """Where the folder of a plan is, or would be.

    Parameters
    ----------
    data : the shop's folder of what can be made anew.
    plan : SHA-256 of its plan.json; anything else is refused, so that no letter of a caller reaches a path.

    Raises InputRefused ("not-kept").
    """
    if not _ID.fullmatch(plan):
        raise InputRefused("not-kept", f"plan {short(plan)}", "a plan's id", "", "Open it from its piece.")
    return data / PLANS / plan


def planned_folder(data: Path, plan: PlanId) -> Path:
    """The folder of a plan that is there.

    Parameters
    ----------
    data : the shop's folder of what can be made anew.
    plan : SHA-256 of its plan.json.

    Raises InputRefused ("not-kept").
    """
    home = plan_home(data, plan)
    if not (home / PLAN_FILE).is_file():
        remedy = "Plan the piece again: its solids and sheets are made anew."
        raise InputRefused("not-kept", f"plan {plan[:8]}", "a plan whose folder is on this machine", "", remedy)
    return home
