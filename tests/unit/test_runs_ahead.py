"""What comes next if every press goes right: in the order of the work, waits told by what they count from."""

from __future__ import annotations

from collections import Counter

from tests.bench_plans import MINUTE, RUN, Book, at, bench_plan

from moldwright.bench.run import RunFold
from moldwright.log.event import Event
from moldwright.log.ids import RunId
from moldwright.log.run_events import Done, Ended, Poured, ShopAir, Weighed
from moldwright.plan.ids import StepId
from moldwright.plan.plan import Plan
from moldwright.records.runs.ahead import MOST, ShelfNow, Stand, ahead
from moldwright.records.runs.next_act import Press
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.place import BenchPlace

SHELF = ShelfNow((), "2026-11-02")


def stands(plan: Plan, events: list[Event], minute: float, most: int = MOST) -> list[Stand]:
    fold = RunFold(plan)
    run = OpenRun(RunId(RUN), plan, tuple(events), fold.state(events, at(minute)))
    return list(ahead(fold, run, BenchPlace(), SHELF, most))


def test_the_whole_run_is_gone_through_once() -> None:
    """Every act is done once, every part of every cup weighed once, every cup laid once; then the run is over."""
    plan = bench_plan(2)
    gone = stands(plan, Book(2).events, 1.0)
    assert gone[-1].next.press is Press.ENDED
    bodies = [body for stand in gone for body in stand.writes]
    done = Counter((body.step, body.turn) for body in bodies if isinstance(body, Done))
    assert set(done.values()) == {1}
    assert len(done) == len(gone[0].run.state.acts)
    weighed = Counter((body.cup, body.part) for body in bodies if isinstance(body, Weighed))
    assert set(weighed.values()) == {1}
    assert len(weighed) == 3 + 2 * (3 + 2)
    assert sum(isinstance(body, Poured) for body in bodies) == 1 + 2 * 2
    assert sum(isinstance(body, Ended) for body in bodies) == 1
    assert gone[-1].run.state.findings == ()


def test_nothing_of_the_run_itself_is_written() -> None:
    book = Book(1)
    before = list(book.events)
    gone = stands(bench_plan(1), book.events, 1.0)
    assert book.events == before
    assert gone[0].run.events == tuple(before)


def test_where_all_must_wait_it_goes_on_at_the_likely_end() -> None:
    """The release dries for 10 to 60 min, likely 20; nothing else may be done meanwhile."""
    gone = stands(bench_plan(1), Book(1).events, 1.0, most=8)
    wait = next(n for n, stand in enumerate(gone) if stand.next.press is Press.WAIT)
    before, after = gone[wait - 1], gone[wait + 1]
    assert [body for body in before.writes if isinstance(body, Done)] == [Done(StepId("release"))]
    till = after.not_before
    assert till is not None
    released = gone[wait].run.events[-1].at_ms
    assert till.from_ms == released
    assert [end - released for end in (till.ends.low_ms, till.ends.likely_ms, till.ends.high_ms)] == [
        10 * MINUTE,
        20 * MINUTE,
        60 * MINUTE,
    ]
    assert after.run.state.now_ms == released + 20 * MINUTE


def test_the_air_that_was_read_holds_for_what_comes() -> None:
    """Read at the plan's 22 degC: all waits are as planned; at 32 degC the rubber's are shorter (Arrhenius)."""
    cool, warm = (
        stands(bench_plan(1), [*Book(1).events, Book(1).write(0.5, ShopAir(degrees))], 1.0, most=40)
        for degrees in (22.0, 32.0)
    )

    def cures(gone: list[Stand]) -> int:
        return max(
            till.ends.likely_ms - till.from_ms
            for stand in gone
            if (till := stand.not_before) is not None and stand.next.act is not None
        )

    assert cures(cool) == 900 * MINUTE
    assert cures(warm) < 900 * MINUTE


def test_so_many_and_no_more() -> None:
    assert len(stands(bench_plan(3), Book(3).events, 1.0, most=5)) == 5
    ended = Book(1)
    ended.write(1.0, Ended(""))
    assert [stand.next.press for stand in stands(bench_plan(1), ended.events, 2.0)] == [Press.ENDED]
