"""Who goes on by what was told ahead sees, press by press, the very screen that the server makes of those events."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Sequence

import pytest
from conftest import Job
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bench_plans import MOLD_STEPS, B, Book, at, bench_plan, coat_cup
from tests.screens import at_when, event, place_of, settled, told

from moldwright.log.event import Body, Event
from moldwright.log.json_text import body_of, compact
from moldwright.log.run_events import Done, ShopAir, Weighed
from moldwright.plan.ids import StepId
from moldwright.plan.plan import Plan
from moldwright.records.runs.said import SAID, meant_by
from moldwright.store.walk import Reader, read
from moldwright.told.bench.view import AheadShown, BenchTold, BenchView
from moldwright.told.bench.view_press import PressShown

SLOW_MS = 20_000
"""A press takes up to so long: no wait of the plans ends within so many of them."""


class Tablet:
    """Goes on by what it was told ahead, with presses of its own times; each screen is compared with the server's."""

    def __init__(self, plan: Plan, events: list[Event], now_ms: int, delays: list[int]) -> None:
        self.plan, self.log, self.now, self.delays = plan, list(events), now_ms, delays
        self.presses, self.passed = dict[int, int](), frozenset[tuple[object, int, str]]()
        self.number = 0

    def like(self) -> Tablet:
        """Another one that stands there too."""
        other = Tablet(self.plan, self.log, self.now, self.delays)
        other.presses, other.passed, other.number = dict(self.presses), self.passed, self.number
        return other

    def press(self, view: BenchView, press: PressShown | None = None) -> None:
        """The main press, or another one of the screen; what it asks for is left empty."""
        if press is None and view.press == "wait":
            return
        self.now += 1 + self.delays[self.number % len(self.delays)]
        self.presses[self.number] = self.now
        main = press or next((each for each in offered(view) if each.events and each.main and not each.asks), None)
        if main is not None:
            self.log += [event(body, self.now) for body in meant(self.plan, main)]
        elif view.press == "write":
            assert view.act is not None
            body = next(each for each in view.presses if each.id == "write").events[0].body
            self.passed |= {(view.act.step, view.act.turn, body["box"])}

    def sees(self, then: AheadShown) -> None:
        """The next screen is the one that the server makes of the log."""
        if then.not_before is not None:
            self.now = max(self.now, at_when(then.not_before.likely, self.presses))
        there = told(self.plan, self.log, self.now, place_of(then.view, self.passed)).view
        mine = settled(then.view, self.presses, self.now)
        assert mine == settled(there, self.presses, self.now), f"after {self.number}"
        self.number += 1

    def follows(self, view: BenchView, line: Sequence[AheadShown]) -> Iterator[AheadShown]:
        """On through a line of screens."""
        for then in line:
            self.press(view)
            self.sees(then)
            yield then
            view = then.view


def meant(plan: Plan, press: PressShown) -> Iterator[Body]:
    """What a press writes, as the server takes it."""
    for each in press.events:
        text = compact(each.body)
        said = SAID.get(each.kind)
        yield (
            body_of(each.kind, text) if said is None else meant_by(plan, read(said, json.loads(text), Reader(), "body"))
        )


def gone_through(plan: Plan, events: list[Event], start_ms: int, delays: list[int], most: int) -> tuple[BenchTold, int]:
    """Follow what was told ahead; compares every screen. How many were seen."""
    first = told(plan, events, start_ms, presses=most)
    return first, len(list(Tablet(plan, events, start_ms, delays).follows(first.view, first.ahead)))


def turned_aside(plan: Plan, events: list[Event], start_ms: int, delays: list[int], turns: int) -> Counter[str]:
    """At each of so many screens each press that turns the work aside, and on from there; compares every screen. Which
    were pressed, and how often."""
    first = told(plan, events, start_ms, presses=turns, turns=turns)
    tablet, gone = Tablet(plan, events, start_ms, delays), Counter[str]()
    here, line = AheadShown(first.view, None, (), first.turns), iter(tablet.follows(first.view, first.ahead))
    while here is not None:
        for press in offered(here.view):
            if aside := here.turns.get(press.turn):
                other = tablet.like()
                other.press(here.view, press)
                other.sees(aside[0])
                gone[press.id] += 1 + len(list(other.follows(aside[0].view, aside[1:])))
        here = next(line, None)
    return gone


def offered(view: BenchView) -> tuple[PressShown, ...]:
    """What may be pressed on a screen, the ways to put a cup right too."""
    ways = () if view.put_right is None else view.put_right.ways
    return (*view.presses, *view.aside, *(way.press for way in ways))


@settings(max_examples=12, deadline=None)
@given(
    st.integers(0, 3),
    st.integers(1, 2),
    st.lists(st.integers(0, SLOW_MS), min_size=1, max_size=7),
    st.sampled_from([None, 22.0]),
)
def test_the_small_run_ahead(casts: int, batch: int, delays: list[int], air: float | None) -> None:
    book = Book(casts, batch)
    events = [*book.events, *([event(ShopAir(air), at(0.1))] if air is not None else [])]
    first, seen = gone_through(bench_plan(3), events, at(1.0), delays, 300)
    assert seen == len(first.ahead)
    assert first.ahead[-1].view.press == "ended"


@pytest.mark.parametrize("delays", [[0], [1000, 17_000, 3]])
def test_a_real_run_ahead(small_job: Job, delays: list[int]) -> None:
    plan = small_job.planned.plan
    first, seen = gone_through(plan, Book(1).events, at(1.0), delays, 150)
    assert seen == len(first.ahead) >= 90


@settings(max_examples=4, deadline=None)
@given(st.lists(st.integers(0, SLOW_MS), min_size=1, max_size=7))
def test_where_the_work_turns_aside_it_goes_on_as_the_server_tells(delays: list[int]) -> None:
    """From before the coat's cup to behind it, then from before a cast's skin: a step left out, a cup that gelled."""
    book = Book(2)
    book.write(1.0, Done(StepId("receive")))
    coat = turned_aside(bench_plan(2), book.events, at(30.0), delays, 12)
    assert coat["leave-out"] > 60
    assert coat["gelled"] > 30
    for step in MOLD_STEPS[1:]:
        book.write(60.0, Done(step))
    cast = turned_aside(bench_plan(2), book.events, at(6000.0), delays, 16)
    assert cast["gelled"] > 30


@pytest.mark.parametrize("poured_g", [104.0, 400.0])
def test_an_over_pour_that_is_shown_already_goes_on_as_the_server_tells(poured_g: float) -> None:
    """100 g are asked for. 400 g ask for as much of the other part, which a cup of 400 g does not hold."""
    book = Book(1)
    for step in MOLD_STEPS[:2]:
        book.write(1.0, Done(step))
    book.write(70.0, Weighed(coat_cup(), B, 100.0, poured_g))
    gone = turned_aside(bench_plan(1), book.events, at(71.0), [1000], 1)
    assert gone["start-again"] > 5
    assert gone["lift-out"] > 5
    assert bool(gone["divide"]) == (poured_g == 400.0)


def test_what_follows_a_turn_of_a_real_run(small_job: Job) -> None:
    gone = turned_aside(small_job.planned.plan, Book(1).events, at(1.0), [17_000, 3], 40)
    assert gone["leave-out"] > 100
    assert gone["gelled"] > 20
