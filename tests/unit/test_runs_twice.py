"""One pour that two tablets told counts once: in the cup is what one scale showed, whichever came first.

Expected masses are what stands on one scale beside the cup, told in each test; 100.0 g of B are asked for first, and of
100 g the small plan lets 0.8 g be off (`tests/bench_plans.py`).
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from itertools import count, permutations
from typing import Any

import pytest
from tests.bench_plans import START, Book, bench_plan
from tests.unit.test_told_bench import at_coat

from moldwright.log.any_events import Undone
from moldwright.log.event import About
from moldwright.log.ids import RunId
from moldwright.log.run_events import CupRef, Started
from moldwright.log.standing import standing
from moldwright.log.uuid7 import uuid7
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.mixes import PartKind
from moldwright.records.clock import BenchClock
from moldwright.records.runs.opened import open_run
from moldwright.records.runs.received import Received, receive
from moldwright.records.runs.sent import Sender
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop
from moldwright.told.bench.told import bench_told
from moldwright.told.bench.view import BenchView
from moldwright.told.bench.view_press import PressShown

MINUTE, HOUR = 60_000, 3_600_000
NOW = START + 100 * HOUR
B = PartKind.B
IDS = count(1 << 16)


@pytest.fixture
def run(shop: Shop) -> RunId:
    """At the coat's cup; nothing is in it."""
    clock = BenchClock("desk", "", lambda: START)
    begun = start_run(shop, clock, plan_to_json(bench_plan(1)), 1).id
    book = at_coat(Book())
    shop.append(
        [clock.event(About.RUN, begun, e.body, e.at_ms) for e in book.events if not isinstance(e.body, Started)]
    )
    return begun


class At:
    """What two tablets send that were told how the run stood, each when it comes through."""

    def __init__(self, shop: Shop, run: RunId) -> None:
        self.shop, self.run, self._n = shop, run, 0

    def view(self) -> BenchView:
        return bench_told(self.shop, self.run, NOW, presses=0, overs=0)[1].view

    def entries(self, press: PressShown, second: float, **typed: str) -> list[dict[str, Any]]:
        at_ms, made = NOW + round(1000 * second), []
        for each in press.events:
            self._n += 1
            row = {"id": uuid7(at_ms, self._n << 40), "at_ms": at_ms, "kind": each.kind}
            made.append(row | {"body": json.loads(json.dumps(dict(each.body) | typed))})
        return made

    def send(self, device: str, entries: Sequence[dict[str, Any]]) -> Received:
        return receive(self.shop, self.run, json.dumps(list(entries)), Sender(device), NOW + HOUR)

    def in_g(self, kind: PartKind = B) -> float:
        cup = open_run(self.shop, self.run, NOW + HOUR).state.cup(CupRef(bench_plan(1).mixes[0].id))
        assert cup is not None
        return next(part.in_g for part in cup.parts if part.kind == kind)


@pytest.fixture
def at(shop: Shop, run: RunId) -> At:
    return At(shop, run)


def named(view: BenchView, id_: str) -> PressShown:
    return next(each for each in (*view.presses, *view.aside) if each.id == id_)


def way(view: BenchView, kind: str) -> PressShown:
    assert view.put_right is not None
    return next(each.press for each in view.put_right.ways if each.kind == kind)


@pytest.mark.parametrize("late", [False, True])
def test_two_right_are_one_pour_whichever_comes_through_first(at: At, late: bool) -> None:
    """Both tablets asked for 100.0 g of B and both were pressed; the scale shows 100.0 g. Minutes later is the same."""
    asked = at.view()
    first, second = at.entries(named(asked, "right"), 0), at.entries(named(asked, "right"), 600)
    pairs = [("one", first), ("two", second)]
    answers = [at.send(*each).answers[0] for each in (reversed(pairs) if late else pairs)]
    assert at.in_g() == 100.0
    assert [each.became.value for each in answers] == ["kept", "kept"]
    assert late or answers[1].told_by == "one"
    assert at.view().press == "weigh"
    lines = [e.body for e in at.shop.events_of(at.run) if isinstance(e.body, Undone)]
    assert [(line.event, line.told_by) for line in lines] == [(second[0]["id"], first[0]["id"])]
    again = at.send("two", second)
    assert again.answers[0].became.value == "known"
    assert len([e for e in at.shop.events_of(at.run) if isinstance(e.body, Undone)]) == 1


def test_the_next_part_of_both_counts_once_too(at: At) -> None:
    """A tablet without Wi-Fi went on by what it was told ahead; the other wrote the same. One cup, 200 g."""
    _, told = bench_told(at.shop, at.run, NOW, presses=2, overs=0)
    ahead = [named(view, "right") for view in (told.view, *(each.view for each in told.ahead))]
    both = [[row for n, press in enumerate(ahead) for row in at.entries(press, start + n)] for start in (0, 300)]
    for device, rows in zip(("one", "two"), both, strict=True):
        at.send(device, rows)
    assert [at.in_g(kind) for kind in (B, PartKind.A)] == [100.0, 100.0]


def test_some_and_the_rest_against_the_whole_is_one_pour(at: At) -> None:
    """One types 40 g, then pours up to 100.0; the other presses Right. All orders in which they come leave 100.0 g."""
    asked = at.view()
    short = at.entries(named(asked, "short"), 1, reads="40")
    rest = at.entries(named(asked, "short"), 20, reads="100")
    rest[0]["body"]["before_g"] = 40.0
    whole = at.entries(named(asked, "right"), 30)
    for order in permutations((("one", short), ("one", rest), ("two", whole))):
        each = At(at.shop, start_like(at))
        for device, rows in order:
            each.send(device, [row | {"id": uuid7(row["at_ms"], next(IDS) << 40)} for row in rows])
        assert each.in_g() == 100.0, [device for device, _ in order]
        assert each.view().press == "weigh"


def start_like(at: At) -> RunId:
    """Another run, where that one is."""
    clock = BenchClock("desk", "", lambda: START)
    begun = start_run(at.shop, clock, plan_to_json(bench_plan(1)), 1).id
    bodies = [e for e in at.shop.events_of(at.run) if not isinstance(e.body, Started)]
    at.shop.append([clock.event(About.RUN, begun, e.body, e.at_ms) for e in bodies])
    return begun


def test_readings_that_differ_are_asked_about_and_either_may_stand(at: At) -> None:
    """One pressed Right, 100.0 g; the other read 104.2 g on the same scale. Nothing is added: one of the two is right.
    The second stands from when it was read, so that the cup's clock begins no later."""
    asked = at.view()
    at.send("one", at.entries(named(asked, "right"), 0))
    typed = at.entries(named(asked, "over"), 2, reads="104.2")
    at.send("two", typed)
    assert at.in_g() == 100.0
    question = at.view()
    assert question.press == "put-right"
    assert question.put_right is not None
    assert [each.title for each in question.put_right.ways] == ["100.0 g, by one", "104.2 g, by two"]
    at.send("one", at.entries(way(question, "second-stands"), 50))
    assert at.in_g() == 104.2
    now = at.view()
    assert now.put_right is not None
    assert now.put_right.head.startswith("4.2 g too much")
    stand = standing(at.shop.events_of(at.run))
    assert [e.at_ms for e in stand if e.at_ms >= NOW] == [typed[0]["at_ms"]]


def test_the_first_stands_and_nobody_asks_again(at: At) -> None:
    asked = at.view()
    at.send("one", at.entries(named(asked, "right"), 0))
    at.send("two", at.entries(named(asked, "over"), 2, reads="104.2"))
    at.send("two", at.entries(way(at.view(), "first-stands"), 50))
    assert at.in_g() == 100.0
    assert at.view().press == "weigh"


def test_within_what_may_be_off_nobody_is_asked(at: At) -> None:
    """100.5 g is right as 100.0 g is: 0.8 g may be off."""
    asked = at.view()
    at.send("one", at.entries(named(asked, "right"), 0))
    at.send("two", at.entries(named(asked, "over"), 2, reads="100.5"))
    assert at.view().press == "weigh"


def test_lifted_out_twice_is_lifted_out_once(at: At) -> None:
    """104.2 g, of which 4.2 g are lifted out: 100.0 g, though both tablets say so."""
    at.send("one", at.entries(named(at.view(), "over"), 0, reads="104.2"))
    lift = way(at.view(), "lift-out")
    at.send("one", at.entries(lift, 10))
    at.send("two", at.entries(lift, 12))
    assert at.in_g() == pytest.approx(100.0, abs=1e-6)


def test_what_goes_on_from_what_was_seen_is_no_second_telling(at: At) -> None:
    """40 g, then 60 g more by the other tablet, which saw the 40: 100 g. Struck out and written anew is once, too."""
    at.send("one", at.entries(named(at.view(), "short"), 0, reads="40"))
    rest = at.entries(named(at.view(), "right"), 5)
    done = at.send("two", rest)
    assert (at.in_g(), done.answers[0].told_by) == (100.0, None)
    line = {"id": uuid7(NOW + 9000, 1 << 50), "at_ms": NOW + 9000, "kind": "undone", "body": {"event": rest[0]["id"]}}
    at.send("two", [line])
    done = at.send("two", at.entries(named(at.view(), "right"), 12))
    assert (at.in_g(), done.answers[0].told_by) == (100.0, None)
