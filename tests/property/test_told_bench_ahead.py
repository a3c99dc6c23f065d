"""Who goes on by what was told ahead sees, press by press, the very screen that the server makes of those events."""

from __future__ import annotations

import pytest
from conftest import Job
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bench_plans import Book, at, bench_plan
from tests.screens import at_when, event, place_of, pressed, settled, told

from moldwright.log.event import Event
from moldwright.log.run_events import ShopAir
from moldwright.plan.plan import Plan
from moldwright.told.bench.view import BenchTold

SLOW_MS = 20_000
"""A press takes up to so long: no wait of the plans ends within so many of them."""


def gone_through(plan: Plan, events: list[Event], start_ms: int, delays: list[int], most: int) -> tuple[BenchTold, int]:
    """Follow what was told ahead with presses of the tablet's own times; compares every screen. How many were seen."""
    first = told(plan, events, start_ms, presses=most)
    now, log, presses, passed = start_ms, list(events), dict[int, int](), frozenset[tuple[object, int, str]]()
    view, seen = first.view, 0
    for number, then in enumerate(first.ahead):
        if view.press != "wait":
            now += 1 + delays[number % len(delays)]
            presses[number] = now
            main = next((each for each in view.presses if each.events and each.main and not each.asks), None)
            if main is not None:
                log += pressed(main, now)
            elif view.press == "write":
                assert view.act is not None
                body = next(each for each in view.presses if each.id == "write").events[0].body
                passed |= {(view.act.step, view.act.turn, body["box"])}
        view, seen = then.view, seen + 1
        if then.not_before is not None:
            now = max(now, at_when(then.not_before.likely, presses))
        there = told(plan, log, now, place_of(view, passed)).view
        assert settled(view, presses, now) == settled(there, presses, now), f"after {number}"
    return first, seen


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
