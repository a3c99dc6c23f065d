"""A plan that is made anew under a run: what changed is told, what is done stays."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.bench_plans import COAT_1, COAT_CUP, MIXES, STEPS, A, B, Book, at, bench_plan, coat_cup, skin_cup, step

from moldwright.bench.acts import Act
from moldwright.bench.cup_now import PartState
from moldwright.bench.findings import Found
from moldwright.bench.now import ActState
from moldwright.bench.plan_changed import Altered, CoatChange, PartChange, StepChange
from moldwright.bench.plan_changes import plan_changes
from moldwright.bench.run import run_state
from moldwright.log.ids import PlanId
from moldwright.log.run_events import Done, Poured, Replanned, Weighed
from moldwright.plan.ids import StepId
from moldwright.plan.mixes import MixPlan
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Phase
from moldwright.ranges import Range


def heavier(mix: MixPlan, factor: float) -> MixPlan:
    return replace(mix, parts=tuple(replace(part, mass_g=part.mass_g * factor) for part in mix.parts))


def changed(**more: object) -> Plan:
    return replace(bench_plan(), **more)  # type: ignore[arg-type]


def test_the_same_plan_changes_nothing() -> None:
    assert plan_changes(bench_plan(), bench_plan()).nothing


def test_steps_that_came_went_changed_or_stand_elsewhere_are_told_by_their_ids() -> None:
    """Sealing comes in, flash goes, the release dries longer, clean stands before rest."""
    by = {each.id: each for each in STEPS}
    longer = replace(by[StepId("release")], wait_min=Range(20.0, 40.0, 90.0))
    order = [
        "receive",
        "seal",
        "release",
        *(id_ for id_ in by if id_ not in {"receive", "release", "flash", "rest", "clean", "store"}),
        "clean",
        "rest",
        "store",
    ]
    known = {**by, StepId("release"): longer, StepId("seal"): step("seal", Phase.BEFORE_RUBBER)}
    told = plan_changes(bench_plan(), changed(steps=tuple(known[StepId(id_)] for id_ in order)))
    assert (told.steps_new, told.steps_gone) == (("seal",), ("flash",))
    moved = [each.step for each in told.steps if Altered.PLACE in each.altered]
    assert StepChange(StepId("release"), (Altered.WAIT,)) in told.steps
    assert moved in (["rest"], ["clean"])
    assert not told.nothing


def test_cups_and_coats_are_told_with_old_and_new_figures() -> None:
    plan = bench_plan()
    coat = replace(plan.glove.coats[0], thickness_mm=2.4)
    new = changed(
        mixes=(heavier(MIXES[0], 1.2), *MIXES[1:]),
        glove=replace(plan.glove, coats=(coat,)),
        rubber="another rubber",
        temperature_c=25.0,
    )
    told = plan_changes(plan, new)
    (cup,) = told.cups
    stuff = MIXES[0].parts[0].stuff
    assert cup.cup == COAT_CUP
    assert cup.parts[0] == PartChange(B, 100.0, 120.0, stuff, stuff)
    assert told.coats == (CoatChange(COAT_1, 2.0, 2.4),)
    assert (told.rubber, told.temperature_c) == ((plan.rubber, "another rubber"), (22.0, 25.0))


def test_what_was_done_and_the_new_plan_lacks_is_told_and_kept() -> None:
    book = Book(casts=1)
    book.write(1.0, Done(StepId("flash"), 1))
    book.write(2.0, Weighed(skin_cup(1), A, 50.0, 50.0))
    new = changed(steps=tuple(each for each in STEPS if each.id != "flash"), mixes=(MIXES[0], MIXES[2]))
    told = plan_changes(bench_plan(), new, book.events)
    assert told.done_gone == (Act(StepId("flash"), 1),)
    assert (told.cups_gone, told.weighed_gone) == (("skin.cup-1",), (skin_cup(1),))


def test_what_is_new_before_what_is_done_is_told_and_no_order_is_found_wrong_for_it() -> None:
    """Sealing comes in between two steps that are done; the act that followed was in order when it was done."""
    book = Book()
    book.write(1.0, Done(StepId("receive")))
    book.write(2.0, Done(StepId("release")))
    book.write(30.0, Done(StepId("coat-1-mix")))
    book.write(40.0, Replanned(PlanId("b" * 64)))
    at_ = next(n for n, each in enumerate(STEPS) if each.id == "coat-1-mix")
    late = len(STEPS) - 1
    sealed = (*STEPS[:at_], step("seal", Phase.BEFORE_RUBBER), *STEPS[at_:late], step("last", Phase.LAST), STEPS[late])
    new = changed(steps=sealed)
    told = plan_changes(bench_plan(), new, book.events)
    assert told.new_before == (Act(StepId("seal")),)
    state = run_state(new, book.events, at(50.0))
    assert [each.code for each in state.findings if each.code is Found.WRONG_ORDER] == []
    acts = {each.act.step: each.state for each in state.acts}
    assert (acts[StepId("coat-1-mix")], acts[StepId("seal")]) == (ActState.DONE, ActState.READY)


def test_a_cup_that_was_used_stays_as_it_was_and_one_to_come_is_weighed_anew() -> None:
    """The coat's cup of 100 g was laid before its masses became 120; the skin has 50 g of A where 60 are wanted."""
    book = Book(casts=1)
    for kind in (B, A):
        book.write(1.0, Weighed(coat_cup(), kind, 100.0, 100.0))
    book.write(2.0, Poured(coat_cup()))
    book.write(3.0, Weighed(skin_cup(1), A, 50.0, 50.0))
    book.write(40.0, Replanned(PlanId("b" * 64)))
    new = changed(mixes=(heavier(MIXES[0], 1.2), heavier(MIXES[1], 1.2), MIXES[2]))
    state = run_state(new, book.events, at(50.0))
    used, skin = state.cup(coat_cup()), state.cup(skin_cup(1))
    assert used is not None
    assert skin is not None
    assert [part.state for part in used.parts] == [PartState.RIGHT] * 3
    assert skin.next is not None
    assert (skin.next.kind, skin.next.add_g) == (A, pytest.approx(10.0))
    assert [each.code for each in state.findings if each.cup == coat_cup()] == []
    assert plan_changes(bench_plan(), new, book.events).weighed_other == (coat_cup(), skin_cup(1))
