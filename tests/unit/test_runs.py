"""Runs as the records keep them: started, opened, written on, struck out, planned anew, ended; on each engine."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from tests.bench_plans import COAT_CUP, POWDER, A, B, bench_plan, coat_cup, skin_cup

from moldwright.bench.acts import Act
from moldwright.bench.findings import Found
from moldwright.bench.now import ActState
from moldwright.bench.plan_changed import Altered
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.edition_events import Series
from moldwright.log.event import Body
from moldwright.log.ids import EditionId, MoldId, RunId, SubjectId
from moldwright.log.run_events import BoxWritten, Done, Gauged, LeftOut, ShopAir, Started, Weighed
from moldwright.plan import json_text
from moldwright.plan.ids import CoatId, StepId
from moldwright.plan.json_text import plan_from_json, plan_to_json
from moldwright.plan.mixes import PartKind
from moldwright.plan.plan import SCHEMA_VERSION, Plan
from moldwright.ranges import Range
from moldwright.records.clock import BenchClock
from moldwright.records.editions.open import open_edition
from moldwright.records.editions.read import edition as edition_of_shop
from moldwright.records.runs.boxes import boxes_of
from moldwright.records.runs.listing import runs
from moldwright.records.runs.numbered import number_cast, number_meant
from moldwright.records.runs.opened import find_run, open_run
from moldwright.records.runs.replan import replan, under_way_by
from moldwright.records.runs.start import start_run
from moldwright.records.runs.write import end_run, last_of_bench, log, log_all, strike
from moldwright.records.shop import Shop

NOON = 1_800_000_000_000
MINUTE = 60_000


class Hand:
    """A clock that a test turns."""

    def __init__(self) -> None:
        self.at = NOON

    def __call__(self) -> int:
        return self.at


@pytest.fixture
def hand() -> Hand:
    return Hand()


@pytest.fixture
def clock(hand: Hand) -> BenchClock:
    return BenchClock("tablet 1", "Kim", hand)


def text_of(plan: Plan) -> str:
    return plan_to_json(plan)


def test_a_run_is_started_kept_and_opened_again(shop: Shop, clock: BenchClock) -> None:
    run = start_run(shop, clock, text_of(bench_plan()), casts=2)
    assert run.state.frame.started == Started(run.state.frame.plan, bench_plan().name, 2)  # type: ignore[arg-type]
    again = open_run(shop, run.id, clock.now())
    assert again.state == run.state
    assert again.plan == bench_plan()
    assert [each.act.step for each in again.state.may_begin] == ["receive"]
    assert find_run(shop, run.id[-8:]) == run.id


def test_as_many_casts_as_the_plan_where_none_are_told(shop: Shop, clock: BenchClock) -> None:
    run = start_run(shop, clock, text_of(bench_plan(7)))
    assert max(each.act.turn for each in run.state.acts) == 7


@pytest.mark.parametrize(
    ("told", "code"),
    [
        ({"casts": -1}, "casts-out-of-range"),
        ({"casts": 10_001}, "casts-out-of-range"),
        ({"batch": 0}, "casts-out-of-range"),
        ({"mold": MoldId(SubjectId("m"))}, "not-kept"),
        ({"edition": EditionId(SubjectId("e"))}, "not-kept"),
    ],
)
def test_what_cannot_be_started_is_refused_and_nothing_is_kept(
    shop: Shop, clock: BenchClock, told: dict[str, object], code: str
) -> None:
    with pytest.raises(InputRefused) as refused:
        start_run(shop, clock, text_of(bench_plan()), **told)  # type: ignore[arg-type]
    assert refused.value.code == code
    assert runs(shop) == ()


def test_what_is_logged_is_told_with_what_it_changed(shop: Shop, clock: BenchClock, hand: Hand) -> None:
    run = start_run(shop, clock, text_of(bench_plan()))
    done = log(shop, clock, run.id, Done(StepId("receive")))
    assert [each.act.step for each in done.run.state.may_begin] == ["release"]
    assert done.found == done.gone == ()
    hand.at += 5 * MINUTE
    early = log(shop, clock, run.id, Done(StepId("coat-1-mix")))
    assert [found.code for found in early.found] == [Found.WRONG_ORDER, Found.PART_MISSING]
    struck = strike(shop, clock, run.id, early.events[0].id[-8:])
    assert [found.code for found in struck.gone] == [Found.WRONG_ORDER, Found.PART_MISSING]
    assert struck.run.state.act(Act(StepId("coat-1-mix"))).state is ActState.STRUCK_OUT  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (Done(StepId("polish")), "act-not-in-plan"),
        (Done(StepId("skin"), 9), "act-not-in-plan"),
        (Done(StepId("skin")), "act-not-in-plan"),
        (Weighed(skin_cup(9), A, 50.0, 50.0), "cup-not-in-plan"),
        (Weighed(coat_cup(), POWDER, 50.0, 50.0), "part-not-in-cup"),
        (Weighed(coat_cup(), A, 50.0, float("nan")), "figure-out-of-range"),
        (Weighed(coat_cup(), A, 50.0, float("inf")), "figure-out-of-range"),
        (Gauged(CoatId("coat-9"), (1.0,)), "coat-not-in-plan"),
        (Gauged(CoatId("coat-1"), (-1.0,)), "figure-out-of-range"),
        (Gauged(CoatId("coat-1"), ()), "figure-out-of-range"),
        (ShopAir(400.0), "figure-out-of-range"),
        (LeftOut(StepId("release"), ""), "text-unusable"),
        (BoxWritten(StepId("cure"), "k", "two\nlines"), "text-unusable"),
    ],
)
def test_what_cannot_be_of_the_run_is_refused_whole(shop: Shop, clock: BenchClock, body: Body, code: str) -> None:
    run = start_run(shop, clock, text_of(bench_plan()))
    with pytest.raises(InputRefused) as refused:
        log_all(shop, clock, run.id, (Done(StepId("receive")), body))
    assert refused.value.code == code
    assert len(shop.events_of(run.id)) == 1


def test_the_last_entry_of_a_bench_is_its_own_and_stands(shop: Shop, clock: BenchClock, hand: Hand) -> None:
    other = BenchClock("tablet 2", "", hand)
    run = start_run(shop, clock, text_of(bench_plan()))
    assert last_of_bench(run, "tablet 1") is None
    first = log(shop, clock, run.id, Done(StepId("receive"))).events[0]
    log(shop, other, run.id, ShopAir(21.0))
    now = open_run(shop, run.id, NOON)
    assert last_of_bench(now, "tablet 1") == first
    strike(shop, clock, run.id, first.id)
    assert last_of_bench(open_run(shop, run.id, NOON), "tablet 1") is None


def test_a_start_an_entry_of_another_run_and_a_line_are_not_struck_out(shop: Shop, clock: BenchClock) -> None:
    run, other = (start_run(shop, clock, text_of(bench_plan())) for _ in range(2))
    mine = log(shop, clock, run.id, Done(StepId("receive"))).events[0]
    line = strike(shop, clock, run.id, mine.id).events[0]
    told = [(run.id, run.events[0].id), (other.id, mine.id), (run.id, line.id)]
    codes = []
    for of, event in told:
        with pytest.raises(InputRefused) as refused:
            strike(shop, clock, of, event)
        codes.append(refused.value.code)
    assert codes == ["start-struck-out", "event-not-kept", "line-struck-out"]


def test_an_end_can_be_struck_out_and_nothing_is_written_after_it(shop: Shop, clock: BenchClock) -> None:
    run = start_run(shop, clock, text_of(bench_plan()))
    ended = end_run(shop, clock, run.id, "the client gave up")
    assert ended.run.state.frame.why == "the client gave up"
    with pytest.raises(RecordConflict, match="run-ended"):
        log(shop, clock, run.id, Done(StepId("receive")))
    strike(shop, clock, run.id, ended.events[0].id)
    assert log(shop, clock, run.id, Done(StepId("receive"))).run.state.frame.ended_ms is None


def test_runs_are_listed_with_how_far_they_are_the_newest_entry_first(
    shop: Shop, clock: BenchClock, hand: Hand
) -> None:
    old = start_run(shop, clock, text_of(bench_plan()))
    hand.at += MINUTE
    new = start_run(shop, clock, text_of(replace(bench_plan(), name="heron")))
    hand.at += MINUTE
    last = log(shop, clock, old.id, Done(StepId("receive"))).events[0]
    wrong = log(shop, clock, old.id, Done(StepId("release"))).events[0]
    strike(shop, clock, old.id, wrong.id)
    first, second = runs(shop)
    assert (first.id, first.done, first.last_done, first.started_ms) == (old.id, 1, Act(StepId("receive")), NOON)
    assert first.last_ms >= last.at_ms > second.last_ms
    assert (second.id, second.started.name, second.done) == (new.id, "heron", 0)
    end_run(shop, clock, new.id)
    assert [row.id for row in runs(shop, ended=False)] == [old.id]
    assert [row.id for row in under_way_by(shop, text_of(bench_plan()))] == [old.id]


def test_a_run_whose_start_is_not_here_yet_is_told(shop: Shop, clock: BenchClock) -> None:
    with pytest.raises(RecordConflict, match="run-not-started"):
        open_run(shop, RunId(SubjectId("018bcfe5-6800-7000-8000-000000000009")), NOON)


def test_a_run_goes_on_by_a_plan_that_an_older_version_kept(
    shop: Shop, clock: BenchClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a later version reads it: without the fields that came later, which have defaults."""
    monkeypatch.setattr(json_text, "SCHEMA_VERSION", SCHEMA_VERSION + 1)
    tree = json.loads(text_of(bench_plan()))
    for step in tree["steps"]:
        del step["cures"]
    run = start_run(shop, clock, json.dumps(tree | {"schema_version": SCHEMA_VERSION}))
    again = open_run(shop, run.id, NOON)
    assert (again.plan.schema_version, again.plan.steps[0].cures) == (SCHEMA_VERSION + 1, ())


def test_a_new_plan_keeps_what_is_done_and_lists_what_changed(shop: Shop, clock: BenchClock) -> None:
    """Coat 1 with 110 g of B and A, its wait longer, one step more before it, the hold after it gone."""
    old = bench_plan()
    run = start_run(shop, clock, text_of(old), casts=1)
    for step in ("receive", "release", "coat-1-mix", "coat-1", "coat-1-look", "hold"):
        log(shop, clock, run.id, Done(StepId(step)))
    log(shop, clock, run.id, Weighed(coat_cup(), B, 100.0, 100.0, 100.0))
    heavy = replace(old.mixes[0], parts=tuple(replace(part, mass_g=1.1 * part.mass_g) for part in old.mixes[0].parts))
    kept = [step for step in old.steps if step.id != "hold"]
    kept[4] = replace(kept[4], wait_min=Range(90.0, 120.0, 180.0))
    dust = replace(old.steps[0], id=StepId("dust"))
    new = replace(old, steps=(kept[0], dust, *kept[1:]), mixes=(heavy, *old.mixes[1:]))
    other = replan(shop, clock, run.id, text_of(new))
    changes = other.changes
    assert (other.kept, other.same) == (5, False)
    (cup,) = changes.cups
    assert cup.cup == COAT_CUP
    assert (cup.parts[0].kind, cup.parts[0].old_g, cup.parts[0].new_g) == (PartKind.B, 100.0, pytest.approx(110.0))
    assert changes.weighed_other == (coat_cup(),)
    assert [(step.step, step.altered) for step in changes.steps] == [("coat-1-look", (Altered.WAIT,))]
    assert (changes.new_before, changes.done_gone) == ((Act(StepId("dust")),), (Act(StepId("hold")),))
    after = open_run(shop, run.id, NOON)
    assert after.plan == plan_from_json(text_of(new))
    assert after.state.act(Act(StepId("coat-1-look"))).done_ms is not None  # type: ignore[union-attr]
    assert Act(StepId("dust")) in {each.act for each in after.state.may_begin}
    again = replan(shop, clock, run.id, text_of(new))
    assert again.same
    assert len(open_run(shop, run.id, NOON).state.frame.plans) == 2


def test_a_cast_is_numbered_once_by_its_edition(shop: Shop, clock: BenchClock) -> None:
    edition = open_edition(shop, clock, "otter", 24)
    run = start_run(shop, clock, text_of(bench_plan()), edition=edition.id)
    pack = next(step for step in run.plan.steps if step.id == "pack")
    box = replace(boxes_of(replace(pack, write=(pack.title,)), 2)[0], step=pack.id)
    piece, logged = number_cast(shop, clock, run, box)
    assert (piece.number, piece.turn) == (1, 2)
    assert [body.text for body in logged.run.state.boxes] == ["1/24"]
    again, _ = number_cast(shop, clock, run, box)
    assert again.id == piece.id
    other, _ = number_cast(shop, clock, run, replace(box, turn=1), number=7)
    assert other.number == 7
    with pytest.raises(RecordConflict) as refused:
        number_cast(shop, clock, run, replace(box, turn=1), number=8)
    assert refused.value.code == "cast-numbered"
    ended = end_run(shop, clock, run.id).run
    with pytest.raises(RecordConflict) as refused:
        number_cast(shop, clock, ended, replace(box, turn=3), number=9)
    assert refused.value.code == "run-ended"
    assert {piece.number for piece in edition_of_shop(shop, edition.id).pieces} == {1, 7}


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("7", (Series.NUMBERED, 7)),
        (" 7 / 24", (Series.NUMBERED, 7)),
        ("proof 1/2", (Series.PROOF, 1)),
        ("AP 2", (Series.PROOF, 2)),
        ("7.5", None),
        ("12 g", None),
        ("", None),
    ],
)
def test_a_number_is_read_as_it_stands_on_a_piece_or_refused(written: str, meant: tuple[Series, int] | None) -> None:
    if meant is not None:
        assert number_meant(written) == meant
        return
    with pytest.raises(InputRefused) as refused:
        number_meant(written)
    assert refused.value.code == "number-unclear"
