"""Who does what may be done, in whatever order, and weighs what is asked for, comes to the end; nothing is found."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bench_plans import START, Book, at, bench_plan

from moldwright.bench.acts import Act
from moldwright.bench.now import ActNow, ActState
from moldwright.bench.run import RunState, run_state
from moldwright.log.run_events import Begun, Done, Poured, Weighed
from moldwright.plan.ids import StepId
from moldwright.plan.plan import Plan

MINUTE_MS = 60_000


def walked(plan: Plan, book: Book, choose: Callable[[tuple[ActNow, ...]], ActNow]) -> tuple[RunState, list[Act]]:
    """The last state, and the acts in the order in which they were done."""
    minute, order = 0.0, []
    while True:
        state = run_state(plan, book.events, at(minute))
        if state.may_begin:
            act = choose(state.may_begin)
            minute = worked(plan, book, act, minute)
            order.append(act.act)
        elif state.waits:
            minute = min(wait.ends.low_ms for wait in state.waits if wait.ends.low_ms > at(minute)) - START
            minute /= MINUTE_MS
        else:
            return state, order


def worked(plan: Plan, book: Book, act: ActNow, minute: float) -> float:
    """An act from its beginning to its end; when that is."""
    book.write(minute, Begun(act.act.step, act.act.turn))
    for cup in run_state(plan, book.events, at(minute)).cups_of(act.act):
        while True:
            now = run_state(plan, book.events, at(minute)).cup(cup.ref)
            assert now is not None
            if now.next is None:
                break
            minute += 0.1
            book.write(minute, Weighed(cup.ref, now.next.kind, now.next.target_g, now.next.add_g))
        book.write(minute + 0.1, Poured(cup.ref))
    book.write(minute + 1.0, Done(act.act.step, act.act.turn))
    return minute + 1.0


@settings(max_examples=12, deadline=None)
@given(st.integers(0, 4), st.integers(1, 3), st.randoms(use_true_random=False))
def test_whatever_is_chosen_of_what_may_be_done_leads_to_the_end(casts: int, batch: int, chance: Random) -> None:
    state, order = walked(bench_plan(), Book(casts, batch), chance.choice)
    assert {act.state for act in state.acts} <= {ActState.DONE, ActState.WAITING}
    assert len(order) == len(set(order)) == len(state.acts)
    assert state.findings == ()
    poured = {act.turn: n for n, act in enumerate(order) if act.step == "skin"}
    if len(poured) > 1:
        assert order.index(Act(StepId("approve"))) < poured[2]
    demolded = {act.turn: n for n, act in enumerate(order) if act.step == "demold"}
    assert all(demolded[turn] < poured[turn + 1] for turn in demolded if turn + 1 in poured)


def test_a_cast_is_dressed_while_the_next_is_in_the_mold() -> None:
    """Three of one batch: who turns to the latest one washes the mold for 3, then packs 2 in its wait."""
    _, order = walked(bench_plan(), Book(3, batch=3), lambda may: max(may, key=lambda act: act.act.turn))
    assert order.index(Act(StepId("wash"), 3)) < order.index(Act(StepId("pack"), 2))
    assert order.index(Act(StepId("pack"), 2)) < order.index(Act(StepId("demold"), 3))
