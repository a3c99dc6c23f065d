"""A tablet that goes on offline and sends later: lots, screens and entries are those that the store then tells."""

from __future__ import annotations

import json
from contextlib import closing
from dataclasses import replace
from itertools import count
from pathlib import Path
from typing import Any

from tests.bench_plans import START, bench_plan
from tests.screens import at_when, place_of, settled

from moldwright.log.ids import LotId
from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.log.run_events import Weighed
from moldwright.log.uuid7 import uuid7
from moldwright.plan.json_text import tree_of
from moldwright.plan.needs import NeedUnit
from moldwright.records.clock import BenchClock
from moldwright.records.runs.received import Became, receive
from moldwright.records.runs.sent import Sender
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop, open_shop
from moldwright.records.stock.keep import receive as received
from moldwright.told.bench.told import bench_told
from moldwright.told.bench.view_press import PressShown

SENDER = Sender("tablet 1")
IDS = count(1)


def lot(shop: Shop, clock: BenchClock, kind: str, id_: str, grams: float, number: str) -> LotId:
    stuff = Stuff(kind, id_, f"{kind} {id_}")
    return LotId(
        received(shop, clock, LotReceived(stuff, grams, NeedUnit.GRAM, "2023-11-01", number), "2023-11-14").shelf.lot.id
    )


def entries(press: PressShown, at_ms: int) -> list[dict[str, Any]]:
    made = ({"id": uuid7(at_ms, next(IDS) << 40), "at_ms": at_ms} for _ in press.events)
    return [row | {"kind": each.kind, "body": dict(each.body)} for row, each in zip(made, press.events, strict=True)]


def test_what_was_done_offline_is_what_the_store_then_tells(tmp_path: Path) -> None:
    """The rubber's B comes in two lots: the second is taken once the first is used up; each screen is the store's."""
    clock = BenchClock("desk", "", lambda: START)
    plan = replace(bench_plan(2), needs=())
    with closing(open_shop(str(tmp_path / "shop.db"))) as shop:
        for kind, id_, grams in (("rubber", "A", 5000.0), ("resin", "A", 140.0), ("resin", "B", 5000.0)):
            lot(shop, clock, kind, id_, grams, f"{kind}-{id_}-1")
        short = lot(shop, clock, "resin", "A", 5000.0, "resin-A-2")
        run = start_run(shop, clock, json.dumps(tree_of(plan)), 2).id
        _, first = bench_told(shop, run, START + 1000, presses=300, overs=0)
        now, presses, view, outbox = START + 1000, dict[int, int](), first.view, list[dict[str, Any]]()
        lots = set()
        for number, then in enumerate(first.ahead):
            if view.press != "wait":
                now += 50
                presses[number] = now
                outbox = entries(next(each for each in view.presses if each.main), now)
                done = receive(shop, run, json.dumps(outbox), SENDER, now)
                assert {each.became for each in done.answers} == {Became.KEPT}
                assert all(each.doubts == () for each in done.answers)
                lots |= {e.body.lot for e in done.run.events if isinstance(e.body, Weighed)}
            view = then.view
            if then.not_before is not None:
                now = max(now, at_when(then.not_before.likely, presses))
            there = bench_told(shop, run, now, place_of(view, frozenset()), 0)[1].view
            assert settled(there, presses, now) == settled(view, presses, now), f"after {number}"
        assert short in lots
        assert view.press == "ended"
        again = receive(shop, run, json.dumps(outbox), SENDER, now)
        assert {each.became for each in again.answers} == {Became.KNOWN}
