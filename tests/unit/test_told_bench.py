"""What a screen at the bench shows of the small plan, against figures that are reckoned here by hand.

Its coat's cup: 100 g of B, a trace, 100 g of A. Either part may be off by half of what the ratio has to spare: 2 % less
0.4 % of reading, halved, is 0.8 %: 0.8 g of 100 g. Its clock: 30 min from when the second of the two is in.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import replace

import pytest
from conftest import Job
from tests.bench_plans import (
    COAT_CUP,
    MINUTE,
    MOLD_STEPS,
    RUN,
    START,
    A,
    B,
    Book,
    at,
    bench_plan,
    coat_cup,
    part,
    skin_cup,
)
from tests.screens import TABLET, event, pressed, told

from moldwright.bench.acts import Act
from moldwright.bench.run import RunFold
from moldwright.errors import InputRefused
from moldwright.log.any_events import Undone
from moldwright.log.event import Body
from moldwright.log.ids import RunId
from moldwright.log.json_text import body_of, compact, kind_of
from moldwright.log.run_events import Begun, Done, Ended, Gelled, LeftOut, Poured, Weighed, WentOn
from moldwright.plan.ids import StepId
from moldwright.plan.json_text import tree_of
from moldwright.plan.mixes import MeasuredBy, PartKind
from moldwright.plan.plan import Plan
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.place import BenchPlace, place_sent
from moldwright.records.runs.said import SAID, meant_by
from moldwright.store.walk import Reader, read
from moldwright.told.bench.told import strikes_shown
from moldwright.told.bench.view import BenchView
from moldwright.told.bench.view_press import PressShown
from moldwright.units.system import UnitSystem


def at_coat(book: Book) -> Book:
    """Up to where the coat's cup is weighed."""
    book.write(1.0, Done(StepId("receive")))
    book.write(2.0, Done(StepId("release")))
    return book


def weighed_b(book: Book, mass_g: float = 100.0, minute: float = 70.0) -> Book:
    book.write(minute, Weighed(coat_cup(), B, 100.0, mass_g))
    return book


def view(plan: Plan, book: Book, minute: float, place: BenchPlace | None = None) -> BenchView:
    return told(plan, book.events, at(minute), place).view


def stands(plan: Plan, book: Book, minute: float) -> OpenRun:
    log = tuple(book.events)
    return OpenRun(RunId(RUN), plan, log, RunFold(plan).state(log, at(minute)))


def press(shown: BenchView, id_: str) -> PressShown:
    return next(each for each in (*shown.presses, *shown.aside) if each.id == id_)


def test_a_part_is_told_with_what_the_scale_must_read_and_its_limits() -> None:
    shown = view(bench_plan(), at_coat(Book()), 70.0)
    assert (shown.press, shown.say, shown.more) == ("weigh", "Pour B up to", "100.0 g more")
    assert shown.figure is not None
    assert (shown.figure.text, shown.figure.unit, shown.figure.value) == ("100.0", "g", 100.0)
    assert shown.limits is not None
    assert (shown.limits.low, shown.limits.high) == (99.2, 100.8)
    assert (shown.limits.low_text, shown.limits.high_text) == ("99.2", "100.8")
    assert shown.cup is not None
    states = [(each.kind, each.state, each.total, each.mass) for each in shown.cup.parts]
    assert states == [
        ("B", "now", "100.0 g", "100.0 g"),
        ("pigment", "to-come", "100.2 g", "a trace"),
        ("A", "to-come", "200.2 g", "100.0 g"),
    ]
    assert shown.cup.holds == "400.0 g"
    assert shown.act is not None
    assert (shown.act.number, shown.act.turn, shown.act.cup, shown.act.cups) == (3, 0, 1, 1)


def test_in_us_units_a_figure_tells_what_one_of_its_units_is() -> None:
    """100 g are 3.527 oz of 28.3495 g each; the scale's step of 0.1 g is 0.0035 oz."""
    plan = replace(bench_plan(), units=UnitSystem.US)
    shown = view(plan, at_coat(Book()), 70.0)
    assert shown.figure is not None
    assert shown.figure.unit == "oz"
    assert float(shown.figure.text) == pytest.approx(100.0 / 28.349523125, abs=0.002)
    assert shown.figure.unit_is == pytest.approx(28.349523125)
    assert press(shown, "short").asks[0].unit == "oz"


def test_right_writes_what_was_asked_for_and_a_reading_is_sent_as_it_was_typed() -> None:
    plan, book = bench_plan(), at_coat(Book())
    shown = view(plan, book, 70.0)
    right, short, over = shown.presses
    assert (right.small, short.small, over.small) == ("99.2 to 100.8", "under 99.2", "past 100.8")
    (event_,) = pressed(right, at(70.0))
    assert event_.body == Weighed(coat_cup(), B, 100.0, 100.0, in_before_g=0.0)
    reading = dict(over.events[0].body) | {over.asks[0].field: "104,2"}
    said = read(SAID[over.events[0].kind], json.loads(compact(reading)), Reader(), "body")
    assert meant_by(plan, said) == Weighed(coat_cup(), B, 100.0, 104.2, 104.2, in_before_g=0.0)
    alone = dict(press(shown, "went-in").events[0].body) | {"mass": "3 g"}
    said = read(SAID["said-mass"], json.loads(compact(alone)), Reader(), "body")
    assert meant_by(plan, said) == Weighed(coat_cup(), B, 100.0, 3.0, in_before_g=0.0)


def test_an_over_pour_is_a_choice_until_somebody_goes_on() -> None:
    """104 g of B: A up to 104 too, on the scale 208 and the trace's 0.2; or 4 g out; or anew."""
    plan, book = bench_plan(), weighed_b(at_coat(Book()), 104.0)
    shown = view(plan, book, 71.0)
    assert shown.press == "put-right"
    assert shown.put_right is not None
    assert shown.put_right.head == "4.0 g too much B. Put it right:"
    new, lift, again = shown.put_right.ways
    assert [each.kind for each in shown.put_right.ways] == ["new-targets", "lift-out", "start-again"]
    assert [(each.say, each.figure) for each in new.then] == [
        ("pigment, pigment: a trace on a clean stick", ""),
        ("Pour A up to", "208.2"),
    ]
    assert new.cup is not None
    assert [each.total for each in new.cup.parts] == ["104.0 g", "104.2 g", "208.2 g"]
    assert new.press.main
    assert pressed(new.press, at(71.0))[0].body == WentOn(coat_cup())
    assert pressed(lift.press, at(71.0))[0].body == Weighed(coat_cup(), B, -4.0, -4.0, 100.0, in_before_g=104.0)
    assert pressed(again.press, at(71.0))[0].body == Gelled(coat_cup())


def test_what_was_decided_of_an_over_pour_is_the_run_s_until_more_is_poured_over() -> None:
    """Gone on with 104 g of B: no screen asks again, wherever it is. A's 210.2 g on the scale, where 208.2 g are asked
    for, is another over-pour; a line through the going on asks for the first one again."""
    plan, book = bench_plan(), weighed_b(at_coat(Book()), 104.0)
    book.write(70.5, WentOn(coat_cup()))
    for place in (None, BenchPlace(Act(StepId("coat-1-mix"), 0))):
        then = view(plan, book, 71.0, place)
        assert (then.press, then.say) == ("weigh", "pigment, pigment: a trace on a clean stick")
    book.write(71.0, Weighed(coat_cup(), PartKind.PIGMENT, 0.2, 0.2))
    more = _with(book, Weighed(coat_cup(), A, 104.0, 106.0, 210.2), 71.5)
    assert view(plan, more, 72.0).press == "put-right"
    other = _with(weighed_b(at_coat(Book()), 104.0), WentOn(coat_cup()), 70.5)
    other.events.append(event(Undone(other.events[-1].id), at(70.6)))
    assert view(plan, other, 71.0).press == "put-right"


def test_what_is_told_of_readings_past_the_limit_is_what_the_store_then_tells() -> None:
    """From 100.9 g on; each row is what the screen shows once that reading is written."""
    plan, book = bench_plan(), at_coat(Book())
    whole = told(plan, book.events, at(70.0), overs=1)
    assert [row.reads_g for row in whole.over[:3]] == [100.9, 101.0, 101.1]
    assert whole.over[0].reads == "100.9 g"
    gaps = [round(b.reads_g - a.reads_g, 6) for a, b in zip(whole.over, whole.over[1:], strict=False)]
    assert gaps[:10] == [0.1] * 10
    assert gaps == sorted(gaps)
    assert len(whole.over) == 30
    for row in (whole.over[0], whole.over[8], whole.over[-1]):
        body = Weighed(coat_cup(), B, 100.0, row.reads_g, row.reads_g)
        after = view(plan, _with(book, body), 70.5)
        assert after.put_right == row.put_right
    assert [way.kind for way in whole.over[-1].put_right.ways][-1] == "start-again"


def _with(book: Book, body: Body, minute: float = 70.2) -> Book:
    other = Book()
    other.events = [*book.events, event(body, at(minute))]
    return other


def test_the_last_part_in_a_full_cup_leaves_only_another_cup() -> None:
    """Both react. 102.4 g of A ask for as much of B and a trace of 0.2 x 1.024 g: 205.005 g, more than the 205 g that
    the cup holds; with 102.3 g it is 204.805 g. The scale then reads 202.6: B's 100 g and the trace's 0.2 besides."""
    plan = bench_plan()
    full = tuple(replace(mix, most_g=205.0) if mix.id == COAT_CUP else mix for mix in plan.mixes)
    plan, book = replace(plan, mixes=full), weighed_b(at_coat(Book()))
    book.write(71.0, Weighed(coat_cup(), PartKind.PIGMENT, 0.2, 0.2))
    *before, last = told(plan, book.events, at(72.0), overs=1).over
    assert all(row.put_right.ways[0].kind == "new-targets" for row in before)
    assert [way.kind for way in last.put_right.ways] == ["start-again"]
    assert last.put_right.why
    assert last.reads_g == 202.6


def test_clocks_and_windows_are_told_by_all_their_limits() -> None:
    """The parts meet at 71 min: out by 30 min later, the last fifth from 24 min on. The coat looked over at 80 min: the
    rubber waits 60, 90 or 120 min."""
    plan, book = bench_plan(), weighed_b(at_coat(Book()))
    book.write(71.0, Weighed(coat_cup(), A, 100.0, 100.0))
    (clock,) = view(plan, book, 72.0).clocks
    minutes = [(when.ms - START) / MINUTE for when in (clock.start, clock.last_from, clock.out_by, clock.work_by)]
    assert minutes == [71.0, 95.0, 101.0, 101.0]
    assert clock.past
    for minute, step in ((75.0, "coat-1-mix"), (78.0, "coat-1"), (80.0, "coat-1-look"), (81.0, "hold")):
        book.write(minute, Done(StepId(step)))
    shown = view(plan, book, 82.0)
    assert shown.clocks == ()
    (wait,) = view(plan, _at_wait(plan), 82.0).waits
    ends = [(each.ms - START) / MINUTE for each in (wait.ends.low, wait.ends.likely, wait.ends.high)]
    assert ends == [140.0, 170.0, 200.0]


def _at_wait(plan: Plan) -> Book:
    book = Book()
    for minute, step in enumerate(("receive", "release", "coat-1-mix", "coat-1")):
        book.write(float(minute), Done(StepId(step)))
    book.write(80.0, Done(StepId("coat-1-look")))
    return book


def test_a_tack_window_closes_for_what_must_begin() -> None:
    """The skin laid at 10 min: tacky from 18 min on, filled before 42; its last fifth is from 37.2 on."""
    plan, book = bench_plan(1), Book(1)
    for step in MOLD_STEPS:
        book.write(0.0, Done(step))
    for step in ("powder-dry", "wash", "seat"):
        book.write(1.0, Done(StepId(step), 1))
    book.write(10.0, Done(StepId("skin"), 1))
    shown = view(plan, book, 12.0)
    (window,) = shown.windows
    told_ = (window.opens.low, window.closing, window.closes.likely)
    assert [round((when.ms - START) / MINUTE, 3) for when in told_] == [18.0, 37.2, 42.0]
    assert (window.next_step, window.next_turn) == ("fill", 1)
    assert shown.press == "wait"
    other = next(each for each in shown.others if each.step == "fill")
    assert other.since is not None
    assert (other.since.ms - START) / MINUTE == 18.0


def test_strike_out_takes_all_that_one_press_of_the_device_wrote() -> None:
    plan, book = bench_plan(), weighed_b(at_coat(Book()))
    poured = [event(Poured(coat_cup()), at(72.0)), event(Done(StepId("coat-1-mix")), at(72.0))]
    book.events += poured
    strikes = strikes_shown(stands(plan, book, 73.0), TABLET)
    assert strikes is not None
    assert list(strikes.ids) == [each.id for each in reversed(poured)]
    assert strikes.text == "coat 1 is on the work, step 3 is done"
    assert strikes_shown(stands(plan, book, 73.0), "another device") is None


def test_the_wall_is_built_as_far_as_it_is() -> None:
    """Of the four steps that stand at the coat (mix, lay, look, and what holds the glove up) one is done."""
    plan, book = bench_plan(), at_coat(Book())
    book.write(70.0, Done(StepId("coat-1-mix")))
    shown = told(plan, book.events, at(71.0))
    wall = shown.view.wall
    assert wall is not None
    keys = [layer.key for layer in shown.walls[wall.wall]]
    states = dict(zip(keys, wall.layers, strict=True))
    assert (states["original"].state, states["coat-1"].state, states["wax"].state) == ("built", "in-hand", "to-come")
    assert states["coat-1"].share == 0.25
    assert shown.walls["mold"][1].pattern == "stipple"


def test_where_a_screen_is_comes_as_json() -> None:
    sent = {"wanted": {"step": "pack", "turn": 2}, "passed": [{"step": "receive", "turn": 0, "key": "own.2"}]}
    place = place_sent(sent | {"chosen": [{"kind": "rubber", "id": "B", "lot": "x"}], "more": 1})
    assert place.wanted == Act(StepId("pack"), 2)
    assert place.passed == {("receive", 0, "own.2")}
    assert place_sent({}) == BenchPlace()
    for wrong in (None, 5, [], {"passed": [5]}, {"wanted": "pack"}, {"chosen": [{"kind": 1}]}):
        with pytest.raises(InputRefused) as refused:
            place_sent(wrong)
        assert refused.value.code == "place-unreadable"


def test_an_ended_run_shows_nothing_to_press() -> None:
    book = Book()
    book.write(1.0, Ended("enough"))
    shown = view(bench_plan(), book, 2.0)
    assert (shown.press, shown.say, shown.presses, shown.aside) == ("ended", "The run is over", (), ())


def test_an_act_that_was_turned_to_is_shown_and_may_be_begun_or_left_out() -> None:
    plan = bench_plan()
    shown = view(plan, Book(), 1.0, BenchPlace(Act(StepId("pack"), 2)))
    assert shown.act is not None
    assert (shown.act.step, shown.act.turn, shown.act.casts, shown.act.name) == ("pack", 2, 3, "step 18 of cast 2")
    assert pressed(press(shown, "begin"), at(1.0))[0].body == Begun(StepId("pack"), 2)
    assert pressed(press(shown, "leave-out"), at(1.0))[0].body == LeftOut(StepId("pack"), "", 2)


def test_all_that_a_press_writes_is_what_the_log_reads() -> None:
    """Every template of every screen of a run, as JSON and back."""
    whole = told(bench_plan(2), Book(2).events, at(1.0), presses=300)
    views = [whole.view, *(each.view for each in whole.ahead)]
    assert json.loads(json.dumps(tree_of(whole), allow_nan=False))["view"]["press"] == "done"
    for each in _templates(views):
        kind, text = each
        if kind not in SAID:
            assert kind_of(body_of(kind, text)) == kind


def _templates(views: Iterable[BenchView]) -> Iterable[tuple[str, str]]:
    return {
        (template.kind, compact(template.body))
        for view_ in views
        for each in (*view_.presses, *view_.aside)
        for template in each.events
    }


def test_a_syringe_and_marks_are_told_in_their_own_units() -> None:
    """A syringe that draws 100 ml where 100 g are 100 ml may be off by 0.8 of it."""
    plan = bench_plan()
    drawn = replace(plan.mixes[0], parts=(part(B, 100.0, 100.0, MeasuredBy.SYRINGE), part(A, 100.0, 200.0)))
    shown = view(replace(plan, mixes=(drawn, *plan.mixes[1:])), at_coat(Book()), 70.0)
    assert (shown.say, shown.more) == ("B by syringe", "The scale then reads about 100.0 g.")
    assert shown.figure is not None
    assert shown.limits is not None
    assert (shown.figure.text, shown.figure.unit, shown.limits.low, shown.limits.high) == ("100", "ml", 99.2, 100.8)


def test_parts_out_of_their_order_are_told_with_what_to_do() -> None:
    plan, book = bench_plan(1), Book(1)
    for step in MOLD_STEPS:
        book.write(0.0, Done(step))
    for step in ("powder-dry", "wash", "seat"):
        book.write(1.0, Done(StepId(step), 1))
    book.write(100.0, Weighed(skin_cup(1), A, 50.0, 50.0))
    assert view(plan, book, 101.0).heed == ()
    book.write(101.0, Weighed(skin_cup(1), B, 50.0, 50.0))
    assert view(plan, book, 102.0).heed == (
        "It reacts already: what is lacking goes in now, without a break, and is stirred in at once.",
    )


def test_steps_tell_their_cautions_with_pictograms_and_first_aid(small_job: Job) -> None:
    """Isocyanates sensitize by breathing: the health pictogram; solvents burn: flame (GHS, annex 3, from memory)."""
    plan = small_job.planned.plan
    whole = told(plan, Book(1).events, at(1.0), presses=300)
    cautions = [each for step in whole.steps.values() for each in step.cautions]
    assert {each.severity for each in cautions} == {"note", "heed", "stop"}
    assert any("Isocyanate" in each.text and "health" in each.pictograms for each in cautions)
    assert any("Solvent" in each.text and "flame" in each.pictograms for each in cautions)
    mixing = next(step for step in whole.steps.values() if any(each.hazard for each in step.cautions))
    assert "rinse 15 min" in mixing.first_aid
    assert "safety data sheet" in mixing.first_aid
    ranks = [[("note", "heed", "stop").index(each.severity) for each in step.cautions] for step in whole.steps.values()]
    assert all(row == sorted(row, reverse=True) for row in ranks)
