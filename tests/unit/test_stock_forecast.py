"""The forecast and what to buy: weeks, grams and days by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from lots_by_hand import BASE, DAY_MS, RUN, TODAY, about_lot, bench, ms, receipt, received, weighed
from shelf_plan import RESIN, need, plan

from moldwright.log.event import About
from moldwright.log.ids import MoldId, PlanId, SubjectId
from moldwright.log.lot_events import LotUsed, Stuff
from moldwright.log.run_events import CastMeasured, CupRef, Ended, Gelled, MoldRegistered, Started, Weighed
from moldwright.materials import library
from moldwright.plan.ids import MixId
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.mixes import PartKind, StuffKey
from moldwright.plan.needs import NeedGroup, NeedUnit
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.records.shop import Shop
from moldwright.records.stock.ahead import Forecast, forecast
from moldwright.records.stock.demand import needed_by_run, needs_of
from moldwright.records.stock.forecast import Outlook
from moldwright.records.stock.order import to_buy

NOW = ms(TODAY)


def started(shop: Shop, casts: int = 4, day: str = "2026-11-20", **more: object) -> PlanId:
    kept = shop.keep_plan(plan_to_json(plan()))
    body = Started(kept, "otter", casts, **more)  # type: ignore[arg-type]
    shop.append([bench("starter").event(About.RUN, RUN, body, ms(day))])
    return kept


def look(shop: Shop, *plans: Plan) -> Forecast:
    return forecast(shop, library(), TODAY, NOW, plans)


def of(found: Forecast, stuff: Stuff) -> Outlook:
    return next(each for each in found.outlooks if each.stuff.key == stuff.key)


def test_a_hundred_grams_a_week_of_two_kilograms_last_twenty_weeks(shop: Shop) -> None:
    """8 weeks before today, 100 g each: 5000 - 800 = 4200 g, 42 weeks; the first week is that of the receipt."""
    clock = bench()
    lot = received(shop, clock, receipt(amount=5000.0, on="2026-10-03", expires="2027-02-04"))
    shop.append([weighed(clock, lot, 100.0, NOW - week * 7 * DAY_MS) for week in range(8)])
    found = of(look(shop), BASE)
    assert found.use is not None
    assert (found.use.weeks, found.use.mean, found.use.deviation) == (8, 100.0, 0.0)
    assert found.left == 4200.0
    assert found.lasts is not None
    assert (found.lasts.low, found.lasts.likely, found.lasts.high) == pytest.approx((42.0, 42.0, 42.0))
    # 27 November to 4 February, both counted: 4 + 31 + 31 + 4 = 70 days, 10 weeks, 1000 g.
    assert [(each.lot, each.amount) for each in found.unused] == [(lot, 3200.0)]


def test_first_expiring_first_used_so_only_what_comes_too_late_is_left_over(shop: Shop) -> None:
    """100 g a week, 300 g to 17 December and 500 g to 31 December, both days counted. 21 days use the first lot up; of
    the second 35 days leave time for 200 g: 300 g expire."""
    clock = bench()
    old = received(shop, clock, receipt(amount=800.0, on="2026-10-03"))
    shop.append([weighed(clock, old, 100.0, NOW - week * 7 * DAY_MS) for week in range(8)])
    received(shop, clock, receipt(amount=300.0, on="2026-11-01", expires="2026-12-17"))
    later = received(shop, clock, receipt(amount=500.0, on="2026-11-01", expires="2026-12-31"))
    found = of(look(shop), BASE)
    assert [(each.lot, each.amount) for each in found.unused] == [(later, 300.0)]


def test_what_was_used_beside_and_weighed_in_milliliters_counts(shop: Shop) -> None:
    """500 ml at 1.25 g/ml: told in grams. 100 ml used beside in one week: 125 g; 50 g weighed in another."""
    clock = bench(day="2026-10-01")
    lot = received(shop, clock, receipt(RESIN, 500.0, NeedUnit.MILLILITER, "2026-10-24", density_g_ml=1.25))
    shop.append([about_lot(clock, lot, LotUsed(100.0), NOW), weighed(clock, lot, 50.0, NOW - 7 * DAY_MS)])
    found = of(look(shop), RESIN)
    assert found.unit is NeedUnit.GRAM
    assert found.left == pytest.approx((500.0 - 100.0 - 40.0) * 1.25)
    assert found.use is not None
    assert (found.use.weeks, found.use.mean) == (5, 35.0)


def test_expired_and_recalled_lots_are_held_and_not_left(shop: Shop) -> None:
    clock = bench()
    received(shop, clock, receipt(amount=700.0, expires="2026-11-01"))
    received(shop, clock, receipt(amount=300.0))
    found = of(look(shop), BASE)
    assert (found.left, found.held) == (300.0, 700.0)


def test_a_run_under_way_needs_what_is_not_weighed_yet(shop: Shop) -> None:
    """Rubber: 400 less 150 g; resin 800 less 180 g; two of four casts are out: half of the cups; rolls untouched."""
    kept = started(shop)
    happened = (
        Weighed(CupRef(MixId("coat-1.cup-1")), PartKind.A, 150.0, 150.0),
        Weighed(CupRef(MixId("skin.cup-1"), 1), PartKind.A, 180.0, 180.0),
        CastMeasured(1, 500.0),
        CastMeasured(2, 500.0),
    )
    clock = bench()
    shop.append([clock.event(About.RUN, RUN, body, ms("2026-11-21")) for body in happened])
    needs = {each.key.id: each.amount for each in needed_by_run(needs_of(shop.plan(kept)), shop.events_of(RUN))}
    assert needs[BASE.id] == Range(210.0, 250.0, 330.0)
    assert needs[RESIN.id] == Range(540.0, 620.0, 780.0)
    assert needs["cup"] == Range(4.0, 4.0, 5.0)
    assert needs["plaster-bandage"] == Range(2.0, 2.0, 3.0)
    found = look(shop)
    assert [run.name for run in found.runs] == ["otter"]
    assert of(found, BASE).short == needs[BASE.id]


def test_what_gelled_in_its_cup_is_needed_again(shop: Shop) -> None:
    """Two cups of 150 g of rubber: one is past use with 40 % of it on the work, one is laid: 400 less 60 and 150 g."""
    kept, clock = started(shop), bench()
    first, again = (CupRef(MixId("coat-1.cup-1"), 0, filling) for filling in (1, 2))
    happened = (Weighed(first, PartKind.A, 150.0, 150.0), Gelled(first, 0.4), Weighed(again, PartKind.A, 150.0, 150.0))
    shop.append([clock.event(About.RUN, RUN, body, ms("2026-11-21")) for body in happened])
    needs = {each.key.id: each.amount for each in needed_by_run(needs_of(shop.plan(kept)), shop.events_of(RUN))}
    assert needs[BASE.id] == Range(150.0, 190.0, 270.0)


def test_with_its_mold_in_the_register_a_run_needs_only_its_casts(shop: Shop) -> None:
    """Two casts of four: half of 800 g of resin; no rubber, no rolls."""
    started(shop, casts=2)
    shop.append([bench().event(About.RUN, RUN, MoldRegistered(MoldId(SubjectId("m"))), ms("2026-11-21"))])
    found = {each.stuff.id: each.ahead for each in look(shop).outlooks}
    assert found[RESIN.id] == Range(360.0, 400.0, 480.0)
    assert BASE.id not in found
    assert "plaster-bandage" not in found


def test_an_ended_run_needs_nothing_and_one_that_lies_still_is_told(shop: Shop) -> None:
    started(shop, day="2026-06-01")
    still = look(shop)
    assert [(run.run, run.still, run.needs) for run in still.runs] == [(RUN, True, ())]
    shop.append([bench().event(About.RUN, RUN, Ended(), ms("2026-11-21"))])
    assert look(shop).runs == ()


def test_what_to_buy_till_a_day(shop: Shop) -> None:
    """100 g a week till 24 December, both days counted 28 days, 4 weeks: 400 g usual; the plan wants 400 g (to 480 g)
    of it: not both. 250 g are there: 150 g to buy, 230 g to be sure. Of the resin all that the plan wants."""
    clock = bench()
    lot = received(shop, clock, receipt(amount=1050.0, on="2026-10-03"))
    shop.append([weighed(clock, lot, 100.0, NOW - week * 7 * DAY_MS) for week in range(8)])
    rows = {row.stuff.id: row for row in to_buy(look(shop, plan()).outlooks, TODAY, "2026-12-24")}
    assert rows[BASE.id].buy == Range(150.0, 150.0, 230.0)
    assert rows[BASE.id].wanted == Range(400.0, 400.0, 480.0)
    assert rows[RESIN.id].buy == Range(720.0, 800.0, 960.0)
    assert rows["cup"].buy == Range(8.0, 8.0, 10.0)
    assert all(row.for_work for row in rows.values())


def test_what_expires_before_the_day_is_not_there_then(shop: Shop) -> None:
    """4200 g, of which 3200 g expire on 4 February; till 10 February (76 days) 100 g a week want 1085.7 g."""
    clock = bench()
    lot = received(shop, clock, receipt(amount=5000.0, on="2026-10-03", expires="2027-02-04"))
    shop.append([weighed(clock, lot, 100.0, NOW - week * 7 * DAY_MS) for week in range(8)])
    (row,) = to_buy(look(shop).outlooks, TODAY, "2027-02-10")
    assert row.there == 1000.0
    assert row.buy.likely == pytest.approx(100.0 * 76 / 7 - 1000.0)
    assert not row.for_work


def test_needs_in_milliliters_are_told_in_grams_where_the_density_is_known(shop: Shop) -> None:
    """The class tells 1.05 g/ml for part A of standard casting urethane: 100 ml are 105 g."""
    needs = (need(RESIN, 100.0, NeedGroup.CASTING, NeedUnit.MILLILITER),)
    found = of(look(shop, replace(plan(), needs=needs)), RESIN)
    assert found.unit is NeedUnit.GRAM
    assert found.ahead is not None
    assert found.ahead.likely == pytest.approx(105.0)


def test_a_key_says_what_a_thing_is() -> None:
    assert BASE.key == StuffKey("rubber", "addition-cure-a10-slow-a")
