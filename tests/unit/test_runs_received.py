"""Entries that a tablet made by itself: each kept once, in order, or refused with why; nothing else is lost."""

from __future__ import annotations

import json
import time
from collections.abc import Iterable
from dataclasses import replace
from itertools import count
from typing import Any

import pytest
from tests.bench_plans import COAT_CUP, START, bench_plan

from moldwright.bench.cup_now import CupState
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.any_events import Undone
from moldwright.log.ids import RunId
from moldwright.log.kinds import NAMES
from moldwright.log.run_events import BoxWritten, CupRef, Gauged, ScaleChecked, ShopAir, Weighed
from moldwright.log.uuid7 import uuid7
from moldwright.plan.ids import CoatId
from moldwright.plan.json_text import tree_of
from moldwright.plan.lines import Line
from moldwright.plan.plan import Plan
from moldwright.records.clock import BenchClock
from moldwright.records.runs.opened import open_run
from moldwright.records.runs.received import Became, Received, receive
from moldwright.records.runs.sent import KINDS, MADE_BY_SCREENS, MOST_EVENTS, Sender
from moldwright.records.runs.start import start_run
from moldwright.records.runs.write import end_run
from moldwright.records.shop import Shop

MINUTE, HOUR, DAY = 60_000, 3_600_000, 86_400_000
SENDER = Sender("tablet 2", "Ada")
CUP = {"mix": COAT_CUP, "turn": 0, "filling": 1}
IDS = count(1)


@pytest.fixture
def clock() -> BenchClock:
    return BenchClock("desk", "", lambda: START)


@pytest.fixture
def plan() -> Plan:
    """The small plan; its steps ask for air and a line of one's own."""
    whole = bench_plan(2)
    first = replace(whole.steps[0], write=(Line("lay-out.write.1"), Line("", "Draft in the shop")))
    return replace(whole, steps=(first, *whole.steps[1:]), needs=(), totals=replace(whole.totals, waits=(), lifts=()))


@pytest.fixture
def run(shop: Shop, clock: BenchClock, plan: Plan) -> RunId:
    return start_run(shop, clock, json.dumps(tree_of(plan)), 2).id


def entry(kind: str, minute: float = 1.0, **body: Any) -> dict[str, Any]:
    at_ms = START + round(minute * MINUTE)
    return {"id": uuid7(at_ms, next(IDS) << 40), "at_ms": at_ms, "kind": kind, "body": body}


def weighed(mass_g: float, minute: float = 1.0, part: str = "B", **more: Any) -> dict[str, Any]:
    return entry("weighed", minute, cup=CUP, part=part, target_g=100.0, mass_g=mass_g, **more)


def sent(shop: Shop, run: RunId, items: Iterable[Any], minute: float = 30.0) -> Received:
    return receive(shop, run, json.dumps(list(items)), SENDER, START + round(minute * MINUTE))


def codes(done: Received) -> list[str]:
    return [each.became.value if each.refusal is None else each.refusal.code for each in done.answers]


def test_a_batch_is_kept_once_and_in_order(shop: Shop, run: RunId) -> None:
    items = [weighed(100.0), weighed(100.0, 2.0, "A"), entry("poured", 3.0, cup=CUP)]
    first = sent(shop, run, reversed(items))
    assert codes(first) == ["kept"] * 3
    again = sent(shop, run, items)
    assert codes(again) == ["known"] * 3
    log = open_run(shop, run, START + HOUR).events
    assert [event.id for event in log[1:]] == [item["id"] for item in items]
    assert {(event.bench, event.by) for event in log[1:]} == {("tablet 2", "Ada")}
    cup = again.run.state.cup(CupRef(COAT_CUP))
    assert cup is not None
    assert (cup.state, cup.in_g) == (CupState.ON_THE_WORK, 200.0)


def test_one_that_is_refused_keeps_no_other(shop: Shop, run: RunId) -> None:
    strange = entry("done", 2.0, step="no-such-step")
    done = sent(shop, run, [weighed(100.0), strange, entry("noted", 3.0, text="it wobbled")])
    assert codes(done) == ["kept", "act-not-in-plan", "kept"]
    assert done.answers[1].refusal is not None
    assert done.answers[1].refusal.remedy
    assert len(open_run(shop, run, START).events) == 3


def test_one_id_with_another_body_is_refused(shop: Shop, run: RunId) -> None:
    first = weighed(100.0)
    other = first | {"body": first["body"] | {"mass_g": 90.0}}
    assert codes(sent(shop, run, [first, other])) == ["kept", "event-differs"]
    assert codes(sent(shop, run, [other, first])) == ["event-differs", "known"]


def test_what_was_typed_is_read_as_at_the_bench(shop: Shop, run: RunId) -> None:
    """100.6 g on a scale that showed 0: 100.6 g. 3.53 oz are 100.07 g (28.349523 g each). 24.5 degC and 45 %. 1.2 and
    1.6 mm. 50 % of a gelled cup. Boxes become the events that they stand for."""
    told = {"cup": CUP, "target_g": 100.0, "units": "metric"}
    box = {"step": "receive", "units": "metric"}
    done = sent(
        shop,
        run,
        [
            entry("said-reading", 1.0, part="B", before_g=0.0, reads="100,6", **told),
            entry("said-reading", 2.0, part="A", before_g=100.6, reads="7.078 oz", **told),
            entry("said-air", 3.0, air="24.5 45 %", units="metric"),
            entry("said-gauge", 4.0, coat="coat-1", places="1.2 1.6", units="metric"),
            entry("said-scale", 5.0, weight="100", reads="99.8", units="metric"),
            entry("said-box", 6.0, box="lay-out.write.1", text="75 F", **box | {"units": "us"}),
            entry("said-box", 7.0, box="own.2", text="none", **box),
            entry("said-gelled", 8.0, cup=CUP, used="50 %"),
        ],
    )
    assert codes(done) == ["kept"] * 8
    bodies = [event.body for event in open_run(shop, run, START + HOUR).events[1:]]
    one, two, air, gauged, scale, warm, own, gelled = bodies
    assert isinstance(one, Weighed)
    assert isinstance(two, Weighed)
    assert (one.mass_g, one.reads_g) == (100.6, 100.6)
    assert two.mass_g == pytest.approx(7.078 * 28.349523125 - 100.6, abs=1e-3)
    assert air == ShopAir(24.5, 45.0)
    assert gauged == Gauged(CoatId("coat-1"), (1.2, 1.6))
    assert scale == ScaleChecked("", 100.0, 99.8)
    assert isinstance(warm, ShopAir)
    assert warm.temperature_c == pytest.approx((75.0 - 32.0) * 5.0 / 9.0, abs=0.01)
    assert isinstance(own, BoxWritten)
    assert own.text == "none"
    assert getattr(gelled, "used", None) == 0.5


def test_what_cannot_be_read_is_told(shop: Shop, run: RunId) -> None:
    less = entry("said-reading", cup=CUP, part="B", target_g=1.0, before_g=50.0, reads="40", units="metric")
    words = entry("said-mass", cup=CUP, part="B", target_g=1.0, mass="a lot", units="metric")
    box = entry("said-box", step="receive", box="no.1", text="x", units="metric")
    share = entry("said-gelled", cup=CUP, used="120 %")
    told = codes(sent(shop, run, [less, words, box, share]))
    assert told == ["reads-less-than-before", "quantity-unclear", "no-box", "share-unclear"]


def test_a_run_that_ended_takes_what_was_before_its_end(shop: Shop, clock: BenchClock, run: RunId) -> None:
    end_run(shop, clock, run)
    before, after = weighed(100.0, -1.0), weighed(100.0, 5.0, "A")
    assert codes(sent(shop, run, [before, after])) == ["kept", "run-ended"]
    ended = next(e.id for e in open_run(shop, run, START).events if NAMES[type(e.body)] == "ended")
    again = sent(shop, run, [entry("undone", 6.0, event=ended), after])
    assert codes(again) == ["kept", "kept"]
    assert again.run.state.frame.ended_ms is None


def test_lines_go_through_entries_of_this_run_alone(shop: Shop, clock: BenchClock, plan: Plan, run: RunId) -> None:
    other = start_run(shop, clock, json.dumps(tree_of(plan)), 1)
    start = open_run(shop, run, START).events[0].id
    wrong = weighed(90.0)
    line = entry("undone", 2.0, event=wrong["id"])
    lines = [
        entry("undone", 3.0, event=line["id"]),
        entry("undone", 3.0, event=start),
        entry("undone", 3.0, event=other.events[0].id),
        entry("undone", 3.0, event="nothing"),
    ]
    done = sent(shop, run, [wrong, line, *lines])
    want = ["line-struck-out", "start-struck-out", "event-not-kept", "event-not-kept"]
    assert codes(done) == ["kept", "kept", *want]
    cup = done.run.state.cup(CupRef(COAT_CUP))
    assert cup is not None
    assert cup.in_g == 0.0
    assert sum(isinstance(event.body, Undone) for event in done.run.events) == 1


def test_times_that_no_set_clock_tells_are_refused_and_odd_ones_told(shop: Shop, run: RunId) -> None:
    ahead, before = entry("noted", 2 * DAY / MINUTE, text="x"), entry("noted", -2 * DAY / MINUTE, text="x")
    odd = entry("noted", 3 * HOUR / MINUTE, text="x")
    done = sent(shop, run, [ahead, before, odd], minute=1.0)
    assert codes(done) == ["time-far-off", "time-far-off", "kept"]
    negative = entry("noted", text="x") | {"at_ms": -5}
    assert codes(sent(shop, run, [negative])) == ["time-far-off"]


def test_an_unknown_lot_is_told_and_the_weighing_kept(shop: Shop, run: RunId) -> None:
    done = sent(shop, run, [weighed(100.0, lot=uuid7(START, 77)), weighed(1.0, 2.0, lot="the red can")])
    assert codes(done) == ["kept", "lot-unknown"]
    assert done.answers[0].doubts == ("its lot is none of this shop",)


def test_what_asks_the_store_is_not_made_by_screens(shop: Shop, run: RunId) -> None:
    told = codes(
        sent(
            shop,
            run,
            [
                entry("number-given", series="numbered", number=1, piece="x"),
                entry("mold-registered", mold="x"),
                entry("started", plan="x", name="x", casts=1),
                entry("replanned", plan="x"),
                entry("lot-counted", amount=1.0),
                entry("no-such-kind"),
                entry("attached", file="a" * 64),
                entry("attached", file="../../etc/passwd"),
            ],
        )
    )
    assert told == [*["kind-not-sent"] * 6, *["file-missing"] * 2]
    assert {NAMES[kind] for kind in MADE_BY_SCREENS} < set(KINDS)


DEEP: Any = []
for _ in range(40):
    DEEP = [DEEP]
HOSTILE: list[Any] = [
    None,
    5,
    "text",
    [],
    {},
    {"id": 5},
    entry("noted", text="x") | {"id": "x"},
    entry("noted", text="x") | {"at_ms": "now"},
    entry("noted", text="x") | {"at_ms": 1e300},
    entry("noted", text="x") | {"at_ms": True},
    entry("noted", text="x") | {"bench": ""},
    entry("noted", text="x") | {"by": "a\nb"},
    entry("noted", text="x") | {"body": DEEP},
    entry("noted", text="x") | {"body": None},
    entry("noted", text="x" * 1_000_000),
    entry("noted", text="half \ud800 letter"),
    entry("noted", text="nul \0"),
    entry("noted", text=["x"]),
    entry("gauged", coat="coat-1", places_mm=[1.0] * 5000),
    entry("gauged", coat="coat-1", places_mm=[]),
    entry("weighed", cup=CUP, part="B", target_g=float("nan"), mass_g=float("inf")),
    entry("weighed", cup=CUP | {"filling": 10**30}, part="B", target_g=1.0, mass_g=1.0),
    entry("weighed", cup=CUP, part="Z", target_g=1.0, mass_g=1.0),
    entry("weighed", cup={"mix": "no.cup-1"}, part="B", target_g=1.0, mass_g=1.0),
    entry("weighed", cup=CUP, part="B", target_g=1.0, mass_g=1.0, scale="\x1b[2J"),
    entry("problem", what="war"),
    entry("problem", what="ran short", cup={"mix": "no.cup-1"}),
    entry("shop-air", temperature_c=20.0, step="nowhere"),
    entry("cast-measured", turn=10**9, mass_g=1.0),
    entry("divided", cup=CUP, into=[0, -1]),
    entry("said-volume", cup=CUP, part="B", target_g=1e300, add_ml=1e-300, volume="9 l", units="metric"),
    entry("said-reading", cup=CUP, part="B", target_g=1.0, before_g=1e308, reads="1", units="metric"),
    entry("said-reading", cup=CUP, part="B", target_g=1.0, before_g=1.0, reads="1", units="cubits"),
]


def test_hostile_entries_are_each_answered(shop: Shop, run: RunId) -> None:
    good = weighed(100.0)
    text = json.dumps([*HOSTILE, good])
    done = receive(shop, run, text, SENDER, START + MINUTE)
    refused = [each for each in done.answers[:-1] if each.became is not Became.REFUSED]
    assert refused == []
    assert done.answers[-1].became is Became.KEPT
    told = [each.refusal for each in done.answers if each.refusal is not None]
    assert all(each.code and len(str(each.actual)) < 500 for each in told)
    assert len(open_run(shop, run, START).events) == 2


@pytest.mark.parametrize(
    "text",
    ["", "{", "5", '{"events": 5}', b"\xff\xfe\x00", "[" * 200_000, "9" * 6000, '{"events": ' + "[" * 5000],
    ids=range(8),
)
def test_what_is_no_batch_is_refused_whole(shop: Shop, run: RunId, text: str | bytes) -> None:
    with pytest.raises(InputRefused) as refused:
        receive(shop, run, text, SENDER, START)
    assert refused.value.code == "batch-unreadable"


def test_too_many_are_refused_whole_and_a_strange_run_told(shop: Shop, run: RunId) -> None:
    with pytest.raises(InputRefused) as refused:
        receive(shop, run, json.dumps([None] * (MOST_EVENTS + 1)), SENDER, START)
    assert refused.value.code == "batch-too-large"
    with pytest.raises(RecordConflict) as unknown:
        sent(shop, RunId(uuid7(START, 5)), [weighed(1.0)])  # type: ignore[arg-type]
    assert unknown.value.code == "run-not-started"


def test_ten_thousand_entries_are_taken_in_at_once(shop: Shop, run: RunId) -> None:
    items = [entry("noted", n / 100.0, text=f"note {n}") for n in range(10_000)]
    items[5000]["body"] = {"text": ""}
    began = time.process_time()
    done = sent(shop, run, items, minute=200.0)
    assert codes(done).count("kept") == 9_999
    assert codes(done)[5000] == "text-unusable"
    assert codes(sent(shop, run, items, minute=200.0)).count("known") == 9_999
    assert time.process_time() - began < 60.0
