"""However the events of a run come (shuffled, twice, in pieces, from two tablets), its state is the same."""

from __future__ import annotations

from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bench_plans import STEPS, Book, at, bench_plan

from moldwright.bench.run import run_state
from moldwright.log.any_events import Noted, Undone, Unread
from moldwright.log.event import Body
from moldwright.log.ids import EventId, LotId
from moldwright.log.run_events import (
    Begun,
    CupRef,
    CupTemperature,
    Divided,
    Done,
    Gauged,
    Gelled,
    LeftOut,
    Poured,
    ScaleChecked,
    ShopAir,
    Weighed,
    WentOn,
)
from moldwright.plan.ids import CoatId, MixId, StepId
from moldwright.plan.mixes import PartKind

steps = st.sampled_from([each.id for each in STEPS] + [StepId("unheard-of")])
turns = st.integers(0, 4)
cups = st.builds(
    CupRef,
    st.sampled_from([MixId(name) for name in ("coat-1.cup-1", "skin.cup-1", "back-fill.cup-1", "coat-7.cup-1")]),
    turns,
    st.integers(1, 3),
)
masses = st.floats(0.1, 400.0)
parts = st.sampled_from([PartKind.A, PartKind.B, PartKind.POWDER, PartKind.PIGMENT, PartKind.WATER])
bodies = st.one_of(
    st.builds(Begun, steps, turns),
    st.builds(Done, steps, turns),
    st.builds(LeftOut, steps, st.just("not wanted"), turns),
    st.builds(Weighed, cups, parts, masses, masses, st.none() | masses, st.just(""), st.none() | st.just(LotId("lot"))),  # type: ignore[arg-type]
    st.builds(Poured, cups),
    st.builds(Gelled, cups, st.floats(0.0, 1.0)),
    st.builds(Divided, cups, st.lists(st.integers(1, 4), max_size=2).map(tuple)),
    st.builds(WentOn, cups),
    st.builds(CupTemperature, cups, st.floats(-5.0, 80.0)),
    st.builds(ShopAir, st.floats(-5.0, 45.0), st.none() | st.floats(0.0, 100.0)),
    st.builds(Gauged, st.sampled_from([CoatId("coat-1"), CoatId("coat-9")]), st.just((0.4, 2.0))),
    st.builds(ScaleChecked, st.just("a"), st.just(200.0), st.floats(150.0, 250.0)),
    st.builds(Noted, st.just("a note")),
    st.just(Unread("torque", "{}")),
)
entries = st.lists(st.tuples(st.integers(0, 3000), bodies | st.integers(0, 60)), max_size=60)


def logged(told: list[tuple[int, Body | int]]) -> Book:
    """A log; a number in the place of an event strikes out the one of that number, which may be a line itself."""
    book = Book(casts=3)
    for minute, body in told:
        if isinstance(body, int):
            target = book.events[body].id if body < len(book.events) else EventId("of another run")
            body = Undone(target)  # noqa: PLW2901
        book.write(minute, body)
    return book


@settings(max_examples=150, deadline=None)
@given(entries, st.integers(0, 4000), st.randoms(use_true_random=False))
def test_any_order_and_any_repetition_give_an_equal_state(
    told: list[tuple[int, Body | int]], minute: int, chance: Random
) -> None:
    events = logged(told).events
    again = [*events, *chance.choices(events, k=len(events) // 2)]
    chance.shuffle(again)
    assert run_state(bench_plan(), again, at(minute)) == run_state(bench_plan(), events, at(minute))


@settings(max_examples=60, deadline=None)
@given(entries, entries)
def test_two_tablets_merge_in_whatever_pieces_they_send(
    one: list[tuple[int, Body | int]], other: list[tuple[int, Body | int]]
) -> None:
    """Each tablet sends twice what it had when it sent last; the ids of the two differ by their chance."""
    first, second = logged(one).events, logged(other).events[1:]
    apart = {event.id for event in first}
    second = [event for event in second if event.id not in apart]
    pieces = [*first[:5], *second[: len(second) // 2], *first, *second]
    assert run_state(bench_plan(), pieces, at(4000)) == run_state(bench_plan(), [*second, *first], at(4000))


@settings(max_examples=60, deadline=None)
@given(entries)
def test_what_is_struck_out_might_never_have_been_written(told: list[tuple[int, Body | int]]) -> None:
    """Acts, cups and findings are those of a log without it; only the mark that something was struck out differs."""
    book = logged([(minute, body) for minute, body in told if not isinstance(body, int)])
    before = run_state(bench_plan(), book.events, at(4000))
    for event in book.events[1:]:
        book.write(3500, Undone(event.id)) if not isinstance(event.body, Undone) else None
    after = run_state(bench_plan(), book.events, at(4000))
    fresh = run_state(bench_plan(), Book(casts=3).events, at(4000))
    assert (after.cups, after.findings, after.waits) == (fresh.cups, fresh.findings, fresh.waits)
    assert [act.holds for act in after.acts] == [act.holds for act in fresh.acts]
    assert before.frame == after.frame
