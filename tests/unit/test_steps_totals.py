"""Totals of the work: sums by hand, and days reckoned by hand on a clock from 9 to 17."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from made_up_job import commission, job_of
from sheets_fixture import plan as sample
from told import done

from moldwright.commission.orders import ShopOrder
from moldwright.plan.ids import CoatId, MixId, StepId
from moldwright.plan.json_text import plan_from_json, plan_to_json
from moldwright.plan.lines import own_line
from moldwright.plan.steps import Per, Phase, StepPlan
from moldwright.ranges import Range
from moldwright.sheets.totals_words import totals_rows
from moldwright.steps.schedule import Hours, run
from moldwright.steps.totals import totals, totals_of

NINE_TO_FIVE = Hours(540.0, 1020.0)
HOUR = 60.0
AT_LEISURE = 1e6


def step(
    id_: str, labor_h: float, wait_h: float = 0.0, coat: str = "", per: Per = Per.MOLD, cup: str = "", kg: float = 0.0
) -> StepPlan:
    return StepPlan(
        StepId(id_), Phase.COAT, CoatId(coat) if coat else None, per, own_line(id_), labor_h * HOUR,
        Range(wait_h * 30, wait_h * HOUR, wait_h * 90) if wait_h else None, (), (), (), (), (),
        (MixId(cup),) if cup else (), kg or None, (),
    )  # fmt: skip


def days(*steps: StepPlan, latest_h: float = AT_LEISURE) -> int:
    return run(steps, NINE_TO_FIVE, latest_h * HOUR).days


def test_work_stays_within_the_hours_and_waits_run_through_the_night() -> None:
    """9 to 14 work; 5 h more do not fit before 17: next day 9 to 14; a wait of 16 h is over at 6 of day 3."""
    assert days(step("a", 5)) == 1
    assert days(step("a", 5), step("b", 5)) == 2
    assert days(step("a", 5), step("b", 5, wait_h=16), step("c", 8)) == 3
    assert days(step("a", 5), step("b", 5, wait_h=16), step("c", 8.1)) == 4


def test_what_is_exactly_a_day_long_fits_it() -> None:
    assert days(step("a", 4), step("b", 4)) == 1
    assert days(step("a", 8), step("b", 8)) == 2


def test_a_last_wait_that_ends_at_night_is_over_in_the_morning() -> None:
    """9 to 10, then 10 h: 20 o'clock, so day 2; 6 h: 16 o'clock of day 1."""
    assert days(step("a", 1, wait_h=10)) == 2
    assert days(step("a", 1, wait_h=6)) == 1


def test_a_coat_is_begun_only_where_it_can_be_ended() -> None:
    """After 6 h of other work 2 h are left: mix 1 h and lay 2 h go together, so to the next morning."""
    coat = (step("mix", 1, coat="coat-1", cup="m"), step("lay", 2, coat="coat-1"))
    assert days(step("a", 6), *coat) == 2
    assert days(step("a", 5), *coat) == 1


def test_coats_start_where_the_next_still_bonds() -> None:
    """Ready at 13. Coat 1 13 to 15, tacky at 19: shop shut; 9 next day is 18 h after the stroke, and 8 h are allowed.
    Next morning: coat 1 9 to 11, coat 2 15 to 17: day 2, none late."""
    coats = (step("c1", 2, wait_h=4, coat="coat-1"), step("c2", 2, coat="coat-2"))
    made = run((step("a", 4), *coats), NINE_TO_FIVE, 8 * HOUR)
    assert (made.days, made.late) == (2, ())
    assert made.end_min == (24 + 17) * HOUR


def test_a_coat_held_back_bonds_in_the_morning() -> None:
    """Allowed 17 h, tacky after 6. At once: 9 to 10, then 9 next day is 23 h later. From 15: 15 to 16, 9 is 17 h on."""
    coats = (step("c1", 1, wait_h=8, coat="coat-1"), step("c2", 1, coat="coat-2"))
    made = run(coats, NINE_TO_FIVE, 17 * HOUR)
    assert (made.days, made.late, made.end_min) == (2, (), (24 + 10) * HOUR)


def test_a_window_that_no_start_keeps_is_named() -> None:
    """Tacky after 9 h, past after 12: from the last stroke at 17 the latest is 5, from one at 10 it is 22."""
    coats = (step("c1", 1, wait_h=9, coat="coat-1"), step("c2", 1, coat="coat-2"))
    assert run(coats, NINE_TO_FIVE, 12 * HOUR).late == (CoatId("coat-2"),)


def test_cups_of_a_cast_are_poured_in_one_day() -> None:
    """Skin 1 h, tack 2 h, back-fill 1 h: 4 h together. After 5 h of other work only 3 are left."""
    poured = (
        step("skin", 1, wait_h=2, per=Per.CAST, cup="s"),
        step("back-fill", 1, per=Per.CAST, cup="b"),
    )
    assert days(step("a", 4, per=Per.CAST), *poured) == 1
    assert days(step("a", 5, per=Per.CAST), *poured) == 2


def test_what_hangs_together_longer_than_a_day_is_named() -> None:
    """20 h at 8 a day: two whole days and 4 h."""
    made = run((step("lay", 20, coat="coat-1"),), NINE_TO_FIVE, AT_LEISURE)
    assert (made.days, made.longer) == (3, (StepId("lay"),))


def test_layers_that_dry_are_laid_by_day_only() -> None:
    """Four layers of 1 h, each dry after 4 h: 9 to 10, 14 to 15 (dry at 19), the same on day 2, then 1 h."""
    steps = (step("coat-1", 4, wait_h=16, coat="coat-1"), step("shell", 1))
    assert totals_of(steps, NINE_TO_FIVE, HOUR, {StepId("coat-1"): 4}).days.mold == 3
    assert totals_of(steps, NINE_TO_FIVE, HOUR, {StepId("coat-1"): 4}).days.late == ()


def test_totals_by_how_often_a_step_is_done() -> None:
    steps = (
        step("receive", 1, kg=2.9), step("coat", 2, wait_h=4, coat="coat-1"), step("cure", 0.5, wait_h=16, kg=3.0),
        step("skin", 1.5, wait_h=1, per=Per.CAST, cup="s"), step("demold", 0.5, per=Per.CAST, kg=7.25),
        step("approve", 0.25), step("store", 0.75, wait_h=8, per=Per.EDITION),
    )  # fmt: skip
    made = totals_of(steps, NINE_TO_FIVE, AT_LEISURE, {})
    assert (made.mold_labor_min, made.cast_labor_min, made.edition_labor_min) == (225.0, 120.0, 45.0)
    assert [wait.step for wait in made.waits] == ["cure", "store", "coat"]
    assert made.waits[0].wait_min == Range(480.0, 960.0, 1440.0)
    assert [(lifted.step, lifted.lift_kg) for lifted in made.lifts] == [("cure", 3.0), ("demold", 7.25)]
    # Mold: 9 to 12, wait to 16, cure step to 16:30, 16 h on it is 8:30 of day 2, the shop opens at 9.
    assert (made.days.mold, made.days.cast, made.days.day_min) == (2, 1, 480.0)


def test_sums_are_those_of_the_plan_as_written() -> None:
    tree = json.loads(plan_to_json(sample()))
    for per in ("mold", "cast", "edition"):
        assert tree["totals"][f"{per}_labor_min"] == pytest.approx(
            sum(each["labor_min"] for each in tree["steps"] if each["per"] == per), abs=1e-3
        )
    assert plan_from_json(plan_to_json(sample())).totals == plan_from_json(json.dumps(tree)).totals


def test_longer_hours_never_make_more_days_and_the_makers_own_steps_count() -> None:
    found = []
    for hours in ("09:00-13:00", "09:00-17:00", "06:00-22:00"):
        job = job_of(commission(shop=ShopOrder(hours=hours)))
        found.append(totals(done(job).steps, job))
    assert [made.days.day_min for made in found] == [240.0, 480.0, 960.0]
    assert found[0].days.mold >= found[1].days.mold >= found[2].days.mold >= 2
    job = job_of(commission())
    own = '[[add]]\nid = "own-bench"\nafter = "clean"\ntitle = "Clear the bench"\nlabor = "30 min"\n'
    more = totals(done(job, own).steps, job)
    assert more.mold_labor_min == pytest.approx(totals(done(job).steps, job).mold_labor_min + 30.0)


def test_what_the_summary_says() -> None:
    rows = dict(totals_rows(sample()))
    assert rows["hands"].startswith("about ")
    assert "for each cast" in rows["hands"]
    assert "8 h every day, one pair of hands" in rows["days"]
    late = replace(sample().totals.days, coats_min=635.0, late=(CoatId("coat-2"),), longer=())
    told = totals_rows(replace(sample(), totals=replace(sample().totals, days=late)))
    (said,) = [text for name, text in told if "tack window" in text]
    assert "the coats take 10½ h in one run" in said
    assert "the tack window for coat 2, brushed is past" in said
