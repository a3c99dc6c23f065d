"""The state of a run, told from a log that the test writes; all times are reckoned beside the check."""

from __future__ import annotations

import pytest
from tests.bench_plans import POWDER, A, B, Book, at, bench_plan, coat_cup, skin_cup

from moldwright.bench.acts import Act
from moldwright.bench.findings import Found
from moldwright.bench.now import ActState, HeldBy, TackStage, WaitStage
from moldwright.bench.run import RunState, run_state
from moldwright.log.any_events import Noted, Undone
from moldwright.log.event import Body
from moldwright.log.ids import MoldId, PlanId
from moldwright.log.run_events import Begun, BoxWritten, CastMeasured, Done, Ended, LeftOut, Replanned, Weighed
from moldwright.plan.ids import StepId

MOLD = ("receive", "release", "coat-1-mix", "coat-1", "coat-1-look", "hold", "cure")


def told(book: Book, minute: float) -> RunState:
    return run_state(bench_plan(), book.events, at(minute))


def states(state: RunState) -> dict[tuple[str, int], ActState]:
    return {(each.act.step, each.act.turn): each.state for each in state.acts}


def may(state: RunState) -> list[tuple[str, int]]:
    return [(each.act.step, each.act.turn) for each in state.may_begin]


def codes(state: RunState) -> list[Found]:
    return [finding.code for finding in state.findings]


def done(book: Book, minute: float, *steps: str, turn: int = 0) -> None:
    for step in steps:
        book.write(minute, Done(StepId(step), turn))


def test_a_run_begins_with_its_first_act() -> None:
    state = told(Book(), 0.0)
    assert may(state) == [("receive", 0)]
    assert states(state)["release", 0] is ActState.TO_COME
    assert state.act(Act(StepId("release"))).holds == (HeldBy(Act(StepId("receive"))),)  # type: ignore[union-attr]
    assert codes(state) == []
    assert state.frame.plan == PlanId("a" * 64)


def test_an_act_is_in_hand_then_waits_and_what_comes_next_waits_with_it() -> None:
    """The release is done at 10 min and dries 10, likely 20, at most 60 min: from 20, 30, 70."""
    book = Book()
    done(book, 5.0, "receive")
    book.write(6.0, Begun(StepId("release")))
    assert states(told(book, 7.0))["release", 0] is ActState.IN_HAND
    done(book, 10.0, "release")
    soon = told(book, 19.9)
    assert states(soon)["release", 0] is ActState.WAITING
    assert may(soon) == []
    (wait,) = soon.waits
    assert (wait.of.step, wait.stage, [act.step for act in wait.next]) == (
        "release",
        WaitStage.TOO_SOON,
        ["coat-1-mix"],
    )
    assert (wait.ends.low_ms, wait.ends.likely_ms, wait.ends.high_ms) == (at(20.0), at(30.0), at(70.0))
    stages = [told(book, minute).waits[0].stage for minute in (20.0, 30.0, 69.9)]
    assert stages == [WaitStage.MAY, WaitStage.LIKELY, WaitStage.LIKELY]
    assert told(book, 70.0).waits == ()
    assert may(told(book, 20.0)) == [("coat-1-mix", 0)]
    assert states(told(book, 20.0))["release", 0] is ActState.DONE


def test_two_lanes_lie_side_by_side() -> None:
    """Cast 1 is out of the mold at 2000: dressing it and resting the mold may both begin."""
    book = Book()
    done(book, 100.0, *MOLD)
    done(book, 1400.0, "powder-dry", "wash", turn=1)
    done(book, 1600.0, "seat", "skin", "fill", "set", "demold", turn=1)
    assert may(told(book, 2000.0)) == [("flash", 1), ("rest", 1)]
    done(book, 2000.0, "rest", "clean", turn=1)
    later = told(book, 2100.0)
    assert may(later) == [("flash", 1), ("powder-dry", 2), ("wash", 2)]
    done(book, 2200.0, "powder-dry", "wash", "seat", turn=2)
    held = told(book, 9000.0).act(Act(StepId("skin"), 2))
    assert held is not None
    assert held.holds == (HeldBy(Act(StepId("approve"))),)


def test_what_is_left_out_holds_nothing_and_passes_on_what_it_needed() -> None:
    book = Book()
    book.write(1.0, LeftOut(StepId("release"), "sealed already"))
    state = told(book, 2.0)
    assert states(state)["release", 0] is ActState.LEFT_OUT
    assert state.act(Act(StepId("release"))).why == "sealed already"  # type: ignore[union-attr]
    assert may(state) == [("receive", 0)]
    done(book, 3.0, "receive")
    assert may(told(book, 3.0)) == [("coat-1-mix", 0)]


def test_what_is_struck_out_counts_in_nothing_stays_told_and_may_be_done_again() -> None:
    book = Book()
    done(book, 1.0, "receive")
    pressed = book.write(2.0, Done(StepId("release")))
    book.write(3.0, Undone(pressed.id))
    state = told(book, 4.0)
    assert states(state)["release", 0] is ActState.STRUCK_OUT
    assert may(state) == [("release", 0)]
    done(book, 5.0, "release")
    again = told(book, 6.0).act(Act(StepId("release")))
    assert again is not None
    assert (again.state, again.done_ms, again.struck) == (ActState.WAITING, at(5.0), True)


def test_done_twice_is_done_once_unless_it_was_begun_again() -> None:
    book = Book()
    done(book, 1.0, "receive")
    done(book, 4.0, "receive")
    assert told(book, 5.0).act(Act(StepId("receive"))).done_ms == at(1.0)  # type: ignore[union-attr]
    book.write(6.0, Begun(StepId("receive")))
    assert states(told(book, 7.0))["receive", 0] is ActState.IN_HAND
    done(book, 8.0, "receive")
    assert told(book, 9.0).act(Act(StepId("receive"))).done_ms == at(8.0)  # type: ignore[union-attr]


def test_who_weighs_a_cup_has_begun_its_act() -> None:
    book = Book()
    book.write(30.0, Weighed(coat_cup(), B, 100.0, 100.0, 100.0))
    state = told(book, 31.0).act(Act(StepId("coat-1-mix")))
    assert state is not None
    assert (state.state, state.begun_ms) == (ActState.IN_HAND, at(30.0))


def test_begun_too_early_is_found() -> None:
    """The release of minute 10 dries till 20 at the earliest; begun at 15, 5 min after: too soon by 5."""
    book = Book()
    book.write(1.0, Begun(StepId("release")))
    done(book, 10.0, "release")
    book.write(15.0, Begun(StepId("coat-1-mix")))
    order, soon = told(book, 16.0).findings
    assert (order.code, order.act, order.need) == (
        Found.WRONG_ORDER, Act(StepId("release")), Act(StepId("receive")),
    )  # fmt: skip
    assert (soon.code, soon.act, soon.need) == (Found.TOO_SOON, Act(StepId("coat-1-mix")), Act(StepId("release")))
    assert {each.name: each.value for each in soon.quantities} == {"begun.after": 300.0, "wait.low": 600.0}


def test_entries_about_what_the_plan_has_not_are_kept_and_told() -> None:
    book = Book(casts=1)
    strangers: list[Body] = [
        Done(StepId("polish")),
        Done(StepId("skin"), 2),
        Weighed(skin_cup(4), A, 50.0, 50.0),
        Noted("no step at all"),
    ]
    for body in strangers:
        book.write(1.0, body)
    assert codes(told(book, 2.0)) == [Found.UNKNOWN_ACT, Found.UNKNOWN_ACT, Found.UNKNOWN_CUP]


def test_a_start_that_has_not_come_yet_is_told() -> None:
    state = run_state(bench_plan(3), [], at(0.0))
    assert codes(state) == [Found.NOT_STARTED]
    assert max(act.act.turn for act in state.acts) == 3


def test_a_new_plan_and_an_end() -> None:
    book = Book()
    book.write(5.0, Replanned(PlanId("b" * 64)))
    assert told(book, 6.0).frame.plan == PlanId("b" * 64)
    book.write(7.0, Ended("the client gave up"))
    state = told(book, 8.0)
    assert (state.frame.ended_ms, state.frame.why, may(state)) == (at(7.0), "the client gave up", [])
    assert states(state)["receive", 0] is ActState.TO_COME


def test_a_run_that_casts_from_the_shelf() -> None:
    state = told(Book(casts=1, mold=MoldId("m")), 0.0)  # type: ignore[arg-type]
    assert may(state) == [("powder-dry", 1), ("wash", 1)]
    assert state.frame.mold == "m"


def test_boxes_and_casts_are_told_as_they_were_last_written() -> None:
    book = Book()
    book.write(1.0, BoxWritten(StepId("cure"), "peeled", "401 g"))
    book.write(2.0, BoxWritten(StepId("cure"), "peeled", "410 g"))
    book.write(3.0, CastMeasured(1, mass_g=800.0))
    book.write(4.0, CastMeasured(1, height_mm=159.5))
    state = told(book, 5.0)
    assert [box.text for box in state.boxes] == ["410 g"]
    assert state.casts == (CastMeasured(1, 800.0, 159.5),)


@pytest.mark.parametrize("order", [(A, POWDER, B), (B, POWDER, A)])
def test_a_cup_counts_from_when_the_second_of_its_parts_went_in(order: tuple[object, ...]) -> None:
    """It must be out of the cup by 240 s less 100 s of swirling: 140 s."""
    masses = {A: 50.0, POWDER: 150.0, B: 50.0}
    book = Book(casts=1)
    for minute, kind in zip((10.0, 11.0, 12.0), order, strict=True):
        book.write(minute, Weighed(skin_cup(1), kind, masses[kind], masses[kind]))  # type: ignore[arg-type, index]
    clock = told(book, 12.5).cup(skin_cup(1)).clock  # type: ignore[union-attr]
    assert clock is not None
    assert (clock.from_ms, clock.out_by_ms, clock.work_by_ms) == (at(12.0), at(12.0) + 140_000, at(12.0) + 240_000)


def test_a_skin_is_too_soon_then_tacky_then_closing_then_too_late() -> None:
    """The skin of minute 100 is tacky from 108 to 132; the last fifth of those 24 min begins at 127.2."""
    book = Book()
    done(book, 100.0, "skin", turn=1)
    minutes = (107.9, 108.0, 127.1, 127.3, 131.9, 132.0)
    windows = [told(book, minute).windows for minute in minutes]
    assert [(one.of.step, one.next.step) for (one,) in windows] == [("skin", "fill")] * 6
    soon, tacky, closing, late = TackStage
    assert [one.stage for (one,) in windows] == [soon, tacky, tacky, closing, closing, late]
    assert (windows[0][0].closing_ms, windows[0][0].closes.likely_ms) == (at(127.2), at(132.0))


def test_a_window_ends_with_what_it_was_for_and_is_told_where_that_came_too_late() -> None:
    book = Book()
    done(book, 100.0, "skin", turn=1)
    book.write(140.0, Begun(StepId("fill"), 1))
    state = told(book, 141.0)
    assert state.windows == ()
    (late,) = (each for each in state.findings if each.code is Found.TOO_LATE)
    assert (late.act, late.need) == (Act(StepId("fill"), 1), Act(StepId("skin"), 1))
    assert {each.name: each.value for each in late.quantities} == {"begun.after": 2400.0, "window.closes": 1920.0}


def test_a_time_that_nobody_told_keeps_no_window_and_breaks_none() -> None:
    """Ticks and readings of a sheet without times: their order stands; no wait, window or clock is told of them."""
    book = Book(casts=1)
    for n, step in enumerate(("receive", "release", "coat-1-mix", "coat-1", "coat-1-look"), start=1):
        book.write(float(n), Done(StepId(step), timed=False))
    book.write(2.5, Weighed(coat_cup(), B, 100.0, 100.0, 100.0, timed=False))
    book.write(2.6, Weighed(coat_cup(), A, 100.0, 100.0, 200.0, timed=False))
    state = told(book, 6.0)
    assert (state.waits, state.windows, codes(state)) == ((), (), [])
    assert may(state) == [("hold", 0)]
    assert states(state)["coat-1-look", 0] is ActState.DONE
    cup = state.cup(coat_cup())
    assert cup is not None
    assert (cup.clock, cup.ratio) == (None, 1.0)
    book.write(7.0, Done(StepId("receive"), timed=True))
    assert codes(told(book, 8.0)) == []


def test_an_untimed_tick_out_of_order_is_told_where_what_it_needs_is_not_done() -> None:
    book = Book(casts=1)
    book.write(1.0, Done(StepId("release"), timed=False))
    (order,) = told(book, 2.0).findings
    assert (order.code, order.need) == (Found.WRONG_ORDER, Act(StepId("receive")))
