"""`moldwright plan`: from a commission's file to a plan's folder."""

from __future__ import annotations

from pathlib import Path

from moldwright.desk.plan_runs import earlier_plan, tell_runs
from moldwright.desk.stage_bars import stages
from moldwright.making.order import gather
from moldwright.making.plan import plan_folder
from moldwright.making.store import store_of
from moldwright.plan.plan import Plan
from moldwright.plan.rough import RoughPlan


def run_plan(
    commission: Path, out: Path, quiet: bool = False, cache: Path | None = None, no_cache: bool = False
) -> Plan | RoughPlan:
    """Plan a commission into a folder and tell which runs go on by the plan that was there.

    Parameters
    ----------
    commission : the commission's file.
    out : the plan's folder.
    quiet : do not tell the stages.
    cache : where computed stages are kept.
    no_cache : keep nothing.
    """
    order, earlier = gather(commission), earlier_plan(out)
    with stages(quiet) as progress:
        plan = plan_folder(order, out, store_of(cache, no_cache), progress)
    if isinstance(plan, Plan):
        tell_runs(earlier, out)
    return plan
