"""A run goes on by a plan that was made anew: what is done stays."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256

from moldwright.bench.plan_changed import PlanChanges
from moldwright.bench.plan_changes import plan_changes
from moldwright.log.event import About
from moldwright.log.ids import PlanId, RunId
from moldwright.log.run_events import Replanned
from moldwright.plan.json_text import plan_from_json
from moldwright.plan.plan import Plan
from moldwright.records.clock import BenchClock
from moldwright.records.runs.listing import RunRow, runs
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.write import opened
from moldwright.records.shop import Shop


@dataclass(frozen=True, slots=True)
class OtherPlan:
    """A plan that is another one than that by which a run goes.

    Parameters
    ----------
    old, new : the two plans.
    changes : what is other.
    kept : so many acts that are begun, done or left out stay.
    same : it is the very plan by which the run goes.
    """

    old: Plan
    new: Plan
    changes: PlanChanges
    kept: int
    same: bool


def other_plan(run: OpenRun, plan_text: str) -> OtherPlan:
    """What a plan would change in a run; nothing is written.

    Parameters
    ----------
    run : which.
    plan_text : of the other plan.json.
    """
    new = plan_from_json(plan_text)
    changes = plan_changes(run.plan, new, run.events)
    touched = sum(1 for act in run.state.acts if act.begun_ms is not None or act.done_ms is not None or act.why)
    return OtherPlan(run.plan, new, changes, touched - len(changes.done_gone), run.state.frame.plan == id_of(plan_text))


def replan(shop: Shop, clock: BenchClock, run: OpenRun | RunId, plan_text: str) -> OtherPlan:
    """Let a run go on by a plan that was made anew; the very plan by which it goes already changes nothing.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    run : which.
    plan_text : of the new plan.json.
    """
    before = opened(shop, run, clock.now())
    other = other_plan(before, plan_text)
    if not other.same:
        plan = shop.keep_plan(plan_text)
        shop.append([clock.event(About.RUN, before.id, Replanned(plan))])
    return other


def id_of(plan_text: str) -> PlanId:
    """The id by which a plan is kept.

    Parameters
    ----------
    plan_text : of the plan.json.
    """
    return PlanId(sha256(plan_text.encode()).hexdigest())


def under_way_by(shop: Shop, plan_text: str) -> tuple[RunRow, ...]:
    """The runs under way that go by a plan, the one in which something happened last first.

    Parameters
    ----------
    shop : the store.
    plan_text : of the plan.json.
    """
    plan = id_of(plan_text)
    return tuple(row for row in runs(shop, ended=False) if row.plan == plan)
