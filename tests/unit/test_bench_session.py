"""The bench as a maker types at it, on a real small plan, with a clock that the test turns."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest
from conftest import Job

from moldwright.bench.acts import Act
from moldwright.bench.cup_now import CupState
from moldwright.bench.now import ActState
from moldwright.desk.bench_session import BenchSession
from moldwright.log.lot_events import LotRecalled, LotReceived, Stuff
from moldwright.log.run_events import CupRef, Done, Gelled, Poured, Problem, Weighed
from moldwright.log.standing import standing
from moldwright.mixing.correct import HOT_REST
from moldwright.plan.ids import StepId
from moldwright.plan.mixes import MeasuredBy, MixKind
from moldwright.plan.needs import NeedUnit
from moldwright.plan.plan import Plan
from moldwright.plan.steps import EACH_CAST
from moldwright.records.clock import BenchClock
from moldwright.records.runs.next_act import Press
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop, open_shop
from moldwright.records.stock.keep import receive, write
from moldwright.sheets.plan_text import plan_text

NINE = int(datetime(2026, 11, 2, 9, 0).timestamp() * 1000)
MINUTE = 60_000


class Hand:
    """A clock that a test turns, and which goes a second on with each look."""

    def __init__(self) -> None:
        self.at = NINE

    def __call__(self) -> int:
        return self.at


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Shop]:
    shop = open_shop(str(tmp_path / "shop.db"))
    yield shop
    shop.close()


@pytest.fixture
def hand() -> Hand:
    return Hand()


@pytest.fixture
def plan(small_job: Job) -> Plan:
    return small_job.planned.plan


def stepped_up(shop: Shop, hand: Hand, plan: Plan, bench: str = "tablet 1", casts: int = 1) -> BenchSession:
    clock = BenchClock(bench, "", hand)
    return BenchSession(shop, clock, start_run(shop, clock, plan_text(plan), casts).id)


def typed(session: BenchSession, *lines: str) -> str:
    """What is told after these lines, the next question included."""
    told = [said for line in lines for said in session.take(line)]
    session.look()
    return "\n".join([*told, *session.asking()])


def skip_to(session: BenchSession, hand: Hand, press: Press, step: str = "") -> None:
    """Enter till something is next, time passing where all must wait."""
    for _ in range(2000):
        next_ = session.next
        at = next_.act.act.step if next_.act else ""
        if next_.press is press and step in ("", at):
            return
        if next_.press is Press.WAIT:
            hand.at = max(wait.ends.low_ms for wait in session.run.state.waits)
        hand.at += 1000
        typed(session, "")
    raise AssertionError(f"{press} never came")


def first_cup(plan: Plan) -> CupRef:
    return CupRef(next(mix.id for mix in plan.mixes if mix.for_.kind is MixKind.COAT))


def test_enter_alone_makes_the_mold_and_a_cast(store: Shop, hand: Hand, plan: Plan) -> None:
    """Each Enter does what was told before; waits pass; every cup is weighed as planned and laid; nothing is found."""
    session = stepped_up(store, hand, plan)
    presses = 0
    while session.next.press is not Press.ENDED:
        if session.next.press is Press.WAIT:
            hand.at = max(wait.ends.low_ms for wait in session.run.state.waits)
        told = "\n".join(session.asking())
        assert "Enter" in told
        hand.at += 5000
        refused = [line for line in session.take("") if line.startswith("Not ")]
        assert not refused
        presses += 1
        assert presses < 1000
    state = session.run.state
    assert all(act.state in (ActState.DONE, ActState.WAITING) for act in state.acts)
    assert all(cup.settled for cup in state.cups)
    assert {part.state.value for cup in state.cups for part in cup.parts} == {"right"}
    assert [finding.code.value for finding in state.findings] == []


def test_a_step_is_told_with_its_cautions_before_what_is_done(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.WEIGH)
    told = typed(session, "+")
    stop, do, enter = told.index("STOP: "), told.index("  - "), told.index("Enter: ")
    assert told.index("At hand: ") < stop < do < enter
    assert re.search(r"B: pour up to [\d.]+ g\.\nEnter: exactly [\d.]+ g; or type what the scale reads\.", told)


def test_a_reading_that_is_short_asks_for_the_rest(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.WEIGH)
    part = session.next.part
    assert part is not None
    short = round(part.reads_g - 2.1, 1)
    told = typed(session, f"{short}")
    assert f"2.1 g more, up to {part.reads_g:.1f} g" in told
    assert "Not written: 1.1 g" in typed(session, "1.1")
    told = typed(session, "+1.0")
    assert f"1.1 g more, up to {part.reads_g:.1f} g" in told
    typed(session, "")
    cup = session.run.state.cup(first_cup(plan))
    assert cup is not None
    assert cup.parts[0].in_g == pytest.approx(part.target_g)


def test_an_over_pour_is_put_right_by_a_digit(store: Shop, hand: Hand, plan: Plan) -> None:
    """10 % too much B: with new totals, as much more A (1 : 1); lifted out, B as planned; started again, nothing in."""
    for digit in (1, 2, 3):
        session = stepped_up(store, hand, plan)
        skip_to(session, hand, Press.WEIGH)
        part = session.next.part
        assert part is not None
        over = round(1.1 * part.reads_g, 1)
        told = typed(session, f"{over} g")
        assert "OVER: " in told
        assert [line.strip()[0] for line in told.splitlines() if re.match(r"  \d ", line)] == ["1", "2", "3"]
        typed(session, str(digit))
        cup = session.run.state.cup(first_cup(plan))
        assert cup is not None
        a = next(each for each in cup.parts if each.kind == "A")
        b = next(each for each in cup.parts if each.kind == "B")
        if digit == 1:
            assert a.target_g == pytest.approx(over, abs=0.051)
        elif digit == 2:
            assert (b.in_g, a.target_g) == (pytest.approx(part.target_g), pytest.approx(a.planned_g))
        else:
            assert cup.state is CupState.GELLED
            assert session.next.cup is not None
            assert session.next.cup.ref.filling == 2


def test_a_cup_that_was_put_right_takes_short_and_over_readings_again(store: Shop, hand: Hand, plan: Plan) -> None:
    """B over by 1.0 g and gone on with; A 0.5 g short of its new total asks for 0.5 g more; then it is over again."""
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.WEIGH)
    part = session.next.part
    assert part is not None
    typed(session, f"{part.reads_g + 1.0:.1f}", "1")
    while session.next.part is not None and session.next.part.by is not MeasuredBy.SCALE:
        typed(session, "")
    a = session.next.part
    assert a is not None
    told = typed(session, f"{a.reads_g - 0.5:.1f}")
    assert "OVER" not in told
    assert f"0.5 g more, up to {a.reads_g:.1f} g" in told
    again = BenchSession(store, session.clock, session.run.id)
    assert f"0.5 g more, up to {a.reads_g:.1f} g" in typed(again, "+")
    assert "OVER: 0.7 g too much A" in typed(again, f"{a.reads_g + 0.7:.1f}")
    typed(again, "1")
    assert again.next.part is not None
    assert (again.next.press, again.next.part.kind, again.next.part.state.value) == (Press.WEIGH, "B", "short")


def test_the_totals_go_on_from_what_is_really_in(store: Shop, hand: Hand, plan: Plan) -> None:
    """0.1 g too much of B, A as much as B: A's total is twice what the scale showed with B."""
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.WEIGH)
    first = session.next.part
    assert first is not None
    typed(session, f"{first.reads_g + 0.1:.1f}", "1")
    while session.next.part is not None and session.next.part.by is not MeasuredBy.SCALE:
        typed(session, "")
    part = session.next.part
    assert part is not None
    assert part.reads_g == pytest.approx(2.0 * (first.reads_g + 0.1), abs=0.06)


def test_a_struck_out_line_counts_in_nothing_and_stays_told(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.WEIGH)
    before = session.next.part
    assert before is not None
    typed(session, "")
    told = typed(session, "-")
    assert "Struck out: " in told
    assert session.next.part == before
    assert sum(isinstance(event.body, Weighed) for event in session.run.events) == 1
    assert not any(isinstance(event.body, Weighed) for event in standing(session.run.events))


def test_what_one_enter_wrote_is_struck_out_whole(store: Shop, hand: Hand, plan: Plan) -> None:
    """Laying a coat writes that its cup is on the work and that the step is done: one line strikes both out."""
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.DONE, "coat-1")
    before = session.next
    typed(session, "")
    assert [type(event.body) for event in session.run.events[-2:]] == [Poured, Done]
    told = typed(session, "-")
    assert told.count("Struck out: ") == 2
    assert session.next.bodies == before.bodies
    assert len(before.bodies) == 2


def test_a_cup_that_gelled_is_mixed_again_for_what_is_not_laid(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.DONE, "coat-1-mix")
    told = typed(session, "x 50 %")
    assert "past use, 50% of it on the work" in told
    assert told.count(HOT_REST) == 1
    assert isinstance(session.run.events[-1].body, Gelled)
    cup, mix = session.next.cup, plan.mix(first_cup(plan).mix)
    assert cup is not None
    assert cup.ref.filling == 2
    assert cup.parts[0].target_g == pytest.approx(max(0.5 * mix.parts[0].mass_g, 0.5 * mix.smallest_batch_g), rel=0.2)
    assert session.next.press is Press.WEIGH
    typed(session, "")
    assert HOT_REST not in typed(session, "x"), "one part alone does not react"


def test_the_clock_of_a_cup_is_told_and_runs_out(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.DONE, "coat-1-mix")
    out_s = plan.mix(first_cup(plan).mix).out_by_s
    assert out_s is not None
    assert re.search(r"^Clock of coat 1: .* left", typed(session, "+"), re.MULTILINE)
    hand.at += round(out_s * 1000)
    assert "!! Clock of coat 1" in typed(session, "+")
    typed(session, "", "")
    assert any(isinstance(event.body, Poured) for event in session.run.events)
    assert [each.code.value for each in session.run.state.findings] == ["poured-after-its-time"]


def test_a_window_that_is_missed_is_told(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.DONE, "coat-1-look")
    typed(session, "")
    closes = session.run.state.windows[0].closes.likely_ms
    hand.at = closes + MINUTE
    assert "too late by 1:00" in typed(session, "+")
    session.look()
    typed(session, "", "", "")
    assert "begun-after-window-closed" in [each.code.value for each in session.run.state.findings]


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("zzz", "A note begins with n"),
        ("d 999", "step 999"),
        ("d 8/9", "step 8 of cast 9"),
        ("o", "the reason"),
        ("t warm", "warm"),
        ("k 100", "two figures"),
        ("p 99", "1 to 16"),
        ("f nowhere.jpg", "nowhere.jpg"),
        ("d 1 25:00", "25:00"),
        ("l 4711", "a part that goes in next"),
        ("u ZZZZ-ZZZZ", "an event of a run"),
        ("x", "no cup in hand"),
        ("g 1.2", "a step of a coat"),
        ("99", "step 99"),
    ],
)
def test_what_cannot_be_done_is_told_and_nothing_is_written(
    store: Shop, hand: Hand, plan: Plan, line: str, says: str
) -> None:
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.DONE)
    before = len(store.events_of(session.run.id))
    told = typed(session, line)
    assert re.search(r"^Not (written|done): ", told, re.MULTILINE)
    assert says in told
    assert len(store.events_of(session.run.id)) == before


def test_what_is_seen_and_measured_is_kept(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.WEIGH)
    told = typed(session, "t 76 F 45 %", "k 100 99.9", "n the pot was nearly empty", "*", "16 a fly in it", "c 23.5")
    kept = re.findall(r"kept: (.*)", told)
    assert kept == [
        "the shop has 24.4 °C, 45 %.",
        "the scale shows 99.9 g for 100.0 g.",
        "a note.",
        "something else: a fly in it.",
        "coat 1 has 23.5 °C.",
    ]
    problem = next(event.body for event in session.run.events if isinstance(event.body, Problem))
    assert (problem.step, problem.cup) == ("coat-1-mix", first_cup(plan))


def test_a_step_is_turned_to_left_out_and_done_at_another_time(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    typed(session, "o 3 it came clean", "/5")
    assert session.next.act is not None
    assert session.next.act.act.step == plan.steps[4].id
    typed(session, "d 1 08:15")
    state = session.run.state
    done, left = state.act(Act(plan.steps[0].id)), state.act(Act(plan.steps[2].id))
    assert done is not None
    assert left is not None
    assert (done.done_ms, left.why) == (NINE - 45 * MINUTE, "it came clean")
    typed(session, "d 2 23:00")
    late = session.run.state.act(Act(plan.steps[1].id))
    assert late is not None
    assert late.done_ms == NINE - 10 * 60 * MINUTE, "23:00 is to come today: it was yesterday's"


def test_lots_are_proposed_typed_and_doubted_before_they_are_poured(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    skip_to(session, hand, Press.WEIGH)
    part = next(each for each in plan.mix(first_cup(plan).mix).parts if each.kind == "B")
    clock = BenchClock("tablet 1", "", hand)
    receipt = LotReceived(Stuff(part.stuff.kind, part.stuff.id), 5000.0, NeedUnit.GRAM, "2026-10-01", "4711-B")
    good = receive(store, clock, replace(receipt, expires="2027-01-01"), "2026-11-02").shelf.lot.id
    bad = receive(store, clock, replace(receipt, number="0815"), "2026-11-02").shelf.lot.id
    write(store, clock, bad, LotRecalled("it stayed soft"), "2026-11-02")
    receive(store, clock, replace(receipt, stuff=Stuff("resin", "odd"), number="77"), "2026-11-02")
    session = BenchSession(store, session.clock, session.run.id)
    assert "Lot of B: 4711-B, keeps to 2027-01-01." in typed(session, "+")
    assert "!! Lot 0815: it is RECALLED: do not use it (it stayed soft). l LOT takes another." in typed(
        session, "l 0815"
    )
    assert "!! Lot 77 is of odd, not of B." in typed(session, "l 77")
    assert "Not written: 999" in typed(session, "l 999")
    typed(session, "l 4711-b", "")
    weighed = session.run.events[-1].body
    assert isinstance(weighed, Weighed)
    assert weighed.lot == good
    assert session.shelves[0].left.amount == pytest.approx(5000.0 - weighed.mass_g)


def test_two_benches_see_each_other_with_the_next_line(store: Shop, hand: Hand, plan: Plan) -> None:
    one = stepped_up(store, hand, plan)
    two = BenchSession(store, BenchClock("tablet 2", "", hand), one.run.id)
    typed(one, "d 1")
    typed(two, "t 21")
    assert typed(two, "+").count("\n2. ") == 1
    typed(one, "+")
    assert {event.id for event in one.run.events} == {event.id for event in two.run.events}


def test_a_clock_that_is_ahead_is_told_once(store: Shop, hand: Hand, plan: Plan) -> None:
    one = stepped_up(store, hand, plan)
    ahead = BenchClock("tablet 2", "", lambda: hand.at + 3 * 60 * MINUTE)
    typed(BenchSession(store, ahead, one.run.id), "t 21")
    again = BenchSession(store, one.clock, one.run.id)
    told = list(again.opening())
    assert sum("Clock of tablet 2" in line and "180 min" in line for line in told) == 1
    assert "Clock of tablet" not in typed(again, "+")


def test_a_mold_enters_the_register_once_it_is_made(store: Shop, hand: Hand, plan: Plan) -> None:
    session = stepped_up(store, hand, plan)
    ready = next(step.id for step in plan.steps if step.per in EACH_CAST)
    skip_to(session, hand, Press.DONE, StepId(ready))
    assert "m NAME puts it there" in typed(session, "+")
    assert "the mold is in the register" in typed(session, "m figure")
    assert session.run.state.frame.mold is not None
    assert "m NAME puts it there" not in typed(session, "+")
