"""Casts, shrink, condition and the next glove, by hand."""

from __future__ import annotations

import random
from datetime import date, timedelta

import pytest
import scipy.stats

from moldwright.log.any_events import Attached, Noted, Undone
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, FileHash, SubjectId
from moldwright.log.mold_events import MoldInspected, MoldMade, MoldMeasured, MoldRetired, MoldState, MoldStored
from moldwright.log.run_events import CastMeasured, Done, LeftOut, Mishap, Problem
from moldwright.materials import library
from moldwright.materials.mold_life import casts_of_glove, look_after_days
from moldwright.materials.words import Chemistry
from moldwright.plan.ids import StepId
from moldwright.ranges import Range
from moldwright.records.molds.casts import DrawnCast, drawn_casts
from moldwright.records.molds.mold import Mold, mold_of
from moldwright.records.molds.next_glove import (
    GloveCall,
    GloveFacts,
    GloveWhy,
    next_glove,
    pace_of,
    working_days_before,
)
from moldwright.records.molds.shrink import T95, measured_shrink, shrink_pct

TODAY = date(2026, 6, 10)
"""A Wednesday, as any calendar tells."""
OUT = frozenset((StepId("demold"), StepId("own-1")))


def told(*bodies: Body, about: About = About.MOLD, subject: str = "mold", first: int = 0) -> list[Event]:
    """A body a second."""
    return [
        Event(EventId(f"{subject}-{number:03}"), about, SubjectId(subject), 1000 * number, "bench", "", body)
        for number, body in enumerate(bodies, start=first)
    ]


def run(*bodies: Body, first: int = 0) -> list[Event]:
    return told(*bodies, about=About.RUN, subject="run", first=first)


def test_a_cast_is_drawn_once_by_any_step_out_of_the_mold_and_measured_as_last_written() -> None:
    events = run(
        Done(StepId("demold"), 1),
        Done(StepId("own-1"), 1),
        Done(StepId("weigh-cast"), 2),
        Done(StepId("demold"), 2),
        LeftOut(StepId("demold"), "still in", 3),
        Done(StepId("demold"), 0),
        CastMeasured(1, mass_g=900.0, height_mm=188.0),
        CastMeasured(1, height_mm=189.0),
        Done(StepId("demold"), 4),
    )
    events += run(Undone(events[8].id), first=9)
    random.Random(2).shuffle(events)
    drawn = drawn_casts([*events, *events], OUT)
    assert drawn == (
        DrawnCast(drawn[0].run, 1, 0, 900.0, 189.0),
        DrawnCast(drawn[0].run, 2, 3000),
    )


def mold(*events: Event, runs: list[Event] | None = None) -> Mold:
    found = mold_of(events, runs or [])
    assert found is not None
    return found


def test_condition_is_what_was_found_last_or_what_tore_it_since() -> None:
    made, worn, mended = told(
        MoldMade("glove 1"), MoldInspected(MoldState.WORN, "thin"), MoldInspected(MoldState.MENDED), first=0
    )
    assert mold(made).state is MoldState.GOOD
    assert mold(made, worn).state is MoldState.WORN
    torn = run(Problem(Mishap.TORN, "at the ear"), Problem(Mishap.BUBBLES), first=5)
    found = mold(made, worn, mended, runs=torn)
    assert (found.state, found.looks[-1].run, found.looks[-1].text) == (MoldState.TORN, "run", "at the ear")
    before = run(Problem(Mishap.TORN), first=1)
    assert mold(made, mended, runs=before).state is MoldState.MENDED
    assert mold(made, worn, runs=[*torn, *run(Undone(torn[0].id), first=9)]).state is MoldState.WORN


def test_a_mold_is_what_was_written_of_it_and_none_once_that_is_struck_out() -> None:
    photo = Attached(FileHash("0" * 64), "face")
    events = told(
        MoldMade("glove 1", rubber="latex", drawn=3, lasts=20, stored="shelf 2"),
        MoldStored("shelf 4"),
        MoldMeasured(0.4),
        photo,
        Noted("talc it"),
        MoldRetired("given away"),
    )
    found = mold(*reversed(events))
    assert (found.stored, found.measured, found.files) == ("shelf 4", (0.4,), (photo,))
    assert (found.drawn_before, found.lasts, found.retired) == (3, 20, "given away")
    back = told(Undone(events[5].id), first=6)
    assert mold(*events, *back).retired is None
    assert mold_of([*events, *told(Undone(events[0].id), first=7)]) is None


def test_shrink_is_the_mean_and_where_the_next_cast_lies() -> None:
    """199.0 and 198.4 of 200 mm are 0.5 and 0.8 %: mean 0.65, s = 0.3 / sqrt 2, half = 6.314 s sqrt(1.5) = 1.6404."""
    two = measured_shrink([shrink_pct(199.0, 200.0), shrink_pct(198.4, 200.0)])
    assert two is not None
    assert two.next_pct is not None
    assert two.likely_pct == pytest.approx(0.65)
    assert two.next_pct.high - two.likely_pct == pytest.approx(6.314 * 0.3 / 2**0.5 * 1.5**0.5, rel=1e-6)
    one = measured_shrink([0.4])
    assert one is not None
    assert (one.count, one.likely_pct, one.next_pct) == (1, 0.4, None)
    assert measured_shrink([]) is None


def test_a_height_that_cannot_be_is_left_out_and_told() -> None:
    """19 for 190 mm would be 90 %."""
    found = measured_shrink([0.4, shrink_pct(19.0, 190.0), 0.6])
    assert found is not None
    assert (found.count, found.left_out) == (2, 1)
    assert found.likely_pct == pytest.approx(0.5)
    assert measured_shrink([90.0]) is None


def test_student_s_t_is_that_of_the_tables() -> None:
    """Against scipy's own, to the tables' three decimals."""
    assert [round(float(scipy.stats.t.ppf(0.95, nu)), 3) for nu in range(1, 31)] == list(T95)


def facts(state: MoldState = MoldState.GOOD, **more: object) -> GloveFacts:
    known = {"retired": False, "lasts": Range(15.0, 35.0, 80.0), "drawn": 10, "wanted": 40, "lead_days": 9}
    on = [TODAY - timedelta(each) for each in (1, 20, 40, 60, 80, 100, 120, 140, 160)]
    return GloveFacts(state, drawn_on=tuple(on), **{**known, **more})  # type: ignore[arg-type]


def test_the_pace_is_that_of_the_last_half_year() -> None:
    """Nine casts in 161 days: 9 * 30 / 161 = 1.677 in 30 days; sqrt 9 give or take 0.8224: 4.741 to 14.609 casts."""
    pace = pace_of(facts().drawn_on, TODAY)
    assert pace is not None
    assert pace.likely == pytest.approx(9 * 30 / 161)
    assert (pace.low, pace.high) == (
        pytest.approx(4.7418 * 30 / 161, rel=1e-3),
        pytest.approx(14.6109 * 30 / 161, rel=1e-3),
    )
    assert pace_of([TODAY - timedelta(180)], TODAY) is None
    assert pace_of([TODAY + timedelta(3)], TODAY) is None
    week = pace_of([TODAY] * 8, TODAY)
    assert week is not None
    assert week.likely == 8.0


def test_nine_of_ten_counts_have_their_rate_within_the_pace_s_range() -> None:
    """Poisson's own distribution, by scipy: over rates of 3 to 30 the range holds 86 to 95 % each, 90 on average."""
    held = []
    for rate in range(3, 31):
        counts = range(1, 100)
        within = [(r := pace_of([TODAY] * n, TODAY)) is not None and r.low <= rate <= r.high for n in counts]
        held.append(sum(scipy.stats.poisson.pmf(n, rate) for n, yes in zip(counts, within, strict=True) if yes))
    assert min(held) >= 0.84
    assert sum(held) / len(held) == pytest.approx(0.9, abs=0.02)


def test_casts_left_and_the_day_to_begin_by() -> None:
    """Left 5, 25, 70. Earliest: 5 casts at 14.61 in 161 days are 55.1 days: 4 August, a Tuesday. Nine working days
    before: 3 August, 31 to 27 July, 24 to 22 July. Likely: 25 at 9 in 161 days, 447; latest: 70 at 4.742, 2377."""
    found = next_glove(facts(), TODAY)
    assert found.left == Range(5.0, 25.0, 70.0)
    assert found.worn is not None
    assert (found.worn.earliest, found.begin_by) == (date(2026, 8, 4), date(2026, 7, 22))
    assert (found.worn.likely - TODAY).days == 447
    assert (found.worn.latest - TODAY).days == 2377
    assert (found.call, found.why) == (GloveCall.BY, GloveWhy.LASTS)


@pytest.mark.parametrize(
    ("known", "call", "why"),
    [
        (facts(MoldState.TORN), GloveCall.NOW, GloveWhy.TORN),
        (facts(MoldState.SPENT), GloveCall.NOW, GloveWhy.SPENT),
        (facts(retired=True), GloveCall.NOW, GloveWhy.RETIRED),
        (facts(MoldState.TORN, wanted=0), GloveCall.NOT_NEEDED, GloveWhy.NO_NUMBERS),
        (facts(wanted=5), GloveCall.NOT_NEEDED, GloveWhy.OUTLASTS),
        (facts(wanted=20, others=20.0), GloveCall.NOT_NEEDED, GloveWhy.OTHERS),
        (facts(wanted=25, others=20.0), GloveCall.NOT_NEEDED, GloveWhy.OUTLASTS),
        (facts(wanted=26, others=20.0), GloveCall.BY, GloveWhy.LASTS),
        (facts(MoldState.TORN, wanted=21, others=20.0), GloveCall.NOW, GloveWhy.TORN),
        (facts(wanted=6), GloveCall.BY, GloveWhy.LASTS),
        (facts(wanted=None), GloveCall.BY, GloveWhy.LASTS),
        (facts(drawn=34), GloveCall.NOW, GloveWhy.LEAD),
        (facts(drawn=35), GloveCall.NOW, GloveWhy.DRAWN),
        (facts(lasts=None), GloveCall.UNKNOWN, GloveWhy.NO_FIGURE),
        (facts(MoldState.WORN, lead_days=None), GloveCall.BY, GloveWhy.LASTS),
    ],
)
def test_condition_goes_before_counting(known: GloveFacts, call: GloveCall, why: GloveWhy) -> None:
    found = next_glove(known, TODAY)
    assert (found.call, found.why) == (call, why)


def test_without_casts_of_late_there_is_no_day() -> None:
    known = GloveFacts(MoldState.GOOD, False, Range(15.0, 35.0, 80.0), 10, (), 40, 9)
    found = next_glove(known, TODAY)
    assert (found.call, found.worn, found.left) == (GloveCall.NO_PACE, None, Range(5.0, 25.0, 70.0))


def test_working_days_pass_over_the_weekend() -> None:
    """Ready on Monday the 8th at the latest on Friday evening: one day is Friday the 5th, six are Friday before."""
    assert working_days_before(date(2026, 6, 8), 1) == date(2026, 6, 5)
    assert working_days_before(date(2026, 6, 8), 6) == date(2026, 5, 29)
    assert working_days_before(TODAY, 0) == TODAY


def test_every_rubber_of_the_library_has_its_casts_for_every_resin() -> None:
    known = library()
    rubbers = {sheet.chemistry for sheet in known.sheets["rubber"].values()}  # type: ignore[attr-defined]
    resins = {sheet.chemistry for sheet in known.sheets["resin"].values()}  # type: ignore[attr-defined]
    assert len(rubbers) >= 4
    assert len(resins) >= 5
    for rubber in rubbers:
        assert 30 <= look_after_days(rubber) <= 3650
        for resin in resins:
            found = casts_of_glove(rubber, resin).range
            assert 1 <= found.low < found.likely < found.high <= 1000


def test_what_is_common_practice_holds_in_the_table() -> None:
    """Common practice, no source: gypsum wears a mold least; styrene of polyester wears silicone more than urethane
    does; urethane in latex ruins it soonest."""
    for rubber in (Chemistry.ADDITION, Chemistry.CONDENSATION, Chemistry.URETHANE_RUBBER, Chemistry.LATEX):
        gypsum = casts_of_glove(rubber, Chemistry.GYPSUM).range
        urethane, polyester = (casts_of_glove(rubber, c).range for c in (Chemistry.URETHANE, Chemistry.POLYESTER))
        assert gypsum.likely > urethane.likely > polyester.likely
    assert (
        casts_of_glove(Chemistry.LATEX, Chemistry.URETHANE).range.high
        < casts_of_glove(Chemistry.ADDITION, Chemistry.URETHANE).range.likely
    )
