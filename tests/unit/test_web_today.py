"""Today: what is in hand and what is to be settled; the shop to try the desk in, apart from one's own.

Source: days in words as the CLDR of Unicode has them, in English ("April 30, 2027") and in German ("30. April 2027").
The plan of `bench_plans` is reckoned in the head: a coat's cup is to be on the work within 30 min.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from at_desk import app_of, at_desk, settings_in
from bench_plans import COAT_CUP, A, B, bench_plan
from fastapi.testclient import TestClient

from moldwright.errors import RecordConflict
from moldwright.log.event import About
from moldwright.log.ids import LotId, RunId
from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.log.run_events import CupRef, Weighed
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.needs import NeedUnit
from moldwright.ranges import Range
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.editions.read import editions
from moldwright.records.pieces.write import take_in
from moldwright.records.runs.opened import opened_with_fold
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop
from moldwright.records.stock.forecast import Outlook
from moldwright.records.stock.keep import receive
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.told import day_of
from moldwright.web.inside import Insides

MINUTE_MS = 60_000
CLOCK = BenchClock("test")
ASKED = '[original]\ndisplaced = "1.90 l"\nname = "Otter"\n[edition]\ncount = 24\n'


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    with at_desk(settings_in(tmp_path)) as found:
        yield found


def insides(client: TestClient) -> Insides:
    found: Insides = app_of(client).state.insides
    return found


def test_pieces_and_what_is_to_be_settled_are_told(client: TestClient) -> None:
    shop, today = insides(client).own.shop, day_of(now_ms())
    take_in(shop, CLOCK, ASKED, {}, whom="A chapel", due="2027-04-30")
    stuff = Stuff("resin", "urethane-standard", "standard casting urethane, B")
    for number, expires in (("old", "2026-01-31"), ("far", "2099-01-31")):
        receipt = LotReceived(stuff, 2500.0, NeedUnit.GRAM, "2025-12-01", number, expires=expires)
        receive(shop, CLOCK, receipt, today.isoformat())
    page = client.get("/").text
    assert "24 casts" in page
    assert "due April 30, 2027" in page
    assert page.count("stand there still") == 1
    assert "expired on January 31, 2026" in page
    assert "2099" not in page
    assert 'data-trial="/api/trial"' not in page


def test_days_are_told_in_the_reader_s_language(client: TestClient) -> None:
    take_in(insides(client).own.shop, CLOCK, ASKED, {}, due="2027-04-30")
    assert "30. April 2027" in client.get("/", headers={"accept-language": "de"}).text


def test_what_is_to_be_settled_leads_to_where_that_is_done(client: TestClient) -> None:
    shop = insides(client).own.shop
    take_in(shop, CLOCK, ASKED, {})
    stuff = Stuff("resin", "urethane-standard", "standard casting urethane, B")
    receive(shop, CLOCK, LotReceived(stuff, 2500.0, NeedUnit.GRAM, "2025-12-01", expires="2026-01-31"), "2026-11-27")
    run_of_cup(shop, 10)
    found = re.findall(r'class="doubt">.*?href="([^"]+)"', client.get("/").text, re.S)
    assert {path.split("/")[1] for path in found} >= {"pieces", "shelf"}
    assert all(client.get(path).status_code == 200 for path in found)


def test_what_no_lot_stands_there_for_is_one_doubt_however_much_it_is(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A shop that keeps no clamps and scissors by lots: what truly is to be settled does not drown in them."""
    needed = Range(1.0, 2.0, 3.0)

    def outlook(name: str, lots: tuple[LotId, ...] = ()) -> Outlook:
        return Outlook(Stuff("supply", name, name), NeedUnit.EACH, 0.0, 0.0, lots, None, None, needed, ())

    never = [outlook(f"tool {at}") for at in range(40)]
    short = (outlook("the urethane", (LotId("a lot"),)), *never)
    monkeypatch.setattr("moldwright.web.pages.today.settle._short", lambda shop, today: short)
    told = html.unescape(client.get("/").text)
    assert told.count('class="doubt"') == 2
    assert "<strong>the urethane</strong>" in told
    assert "<strong>40 materials</strong>" in told
    monkeypatch.setattr("moldwright.web.pages.today.settle._short", lambda shop, today: never[:3])
    assert client.get("/").text.count('class="doubt"') == 3


def test_runs_under_way_are_told_with_their_clocks_what_presses_most_first(client: TestClient) -> None:
    shop = insides(client).own.shop
    late, early = run_of_cup(shop, 26), run_of_cup(shop, 10)
    for path in ("/", "/wall", "/api/under-way", "/api/under-way?wall=true"):
        page = client.get(path).text
        assert page.index(f'href="/bench/{late}"') < page.index(f'href="/bench/{early}"')
        told = [json.loads(html.unescape(each)) for each in re.findall(r'data-runs="([^"]*)"', page)]
        clocks = [each["clocks"][0] for each in told]
        assert [round(each["out_by"]["ms"] - each["start"]["ms"]) for each in clocks] == [30 * MINUTE_MS] * 2


def test_a_run_that_cannot_be_opened_hides_no_other(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    shop = insides(client).own.shop
    broken, whole = run_of_cup(shop, 10), run_of_cup(shop, 10)

    def opened(shop: Shop, run: RunId, *rest: Any) -> Any:
        if run == broken:
            raise RecordConflict("plan-not-kept", "a plan", "a plan that is kept", "", "Plan it anew.")
        return opened_with_fold(shop, run, *rest)

    monkeypatch.setattr("moldwright.told.bench.under_way.opened_with_fold", opened)
    page = client.get("/wall").text
    assert "a plan that is kept" in page
    assert f'href="/bench/{whole}"' in page
    assert f'href="/bench/{broken}"' not in page


def run_of_cup(shop: Shop, ago_min: int) -> RunId:
    """A run whose coat's parts met so long ago."""
    past = [now_ms() - 48 * 60 * MINUTE_MS]
    clock = BenchClock("test", now=lambda: past[0])
    run = start_run(shop, clock, plan_to_json(bench_plan(1)), 1).id
    past[0] = now_ms() - ago_min * MINUTE_MS
    bodies = [Weighed(CupRef(COAT_CUP), kind, 100.0, 100.0) for kind in (B, A)]
    shop.append([clock.event(About.RUN, run, body) for body in bodies])
    return run


def test_at_the_first_start_a_shop_to_try_is_offered_and_thrown_away_whole(client: TestClient, tmp_path: Path) -> None:
    assert 'data-trial="/api/trial"' in client.get("/").text
    assert client.post("/api/trial").status_code == 200
    tried = insides(client).trial
    assert tried is not None
    page = client.get("/").text
    assert 'data-trial="/api/trial/end"' in page
    assert "Planning Otter on a stone" in page
    assert "No piece yet" not in page
    assert [each.name for each in editions(tried.shop)] == ["Otter on a stone"]
    assert len(on_shelf(tried.shop, "2026-11-27")) == 5
    assert page.count("are left") == 2
    take_in(tried.shop, CLOCK, ASKED, {})
    assert "24 casts" in client.get("/").text
    assert client.post("/api/trial/end").status_code == 200
    assert not (tmp_path / "desk" / "trial").exists()
    after = client.get("/").text
    assert "24 casts" not in after
    assert "No piece yet" in after
    assert 'data-trial="/api/trial"' in after
    assert not editions(insides(client).own.shop)
    assert not on_shelf(insides(client).own.shop, "2026-11-27")


def test_who_has_not_stepped_into_the_shop_to_try_is_in_one_s_own(client: TestClient) -> None:
    trial = insides(client).begin_trial()
    assert 'data-trial="/api/trial/end"' not in client.get("/").text
    client.cookies.set("trying", trial.id)
    assert 'data-trial="/api/trial/end"' in client.get("/").text


def test_a_device_of_a_trial_that_is_thrown_away_is_not_in_the_next_one(client: TestClient) -> None:
    first = insides(client).begin_trial()
    insides(client).end_trial()
    insides(client).begin_trial()
    client.cookies.set("trying", first.id)
    assert 'data-trial="/api/trial/end"' not in client.get("/").text


def test_a_shop_to_try_that_cannot_be_opened_keeps_no_desk_from_opening(tmp_path: Path) -> None:
    folder = tmp_path / "desk" / "trial"
    folder.mkdir(parents=True)
    (folder / "shop.db").write_bytes(b"no database" * 1000)
    with at_desk(settings_in(tmp_path)) as client:
        assert insides(client).trial is None
        assert client.post("/api/trial").status_code == 200
        assert [each.name for each in editions(insides(client).begin_trial().shop)] == ["Otter on a stone"]
    assert [each.name for each in (tmp_path / "desk").iterdir() if each.name.endswith(".gone")] == []
