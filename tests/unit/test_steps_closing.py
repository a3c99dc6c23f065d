"""What a run at the bench needs of the plan: whose cure a wait is, what closes, what a part is taken from."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from conftest import Job
from steps_context import context
from told import NO_SHAPE

from moldwright.commission.orders import CastOrder
from moldwright.errors import InputRefused
from moldwright.materials import library
from moldwright.plan.clocks import Curing
from moldwright.plan.ids import NOWHERE
from moldwright.plan.json_text import plan_from_json, plan_to_json
from moldwright.plan.mixes import BACK_FILL, SKIN, MixKind
from moldwright.plan.plan import OLDEST_READ, SCHEMA_VERSION
from moldwright.plan.steps import StepPlan
from moldwright.steps.written import work


def step_after(job: Job, kind: MixKind, number: int) -> StepPlan:
    """The first step that waits for a cure behind the cups of one coat, or of a skin."""
    steps, plan = job.planned.plan.steps, job.planned.plan
    cups = [n for n, step in enumerate(steps) if any(plan.mix(mix).for_.kind is kind for mix in step.mixes)]
    return next(step for step in steps[cups[number] :] if step.wait_min is not None)


def test_a_coat_must_follow_within_the_tack_window_of_its_sheet(small_job: Job) -> None:
    """The sheet's window at 23 degC becomes longer in a cooler shop by one factor, which the wait has too."""
    plan = small_job.planned.plan
    first = step_after(small_job, MixKind.COAT, 0)
    assert first.cures == (Curing.RUBBER,)
    assert first.closes_min is not None
    assert first.wait_min is not None
    assert first.closes_min.low > first.wait_min.low
    following = next(step for step in plan.steps if step.id == first.closes_for)
    assert {plan.mix(mix).for_.coat for mix in following.mixes} == {plan.glove.coats[1].id}


def test_the_last_coat_closes_for_no_coat(small_job: Job) -> None:
    plan = small_job.planned.plan
    closed_for = {step.closes_for for step in plan.steps if step.closes_min is not None}
    coats = [step for step in plan.steps if any(plan.mix(mix).for_.kind is MixKind.COAT for mix in step.mixes)]
    assert {step.id for step in coats[1:]} <= closed_for
    assert coats[0].id not in closed_for


@pytest.mark.parametrize("backfill", ["", "none"])
def test_a_skin_closes_for_the_back_fill_when_it_is_tack_free(backfill: str) -> None:
    job = context(cast=CastOrder(backfill=backfill or CastOrder().backfill))
    made = work(job, library(), NO_SHAPE).steps
    skin = next(step for step in made if job.mixes_for(SKIN)[0].id in step.mixes)
    if backfill:
        assert (skin.closes_min, skin.closes_for) == (None, NOWHERE)
        return
    assert skin.wait_min is not None
    assert skin.closes_min is not None
    assert skin.closes_min.high == skin.wait_min.high
    assert skin.cures == (Curing.SKIN,)
    fill = next(step for step in made if step.id == skin.closes_for)
    assert fill.mixes == tuple(mix.id for mix in job.mixes_for(BACK_FILL))


def test_every_part_of_every_cup_is_taken_from_a_row_of_the_list(small_job: Job) -> None:
    plan = small_job.planned.plan
    listed = {need.stuff for need in plan.needs if need.part is not None}
    for mix in plan.mixes:
        for part in mix.parts:
            assert part.stuff in listed, (mix.id, part.kind)
            assert any(need.part is part.kind for need in plan.needs if need.stuff == part.stuff)


def test_a_plan_that_lacks_later_fields_is_read_and_one_of_another_time_is_not(small_job: Job) -> None:
    plan = small_job.planned.plan
    tree = json.loads(plan_to_json(plan))
    assert plan_from_json(plan_to_json(plan)) == plan_from_json(json.dumps(tree))
    for version in (OLDEST_READ - 1, SCHEMA_VERSION + 1, "6", 6.5):
        with pytest.raises(InputRefused, match="plan-version"):
            plan_from_json(json.dumps({**tree, "schema_version": version}))
    del tree["cures"]
    if OLDEST_READ < SCHEMA_VERSION:
        kept = plan_from_json(plan_to_json(plan))
        assert plan_from_json(json.dumps({**tree, "schema_version": OLDEST_READ})) == replace(kept, cures=())
    else:
        with pytest.raises(InputRefused, match="plan-unreadable"):
            plan_from_json(json.dumps(tree))
