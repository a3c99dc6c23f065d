"""The register of molds on both engines: from the run, typed in, its runs, lots, editions, and what is refused."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from job_plan_sample import sample_plan

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.codes import short_code
from moldwright.log.event import About, Body
from moldwright.log.ids import EditionId, LotId, MoldId, PlanId, RunId, SubjectId
from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.log.mold_events import MoldState
from moldwright.log.run_events import CastMeasured, CupRef, Done, Mishap, Problem, Replanned, Started, Weighed
from moldwright.materials import library
from moldwright.materials.words import Kind
from moldwright.plan.ids import MixId, StepId
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.life import LifePlan
from moldwright.plan.mixes import RUBBER_KINDS, MixFor, MixKind, PartKind
from moldwright.plan.needs import NeedUnit
from moldwright.plan.plan import Plan
from moldwright.plan.steps import EACH_CAST, Per, Phase
from moldwright.ranges import Range
from moldwright.records.clock import BenchClock
from moldwright.records.editions.numbers import give_number
from moldwright.records.editions.open import open_edition
from moldwright.records.molds.next_glove import GloveCall, GloveWhy
from moldwright.records.molds.plan_facts import mold_plan
from moldwright.records.molds.read import MoldKnown, mold_known, mold_meant, molds
from moldwright.records.molds.story import mold_story
from moldwright.records.molds.write import (
    look_over,
    measure_shrink,
    move_mold,
    register_made,
    register_older,
    retire_mold,
)
from moldwright.records.shop import Shop
from moldwright.records.strike import strike_out
from moldwright.records.told import day_of
from moldwright.told.mold_story import fact_lines

CLOCK = BenchClock("bench 1", "by hand")
NOON_MS = 1_781_092_800_000
"""2026-06-10 12:00 UTC: 20,614 days and a half after 1970-01-01."""
TODAY = datetime.fromtimestamp(NOON_MS / 1000).date()
"""Wherever this machine stands."""
DAY_MS = 86_400_000
RUBBER = "addition-cure silicone, Shore A 20, slow"
RESIN = "standard casting urethane"
CLASS = Range(10.0, 20.0, 40.0)


def a_plan(height_mm: float = 200.0, days: int = 9, life: Range = CLASS) -> Plan:
    """Two steps, of which the second is called what no plan of ours calls it; a cup of rubber and one of the skin; a
    glove that lasts as its class does."""
    plan = sample_plan()
    step, mix, need = plan.steps[0], plan.mixes[0], plan.needs[0]
    steps = (
        replace(step, id=StepId("pour"), phase=Phase.SKIN, per=Per.CAST),
        replace(step, id=StepId("lift it out"), phase=Phase.OUT_OF_MOLD, per=Per.CAST),
    )
    mixes = (
        replace(mix, id=MixId("coat-1.cup-1"), for_=MixFor(MixKind.COAT)),
        replace(mix, id=MixId("skin.cup-1"), for_=MixFor(MixKind.SKIN)),
    )
    needs = (replace(need, kind="resin", material=RESIN), replace(need, kind="powder", material="bronze powder"))
    totals = replace(plan.totals, days=replace(plan.totals.days, mold=days))
    cast = replace(plan.cast, shrinkage_mm=Range(0.2, 0.8, 1.6))
    return replace(
        plan,
        steps=steps,
        mixes=mixes,
        needs=needs,
        totals=totals,
        cast=cast,
        original=replace(plan.original, height_mm=height_mm),
        rubber=RUBBER,
        life=LifePlan(life, CLASS, "", (), Range.exactly(60.0), 1, 730),
    )


def kept(shop: Shop, plan: Plan | None = None) -> PlanId:
    return shop.keep_plan(plan_to_json(plan or a_plan()))


def a_run(
    shop: Shop,
    *bodies: Body,
    plan: PlanId | None = None,
    mold: MoldId | None = None,
    edition: EditionId | None = None,
    days_ago: int = 0,
) -> RunId:
    run = RunId(SubjectId(CLOCK.new_id()))
    started = Started(plan or kept(shop), "otter", 3, mold=mold, edition=edition)
    at = NOON_MS - days_ago * DAY_MS
    shop.append([CLOCK.event(About.RUN, run, body, at + number) for number, body in enumerate((started, *bodies))])
    return run


def known(shop: Shop, id_: MoldId) -> MoldKnown:
    return mold_known(shop, library(), TODAY, id_)


def refused(code: str, act: Callable[[], object]) -> None:
    with pytest.raises((RecordConflict, InputRefused)) as found:
        act()
    assert found.value.code == code


def out(turns: Sequence[int]) -> list[Body]:
    return [Done(StepId("lift it out"), turn) for turn in turns]


def test_what_is_asked_of_a_plan_is_what_the_plan_s_own_types_tell() -> None:
    plan = a_plan()
    found = mold_plan(plan_to_json(plan))
    assert found is not None
    assert found.out == {s.id for s in plan.steps if s.phase is Phase.OUT_OF_MOLD and s.per in EACH_CAST}
    assert found.out == {"lift it out"}
    assert found.rubber_mixes == {m.id for m in plan.mixes if m.for_.kind in RUBBER_KINDS} == {"coat-1.cup-1"}
    assert (found.names(Kind.RESIN), found.names(Kind.POWDER)) == ((RESIN,), ("bronze powder",))
    assert dict(found.cast) == {need.stuff: need.material for need in plan.needs}
    assert found.rubber == RUBBER
    assert (found.height_mm, found.mold_days) == (plan.original.height_mm, plan.totals.days.mold)
    assert found.shrink_pct == Range(0.1, 0.4, 0.8)
    assert mold_plan(plan_to_json(replace(plan, schema_version=4))) is None


def test_a_mold_of_a_run_counts_the_casts_of_all_its_runs_by_what_a_step_is(shop: Shop) -> None:
    """Two in the run that made it and one from the shelf; a plan made anew calls the step otherwise."""
    run = a_run(shop, Done(StepId("pour"), 1), *out([1, 2]))
    id_ = register_made(shop, CLOCK, run, stored="shelf 2")
    other = a_plan()
    other = replace(other, steps=(replace(other.steps[1], id=StepId("own-7")), other.steps[0]))
    again = kept(shop, other)
    a_run(shop, Replanned(again), *out([1]), Done(StepId("own-7"), 2), mold=id_)
    a_run(shop, *out([1, 2, 3]))
    found = known(shop, id_)
    assert (found.mold.name, found.mold.rubber, found.mold.stored, found.facts.drawn) == ("otter", RUBBER, "shelf 2", 3)
    assert [each.made for each in found.runs] == [True, False]
    assert [each.facts.drawn for each in molds(shop, library(), TODAY)] == [3]
    refused("mold-registered", lambda: register_made(shop, CLOCK, run))
    refused("run-has-mold", lambda: register_made(shop, CLOCK, found.runs[1].id))
    refused("run-not-started", lambda: register_made(shop, CLOCK, RunId(SubjectId(CLOCK.new_id()))))
    strike_out(shop, CLOCK, About.MOLD, found.mold.event)
    assert molds(shop, library(), TODAY) == ()
    assert register_made(shop, CLOCK, run) != id_


def test_heights_of_casts_tell_the_shrink(shop: Shop) -> None:
    """199.2 and 198.8 of 200 mm: 0.4 and 0.6 %; a measured 0.5 % makes three of mean 0.5; of 0.4 to 0.8 planned."""
    run = a_run(shop, *out([1, 2]), CastMeasured(1, height_mm=199.2), CastMeasured(2, mass_g=9.0, height_mm=198.8))
    id_ = register_made(shop, CLOCK, run)
    measure_shrink(shop, CLOCK, id_, 0.5)
    found = known(shop, id_)
    assert found.shrink is not None
    assert found.shrink.count == 3
    assert found.shrink.likely_pct == pytest.approx(0.5)
    assert found.planned_pct == Range(0.1, 0.4, 0.8)
    refused("shrink-impossible", lambda: measure_shrink(shop, CLOCK, id_, 40.0))


def test_an_older_mold_and_when_it_lay_long(shop: Shop) -> None:
    id_ = register_older(shop, CLOCK, "owl", "latex", drawn=12, stored="attic", cast="polymer-modified gypsum")
    move_mold(shop, CLOCK, id_, "shelf 1")
    assert known(shop, id_).facts.lasts == Range(30.0, 80.0, 200.0)
    run = a_run(shop, *out([1]), mold=id_, days_ago=200)
    found = known(shop, id_)
    assert (found.facts.drawn, found.mold.stored, found.runs[0].id) == (13, "shelf 1", run)
    assert found.facts.lasts == Range(3.0, 10.0, 25.0), "what its last run casts goes before what was told"
    for bad in (-1, 100_001):
        refused("casts-impossible", lambda b=bad: register_older(shop, CLOCK, "x", drawn=b))  # type: ignore[misc]
    refused("casts-impossible", lambda: register_older(shop, CLOCK, "x", lasts=0))
    refused("text-unusable", lambda: register_older(shop, CLOCK, ""))
    assert known(shop, register_older(shop, CLOCK, "by plan", plan=kept(shop))).mold.rubber == RUBBER


def test_a_mold_that_lay_long_is_looked_over_first(shop: Shop) -> None:
    """Addition-cure silicone: after 730 days."""
    late = BenchClock("bench 2", now=lambda: NOON_MS - 900 * DAY_MS)
    id_ = register_older(shop, late, "owl", RUBBER)
    assert known(shop, id_).look_first
    a_run(shop, *out([1]), mold=id_, days_ago=730)
    assert known(shop, id_).look_first
    a_run(shop, *out([1]), mold=id_, days_ago=729)
    assert not known(shop, id_).look_first
    tomorrow = day_of(NOON_MS) + timedelta(days=1)
    assert known(shop, id_).look_from == tomorrow
    (kept_so,) = [line for line in fact_lines(known(shop, id_)) if line.startswith("Keep it cool, dark and dry")]
    assert f"Not cast from till {tomorrow}: look it over" in kept_so
    retire_mold(shop, CLOCK, id_, "given away")
    assert not [line for line in fact_lines(known(shop, id_)) if line.startswith("Keep it")]


def test_numbers_left_and_days_of_the_plan_decide_on_the_next_glove(shop: Shop) -> None:
    """Silicone with urethane gives 15 to 80; two are drawn, 13 at least are left."""
    edition = open_edition(shop, CLOCK, "otter", 13, 1).id
    id_ = register_made(shop, CLOCK, a_run(shop, *out([1, 2]), edition=edition, days_ago=10))
    found = known(shop, id_)
    assert (found.facts.lasts, found.facts.wanted, found.facts.lead_days) == (Range(15.0, 35.0, 80.0), 14, 9)
    assert (found.next.call, found.next.left) == (GloveCall.BY, Range(13.0, 33.0, 78.0))
    give_number(shop, CLOCK, edition)
    assert (known(shop, id_).next.call, known(shop, id_).next.why) == (GloveCall.NOT_NEEDED, GloveWhy.OUTLASTS)
    look_over(shop, CLOCK, id_, MoldState.TORN, "at the ear")
    assert (known(shop, id_).next.call, known(shop, id_).next.why) == (GloveCall.NOW, GloveWhy.TORN)
    retire_mold(shop, CLOCK, id_, "torn")
    assert known(shop, id_).mold.retired == "torn"


def test_what_wears_a_glove_by_its_plan_counts(shop: Shop) -> None:
    """Half of the class's casts at the low end, 0.8 of the likely, as many at the high: of 15, 35 and 80."""
    worn = kept(shop, a_plan(life=Range(5.0, 16.0, 40.0)))
    id_ = register_older(shop, CLOCK, "worn", RUBBER, plan=worn)
    assert known(shop, id_).facts.lasts == Range(7.5, 28.0, 80.0)


def test_molds_of_one_edition_share_its_numbers(shop: Shop) -> None:
    """Of 25 numbers none is given; two molds that drew one each give 14 yet at the least: 11 for the other."""
    edition = open_edition(shop, CLOCK, "otter", 25).id
    first, second = (register_made(shop, CLOCK, a_run(shop, *out([1]), edition=edition), name) for name in "ab")
    assert [known(shop, id_).facts.others for id_ in (first, second)] == [14.0, 14.0]
    for id_ in (first, second):
        assert (known(shop, id_).next.call, known(shop, id_).next.why) == (GloveCall.NOT_NEEDED, GloveWhy.OUTLASTS)
    look_over(shop, CLOCK, second, MoldState.SPENT)
    assert known(shop, first).facts.others == 0.0
    assert known(shop, first).next.call is GloveCall.BY
    assert (known(shop, second).next.call, known(shop, second).next.why) == (GloveCall.NOW, GloveWhy.SPENT)
    for _ in range(11):
        give_number(shop, CLOCK, edition)
    assert (known(shop, second).next.call, known(shop, second).next.why) == (GloveCall.NOT_NEEDED, GloveWhy.OTHERS)
    retire_mold(shop, CLOCK, second)
    assert [each.mold.id for each in molds(shop, library(), TODAY)] == [first]
    assert [each.mold.id for each in molds(shop, library(), TODAY, retired=True)] == [first, second]
    assert known(shop, second).facts.others == 14.0


def test_a_tear_in_a_run_is_the_mold_s(shop: Shop) -> None:
    id_ = register_older(shop, BenchClock("old", now=lambda: NOON_MS - DAY_MS), "owl")
    a_run(shop, Problem(Mishap.TORN, "at the beak", turn=1), mold=id_)
    assert known(shop, id_).mold.state is MoldState.TORN
    assert known(shop, id_).next.call is GloveCall.NOW


def test_the_story_tells_lots_of_its_rubber_alone(shop: Shop) -> None:
    lot, other = LotId(SubjectId(CLOCK.new_id())), LotId(SubjectId(CLOCK.new_id()))
    stuff = Stuff("rubber", "addition-cure-a20-slow-a", "silicone, part A")
    shop.append([CLOCK.event(About.LOT, lot, LotReceived(stuff, 1000.0, NeedUnit.GRAM, "2026-01-02", "L 17"))])
    weighed = (
        Weighed(CupRef(MixId("coat-1.cup-1")), PartKind.A, 50.0, 50.5, lot=lot),
        Weighed(CupRef(MixId("coat-1.cup-1"), filling=2), PartKind.A, 50.0, 49.0, lot=lot),
        Weighed(CupRef(MixId("coat-1.cup-1")), PartKind.B, 50.0, 50.0),
        Weighed(CupRef(MixId("skin.cup-1"), turn=1), PartKind.A, 9.0, 9.0, lot=other),
    )
    id_ = register_made(shop, CLOCK, a_run(shop, *weighed))
    story = mold_story(shop, library(), TODAY, id_)
    assert [(each.lot, each.mass_g, each.name, each.number) for each in story.lots] == [
        (lot, 99.5, "silicone, part A", "L 17")
    ]
    assert len(story.events) == 1


def test_a_run_whose_plan_is_gone_is_told_and_stops_nothing(shop: Shop) -> None:
    id_ = register_older(shop, CLOCK, "owl")
    a_run(shop, *out([1]), plan=PlanId("0" * 64), mold=id_)
    found = known(shop, id_)
    assert (found.facts.drawn, [each.unread for each in found.runs]) == (0, [True])


def test_which_mold_is_meant(shop: Shop) -> None:
    id_ = register_older(shop, CLOCK, "owl")
    for written in ("OWL ", id_, short_code(id_)):
        assert mold_meant(shop, written) == id_
    register_older(shop, CLOCK, "Owl")
    refused("code-of-several", lambda: mold_meant(shop, "owl"))
    refused("not-kept", lambda: mold_meant(shop, "otter"))
