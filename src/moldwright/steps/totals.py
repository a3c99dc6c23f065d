"""The work in totals, from the steps that stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import takewhile
from math import fsum

from moldwright.plan.ids import StepId
from moldwright.plan.steps import EACH_CAST, Per, StepPlan
from moldwright.plan.totals import DaysPlan, Lifted, LongWait, TotalsPlan
from moldwright.quantities.quantities import Quantities
from moldwright.steps.lifts import LIFT_FROM_KG
from moldwright.steps.schedule import Hours, coats_min, run
from moldwright.steps.waits import Wait, wait_s

WAITS_TOLD = 3


def totals(steps: Sequence[StepPlan], job: Quantities) -> TotalsPlan:
    """Hours of hands, longest waits, fewest days and what is lifted.

    Parameters
    ----------
    steps : those that stand, the maker's own among them.
    job : the rubber's tack window or its layers, and the shop's hours.
    """
    opens, closes = job.commission.shop.hours_min
    latest_min = wait_s(Wait.TACK_LATEST, job).likely / 60.0
    return totals_of(steps, Hours(opens, closes), latest_min, _layers(steps, job))


def _layers(steps: Sequence[StepPlan], job: Quantities) -> Mapping[StepId, int]:
    """Of a rubber that dries, how many layers a coat's steps lay and wait for; empty for all others."""
    if job.basis.chosen.rubber.pass_mm is None:
        return {}
    one_min = {each: wait_s(each, job).likely / 60.0 for each in (Wait.COAT_LAYERS, Wait.FILL_LAYERS)}
    counts: dict[StepId, int] = {}
    for step in steps:
        each = Wait.FILL_LAYERS if step.mixes else Wait.COAT_LAYERS
        if step.coat is not None:
            counts[step.id] = max(round(step.wait_min.likely / one_min[each]), 1) if step.wait_min else 1
    return counts


def totals_of(
    steps: Sequence[StepPlan], hours: Hours, tack_latest_min: float, layers: Mapping[StepId, int]
) -> TotalsPlan:
    """The same, from the times alone.

    Parameters
    ----------
    steps : those that stand.
    hours : of every day.
    tack_latest_min : how long after a coat's last stroke the next may start [min].
    layers : steps that lay so many layers, each with its share of the work and the wait; a night may part them.
    """
    return TotalsPlan(
        mold_labor_min=_labor(steps, Per.MOLD),
        cast_labor_min=_labor(steps, Per.CAST) + _labor(steps, Per.BATCH),
        edition_labor_min=_labor(steps, Per.EDITION),
        waits=_longest(steps),
        days=_days([part for step in steps for part in _parts(step, layers)], hours, tack_latest_min),
        lifts=tuple(Lifted(s.id, s.lift_kg) for s in steps if s.lift_kg is not None and s.lift_kg >= LIFT_FROM_KG),
    )


def _parts(step: StepPlan, layers: Mapping[StepId, int]) -> tuple[StepPlan, ...]:
    if step.id not in layers:
        return (step,)
    share = 1.0 / layers[step.id]
    wait = step.wait_min * share if step.wait_min else None
    return (replace(step, coat=None, labor_min=step.labor_min * share, wait_min=wait),) * layers[step.id]


def _labor(steps: Sequence[StepPlan], per: Per) -> float:
    return fsum(step.labor_min for step in steps if step.per is per)


def _longest(steps: Sequence[StepPlan]) -> tuple[LongWait, ...]:
    waits = [LongWait(step.id, step.wait_min) for step in steps if step.wait_min is not None]
    return tuple(sorted(waits, key=lambda wait: -wait.wait_min.likely)[:WAITS_TOLD])


def _days(steps: Sequence[StepPlan], hours: Hours, tack_latest_min: float) -> DaysPlan:
    """The mold's days end with the step before the first cast; what is done once later is no day of every cast."""
    mold = run(tuple(takewhile(lambda step: step.per is Per.MOLD, steps)), hours, tack_latest_min)
    cast = run(tuple(step for step in steps if step.per in EACH_CAST), hours, tack_latest_min)
    return DaysPlan(mold.days, cast.days, hours.day_min, coats_min(steps), mold.late, (*mold.longer, *cast.longer))
