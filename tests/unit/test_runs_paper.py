"""What stands on the printed sheets, typed in afterwards; every expected entry is reckoned from what was typed."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime

import pytest
from conftest import Job
from tests.bench_plans import COAT_CUP, A, B, bench_plan, coat_cup

from moldwright.bench.acts import Act
from moldwright.bench.boxes import BoxOf
from moldwright.bench.findings import Found
from moldwright.bench.now import ActState
from moldwright.desk.paper_form import form_entries, form_text
from moldwright.desk.paper_typed import PaperSession, typed_in
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.event import Event
from moldwright.log.ids import LotId, SubjectId
from moldwright.log.run_events import BoxWritten, CastMeasured, Done, Gauged, Poured, ShopAir, Started, Weighed
from moldwright.log.standing import standing
from moldwright.plan.ids import StepId
from moldwright.plan.json_text import plan_to_json
from moldwright.records.clock import BenchClock
from moldwright.records.editions.edition import Edition
from moldwright.records.editions.open import open_edition
from moldwright.records.editions.read import edition as edition_now
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.runs.paper import PaperEntry
from moldwright.records.runs.paper_in import paper_in
from moldwright.records.runs.paper_rows import RowKind, paper_rows
from moldwright.records.runs.start import start_run
from moldwright.records.runs.write import end_run, log
from moldwright.records.shop import Shop

DAY = date(2026, 11, 2)
NOW = int(datetime(2026, 11, 3, 18, 0).timestamp() * 1000)


def at(hour: int, minute: int, day: int = 2) -> int:
    return int(datetime(2026, 11, day, hour, minute).timestamp() * 1000)


@pytest.fixture
def clock() -> BenchClock:
    return BenchClock("desk", "Kim", lambda: NOW)


@pytest.fixture
def run(shop: Shop, clock: BenchClock) -> OpenRun:
    return start_run(shop, clock, plan_to_json(bench_plan()), casts=1)


def took(shop: Shop, clock: BenchClock, run: OpenRun, **told: str) -> OpenRun:
    entries = [PaperEntry(row, told[row.key]) for row in paper_rows(run) if row.key in told]
    assert len(entries) == len(told), "a key that no row has"
    paper_in(shop, clock, run.id, entries, DAY)
    return open_run(shop, run.id, NOW)


def typed(run: OpenRun) -> list[tuple[object, int]]:
    return [(event.body, event.at_ms) for event in standing(run.events) if not isinstance(event.body, Started)]


def test_rows_stand_in_the_order_of_the_sheets(run: OpenRun) -> None:
    keys = [row.key for row in paper_rows(run)]
    assert keys[:9] == [
        "1 date", "1 tick", "2 tick", "2 wait",
        "3 date", "3 part coat-1.cup-1.B", "3 part coat-1.cup-1.pigment", "3 part coat-1.cup-1.A",
        "3 cup coat-1.cup-1",
    ]  # fmt: skip
    assert len(set(keys)) == len(keys)


def test_a_card_becomes_weighings_and_its_clock(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    """B read 101, pigment as printed, A read 201.5: A alone is 201.5 less what stood above it, 101 + 0.2."""
    parts = {"3 part coat-1.cup-1.B": "101", "3 part coat-1.cup-1.pigment": "=", "3 part coat-1.cup-1.A": "201.5"}
    after = took(shop, clock, run, **parts, **{"3 cup coat-1.cup-1": "14:05 14:20"})
    b, _, a, poured = typed(after)
    assert b[0] == Weighed(coat_cup(), B, 100.0, 101.0, 101.0, "", None, False)
    assert isinstance(a[0], Weighed)
    assert (a[0].part, a[0].mass_g, a[0].timed, a[1]) == (A, pytest.approx(100.3), True, at(14, 5))
    assert poured == (Poured(coat_cup()), at(14, 20))
    cup = after.state.cup(coat_cup())
    assert cup is not None
    assert cup.clock is not None
    assert (cup.clock.from_ms, cup.poured_ms) == (at(14, 5), at(14, 20))


def test_nothing_written_is_nothing_kept(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    entries = [PaperEntry(row, "  ") for row in paper_rows(run)]
    kept = paper_in(shop, clock, run.id, entries, DAY)
    assert (kept.new, kept.known, kept.struck) == ((), 0, ())
    assert len(shop.events_of(run.id)) == 1


def test_ticks_without_a_time_keep_their_order_and_tell_no_wait(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    after = took(shop, clock, run, **{"1 tick": "x", "2 tick": "x", "3 tick": "x", "4 tick": "X", "5 tick": "="})
    bodies = typed(after)
    assert [body for body, _ in bodies] == [Done(step.id, 0, False) for step in after.plan.steps[:5]]
    assert sorted(when for _, when in bodies) == [when for _, when in bodies]
    assert len({when for _, when in bodies}) == 5
    assert (after.state.waits, after.state.windows) == ((), ())
    assert [found.code for found in after.state.findings] == [Found.PART_MISSING]


def test_a_wait_dates_its_step_and_keeps_to_when(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    after = took(shop, clock, run, **{"1 tick": "x", "2 tick": "x", "2 wait": "23:50 00:15"})
    _, done, to = typed(after)
    assert done == (Done(StepId("release")), at(23, 50))
    assert to == (BoxWritten(StepId("release"), "wait.to", "00:15"), at(0, 15, day=3))
    assert after.state.act(Act(StepId("release"))).done_ms == at(23, 50)  # type: ignore[union-attr]


def test_a_sheet_of_another_day(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    after = took(shop, clock, run, **{"1 tick": "09:00", "3 date": "2026-11-05", "3 tick": "08:00"})
    assert [when for _, when in typed(after)] == [at(9, 0), at(8, 0, day=5)]


def test_what_is_read_in_twice_adds_nothing_and_what_is_mended_takes_its_place(
    shop: Shop, clock: BenchClock, run: OpenRun
) -> None:
    told = {
        "1 tick": "x", "2 tick": "10:00", "3 part coat-1.cup-1.B": "101", "3 part coat-1.cup-1.A": "201.2",
        "3 cup coat-1.cup-1": "14:05 6.1 g", "3 tick": "14:20",
    }  # fmt: skip
    once = took(shop, clock, run, **told)
    twice = took(shop, clock, once, **told)
    assert twice.events == once.events
    mended = took(shop, clock, twice, **{"3 part coat-1.cup-1.B": "100"})
    weighed = [event.body for event in standing(mended.events) if isinstance(event.body, Weighed)]
    assert [body.mass_g for body in weighed if body.part is B] == [100.0]
    assert len(mended.events) == len(once.events) + 2


def test_what_the_bench_kept_already_is_not_kept_again(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    log(shop, clock, run.id, Done(StepId("receive")))
    log(shop, clock, run.id, Weighed(coat_cup(), B, 100.0, 60.0, 60.0))
    now = log(shop, clock, run.id, Weighed(coat_cup(), B, 40.0, 40.0, 100.0)).run
    after = took(shop, clock, now, **{"1 tick": "x", "3 part coat-1.cup-1.B": "="})
    assert after.events == now.events


@pytest.mark.parametrize(
    ("key", "text", "says"),
    [
        ("1 tick", "perhaps", "perhaps"),
        ("1 tick", "25:10", "25:10"),
        ("2 wait", "10:00 11:00 12:00", "10:00 11:00 12:00"),
        ("2 wait", "soon", "soon"),
        ("3 part coat-1.cup-1.B", "heavy", 'it read = "heavy"'),
        ("3 part coat-1.cup-1.A", "20", "20"),
        ("3 part coat-1.cup-1.A", "200.2 4711", "4711"),
        ("3 cup coat-1.cup-1", "-", "-"),
        ("3 date", "yesterday", "yesterday"),
    ],
)
def test_what_cannot_be_read_is_refused_by_its_row_and_nothing_is_written(
    shop: Shop, clock: BenchClock, run: OpenRun, key: str, text: str, says: str
) -> None:
    with pytest.raises(InputRefused) as refused:
        took(shop, clock, run, **{"1 date": "2026-11-02", key: text, "4 tick": "x"})
    assert refused.value.code == "paper-unreadable"
    assert f"{key}: {says}" in str(refused.value.actual)
    assert len(shop.events_of(run.id)) == 1


def test_what_the_paper_does_not_say_of_a_weighing_stays(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    """Weighed at the bench at 12:00 from a lot; on paper another mass, neither lot nor time: only the mass is other."""
    lot = LotId(SubjectId(clock.new_id()))
    log(shop, clock, run.id, Weighed(coat_cup(), B, 100.0, 100.0, 100.0, "fine", lot), at(12, 0))
    after = took(shop, clock, run, **{"3 part coat-1.cup-1.B": "101"})
    assert typed(after) == [(Weighed(coat_cup(), B, 100.0, 101.0, 101.0, "fine", lot, True), at(12, 0))]


def numbered_run(shop: Shop, clock: BenchClock, job: Job) -> tuple[Edition, OpenRun, str]:
    edition = open_edition(shop, clock, "figure", 24)
    run = start_run(shop, clock, plan_to_json(job.planned.plan), casts=1, edition=edition.id)
    return edition, run, next(row.key for row in paper_rows(run) if row.box and row.box.kind is BoxOf.NUMBER)


def test_no_number_is_given_where_another_row_is_refused(shop: Shop, clock: BenchClock, small_job: Job) -> None:
    """A cup of 2 t is none that a bench can have weighed: the paper is refused, number 7 stays free."""
    edition, run, key = numbered_run(shop, clock, small_job)
    part = next(row.key for row in paper_rows(run) if row.kind is RowKind.PART)
    with pytest.raises(InputRefused) as refused:
        took(shop, clock, run, **{part: "2000000", key: "7/24"})
    assert refused.value.code == "figure-out-of-range"
    assert edition_now(shop, edition.id).pieces == ()


def test_a_number_on_paper_is_taken_in_after_the_run_is_over_and_never_changed(
    shop: Shop, clock: BenchClock, small_job: Job
) -> None:
    edition, run, key = numbered_run(shop, clock, small_job)
    end_run(shop, clock, run.id)
    after = took(shop, clock, run, **{"1 tick": "x", key: "7/24"})
    assert [piece.number for piece in edition_now(shop, edition.id).pieces] == [7]
    assert [body.text for body, _ in typed(after) if isinstance(body, BoxWritten)] == ["7/24"]
    assert took(shop, clock, after, **{key: "7"}).events == after.events
    with pytest.raises(RecordConflict) as refused:
        took(shop, clock, after, **{key: "8/24"})
    assert refused.value.code == "cast-numbered"
    assert open_run(shop, run.id, NOW).events == after.events


def test_a_real_form_goes_in_whole(shop: Shop, clock: BenchClock, small_job: Job) -> None:
    """Every line of a real plan's form filled in: each becomes its own entry, all steps are done."""
    open_edition(shop, clock, "figure", 24)
    plan = small_job.planned.plan
    run = start_run(shop, clock, plan_to_json(plan), casts=1)
    text = filled(form_text(run), run)
    entries = form_entries(run, text)
    kept = paper_in(shop, clock, run.id, entries, DAY)
    after = open_run(shop, run.id, NOW)
    assert all(act.state in (ActState.DONE, ActState.WAITING) for act in after.state.acts)
    kinds = {type(event.body) for event in kept.new}
    assert {Done, Weighed, Gauged, ShopAir, CastMeasured, BoxWritten} <= kinds
    assert after.state.casts == (CastMeasured(1, 830.0, 118.0),)
    air = [event.body for event in kept.new if isinstance(event.body, ShopAir)]
    assert {(body.temperature_c, body.timed) for body in air} == {(22.0, False)}
    assert [found.code for found in after.state.findings] == []
    again = paper_in(shop, clock, run.id, entries, DAY)
    assert (again.new, again.known) == ((), len(kept.new))


VALUES: tuple[tuple[str, str], ...] = (
    ("coat-*-look.write.1", "TOO EXACT"), ("lay-out.write.1", "22 °C"), ("skin.write.1", "22"),
    ("skin.write.2", "10:00"), ("weigh-cast.write.1", "830 g"), ("weigh-cast.write.2", "118"),
    ("number.write.1", "7/24"),
)  # fmt: skip


def filled(text: str, run: OpenRun) -> str:
    lines = []
    for line in text.splitlines():
        key = line.partition("]")[0][1:] if line.startswith("[") else ""
        lines.append(line + value_of(key, run) if key else line)
    return "\n".join(lines)


def value_of(key: str, run: OpenRun) -> str:
    _, kind, *rest = key.split()
    if kind == "box":
        told = dict(VALUES).get(rest[0], "as it is")
        number = int(key.split(maxsplit=1)[0].partition("/")[0])
        coat = run.plan.steps[number - 1].coat
        return f"{run.plan.coat(coat).thickness_mm:g}" if told == "TOO EXACT" and coat is not None else told
    return {"date": "2026-11-02", "part": "=", "tick": "x"}.get(kind, "")


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda text: text.replace("[1 tick]", "[1 tack]"), "line "),
        (lambda text: text + "[1 tick] again: x\n", "line "),
        (lambda text: text + "hello\n", "hello"),
    ],
)
def test_a_form_with_lines_that_are_none_of_it_is_refused_by_their_numbers(
    shop: Shop, run: OpenRun, spoil: Callable[[str], str], says: str
) -> None:
    text = "[1 tick] 1, done: x\n"
    with pytest.raises(InputRefused) as refused:
        form_entries(run, spoil(text))
    assert refused.value.code == "form-unreadable"
    assert says in str(refused.value.actual)


def keyed(session: PaperSession, *lines: str) -> list[str]:
    return [said for line in lines for said in session.take(line)]


def test_typed_row_by_row_ranges_back_and_on_another_day(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    session = PaperSession(shop, clock, run.id)
    keyed(session, "2026-11-02", "09:00", "done to 2")
    assert session.row is not None
    assert session.row.key == "2 wait"
    keyed(session, "", "", "101", "=", "b", "b", "100", "=", "200.2", "14:05", "q")
    assert session.left
    after = open_run(shop, run.id, NOW)
    assert [body.mass_g for body in bodies_of(after, Weighed)] == [100.0, 0.2, pytest.approx(100.0)]
    again = PaperSession(shop, clock, run.id)
    assert again.row is not None
    assert again.row.key == "3 tick"
    assert list(again.asking()) == ["Date of this sheet (Enter: 2026-11-03):"]
    keyed(again, "2026-11-02", "14:20", "done to 7")
    done = [(event.body.step, event.at_ms) for event in events_of(open_run(shop, run.id, NOW), Done)]
    assert ("coat-1-mix", at(14, 20)) in done
    assert len(done) == 7


def test_what_cannot_be_read_is_asked_again_at_its_own_row(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    session = PaperSession(shop, clock, run.id)
    keyed(session, "2026-11-02", "09:00", "done to 2", "", "")
    assert session.row is not None
    asked = session.row.key
    assert session.row.kind is RowKind.PART
    (said,) = keyed(session, "what")
    assert '"what" is no number with a unit' in said
    assert session.row.key == asked
    (said,) = keyed(session, "100 no-such-lot")
    assert session.row.key == asked
    assert keyed(session, "100", "=", "200.2", "14:05") == []
    assert len(bodies_of(open_run(shop, run.id, NOW), Weighed)) == 3


def test_the_end_of_the_lines_leaves_whatever_was_typed_before(shop: Shop, clock: BenchClock, run: OpenRun) -> None:
    lines = iter(["2026-11-02", "09:00", "done to 2", "", "", "what"])
    told: list[str] = []
    typed_in(PaperSession(shop, clock, run.id), lambda _s: next(lines, None), told.append)
    assert told[-1].startswith("Stopped; --from-paper goes on from here.")


def bodies_of(run: OpenRun, kind: type) -> list[Weighed]:
    return [event.body for event in standing(run.events) if isinstance(event.body, kind)]


def events_of(run: OpenRun, kind: type) -> list[Event]:
    return [event for event in standing(run.events) if isinstance(event.body, kind)]


def test_a_whole_mold_is_typed_in_few_keys(shop: Shop, clock: BenchClock, small_job: Job) -> None:
    """As printed, no times but those of cups: a line a row; the rows of the mold alone, counted from its plan."""
    run = start_run(shop, clock, plan_to_json(small_job.planned.plan), casts=0)
    session = PaperSession(shop, clock, run.id)
    rows = paper_rows(run)
    while session.row is not None:
        kind = session.row.kind
        keyed(session, {RowKind.PART: "=", RowKind.CUP: "10:00", RowKind.TICK: "x"}.get(kind, ""))
    assert session.lines == len(rows)
    assert session.keys <= 3 * len(rows)
    after = open_run(shop, run.id, NOW)
    assert all(act.state in (ActState.DONE, ActState.WAITING) for act in after.state.acts if act.act.turn == 0)
    assert {cup.mix.id for cup in after.state.cups if cup.clock is not None} == {
        mix.id for mix in run.plan.mixes if mix.starter and mix.id in {c.ref.mix for c in after.state.cups}
    }
    assert COAT_CUP in {cup.ref.mix for cup in after.state.cups}
