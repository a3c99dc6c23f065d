"""What `moldwright plan` and `moldwright demo` print of a plan that was made."""

from __future__ import annotations

import json
from pathlib import Path

from moldwright.desk.say import say, say_json
from moldwright.desk.show_rough import show_rough
from moldwright.desk.summary import summary
from moldwright.plan.plan import Plan
from moldwright.plan.rough import RoughPlan
from moldwright.sheets.plan_text import plan_text


def show_planned(made: Plan | RoughPlan, out: Path, as_json: bool = False) -> None:
    """Print what was planned: a plan, or quantities alone.

    Parameters
    ----------
    made : the one or the other.
    out : its folder.
    as_json : print one JSON object.
    """
    if isinstance(made, RoughPlan):
        show_rough(made, out, as_json)
    else:
        show_plan(made, out, as_json)


def show_plan(plan: Plan, out: Path, as_json: bool = False) -> None:
    """Print the plan's main figures, or `{"folder": ..., "plan": ...}`.

    Parameters
    ----------
    plan : the plan.
    out : its folder.
    as_json : print one JSON object.
    """
    if as_json:
        say_json({"folder": str(out), "plan": json.loads(plan_text(plan))})
    else:
        say(summary(plan, out))


def show_demo(plan: Plan, out: Path) -> None:
    """Print the demo's plan and what to try next.

    Parameters
    ----------
    plan : the plan.
    out : the demo's folder.
    """
    show_plan(plan, out / "plan")
    say(f"\nChange {out / 'commission.toml'} and plan it again with:")
    say(f"  moldwright plan {out / 'commission.toml'} --out {out / 'plan'}")
