"""A run on a screen in tests: gone through press by press, as a tablet does, offline or not."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import count

from tests.bench_plans import RUN

from moldwright.bench.acts import Act
from moldwright.bench.run import RunFold
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, RunId
from moldwright.log.json_text import body_of, compact
from moldwright.log.uuid7 import uuid7
from moldwright.plan.plan import Plan
from moldwright.records.runs.ahead import ShelfNow
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.place import BenchPlace
from moldwright.told.bench.told import told_of_run
from moldwright.told.bench.view import BenchTold, BenchView
from moldwright.told.bench.view_press import PressShown
from moldwright.told.bench.when import When, Whens

TABLET = "tablet 1"
_IDS = count(1)


def told(
    plan: Plan,
    events: Iterable[Event],
    now_ms: int,
    place: BenchPlace | None = None,
    presses: int = 0,
    overs: int = 0,
    turns: int = 0,
    shelf: ShelfNow | None = None,
) -> BenchTold:
    """What the server tells of a run at a moment."""
    fold, log = RunFold(plan), tuple(events)
    run = OpenRun(RunId(RUN), plan, log, fold.state(log, now_ms))
    return told_of_run(fold, run, shelf or ShelfNow((), "2026-11-02"), place or BenchPlace(), presses, overs, turns)


def pressed(press: PressShown, at_ms: int) -> list[Event]:
    """The events that a press writes, made as a tablet makes them: from its templates alone."""
    bodies = [body_of(each.kind, compact(each.body)) for each in press.events]
    return [event(body, at_ms) for body in bodies]


def event(body: Body, at_ms: int) -> Event:
    """An event of the tablet."""
    return Event(EventId(uuid7(at_ms, next(_IDS) << 40)), About.RUN, RUN, at_ms, TABLET, "", body)


def at_when(when: When, presses: dict[int, int]) -> int:
    """A moment by the clock, from when each press was made."""
    return when.ms if when.after is None else presses[when.after] + when.ms


def place_of(view: BenchView, passed: frozenset[tuple[object, int, str]]) -> BenchPlace:
    """Where a tablet is that shows a view."""
    act = None if view.act is None else Act(view.act.step, view.act.turn)
    return BenchPlace(act, passed)  # type: ignore[arg-type]


def settled(view: BenchView, presses: dict[int, int], now_ms: int) -> BenchView:
    """A view with all its moments by the clock, and without what a screen leaves out by itself: waits that are over;
    from when on what may be begun already could be."""

    def whens(ends: Whens) -> Whens:
        return Whens(*(When(at_when(each, presses)) for each in (ends.low, ends.likely, ends.high)))

    def when(at: When) -> When:
        return When(at_when(at, presses))

    clocks = tuple(
        replace(
            each,
            start=when(each.start),
            last_from=when(each.last_from),
            out_by=when(each.out_by),
            work_by=when(each.work_by),
        )
        for each in view.clocks
    )
    windows = tuple(
        replace(
            each,
            start=when(each.start),
            opens=whens(each.opens),
            closing=when(each.closing),
            closes=whens(each.closes),
        )
        for each in view.windows
    )
    waits = tuple(
        replace(each, start=when(each.start), ends=whens(each.ends))
        for each in view.waits
        if at_when(each.ends.high, presses) > now_ms
    )
    others = tuple(
        replace(each, since=None if each.since is None or at_when(each.since, presses) <= now_ms else when(each.since))
        for each in view.others
    )
    return replace(view, clocks=clocks, windows=windows, waits=waits, others=others)
