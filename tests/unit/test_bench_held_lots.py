"""Where the shop has a material only in lots that may not be used, the bench says so before any is poured."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from conftest import Job

from moldwright.bench.acts import Act
from moldwright.desk.bench_session import BenchSession
from moldwright.log.lot_events import LotRecalled, LotReceived, Stuff
from moldwright.plan.needs import NeedUnit
from moldwright.records.clock import BenchClock
from moldwright.records.runs.next_act import Press
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop
from moldwright.records.stock.keep import receive, write
from moldwright.sheets.plan_text import plan_text

NINE = int(datetime(2026, 11, 2, 9, 0).timestamp() * 1000)
TODAY = "2026-11-02"


def test_lots_that_may_not_be_used_are_named_where_no_other_is_there(shop: Shop, small_job: Job) -> None:
    plan, clock = small_job.planned.plan, BenchClock("tablet 1", "", lambda: NINE)
    session = BenchSession(shop, clock, start_run(shop, clock, plan_text(plan), 1).id)
    step = next(step for step in plan.steps if step.mixes)
    part = plan.mix(step.mixes[0]).parts[0]
    receipt = LotReceived(Stuff(part.stuff.kind, part.stuff.id), 5000.0, NeedUnit.GRAM, "2026-01-01")
    receive(shop, clock, replace(receipt, number="old", expires="2026-11-01"), TODAY)
    bad = receive(shop, clock, replace(receipt, number="bad"), TODAY).shelf.lot.id
    write(shop, clock, bad, LotRecalled("it stayed soft"), TODAY)
    session.turn_to(Act(step.id))
    assert session.next.press is Press.WEIGH
    assert session.lot_for(session.next) is None
    told = "\n".join(session.asking())
    assert "!! Lot old: it has expired." in told
    assert "!! Lot bad: it is RECALLED: do not use it (it stayed soft)." in told
    receive(shop, clock, replace(receipt, number="good"), TODAY)
    fresh = BenchSession(shop, clock, session.run.id)
    fresh.turn_to(Act(step.id))
    again = "\n".join(fresh.asking())
    assert "Lot of" in again
    assert "!! Lot" not in again
