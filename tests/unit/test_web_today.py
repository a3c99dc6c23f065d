"""Today: what is in hand and what is to be settled; the shop to try the desk in, apart from one's own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from at_desk import app_of, at_desk, settings_in
from fastapi.testclient import TestClient

from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.plan.needs import NeedUnit
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.editions.read import editions
from moldwright.records.pieces.write import take_in
from moldwright.records.stock.keep import receive
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.told import day_of
from moldwright.web.inside import Insides

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
    assert "due 2027-04-30" in page
    assert page.count("stand there still") == 1
    assert "expired on 2026-01-31" in page
    assert "2099" not in page
    assert 'data-trial="begin"' not in page


def test_at_the_first_start_a_shop_to_try_is_offered_and_thrown_away_whole(client: TestClient, tmp_path: Path) -> None:
    assert 'data-trial="begin"' in client.get("/").text
    assert client.post("/api/trial").status_code == 200
    tried = insides(client).trial
    assert tried is not None
    page = client.get("/").text
    assert 'data-trial="end"' in page
    assert "Planning Otter on a stone" in page
    assert [each.name for each in editions(tried.shop)] == ["Otter on a stone"]
    assert len(on_shelf(tried.shop, "2026-11-27")) == 5
    assert page.count("are left") == 2
    take_in(tried.shop, CLOCK, ASKED, {})
    assert "24 casts" in client.get("/").text
    assert client.post("/api/trial/end").status_code == 200
    assert not (tmp_path / "desk" / "trial").exists()
    after = client.get("/").text
    assert "24 casts" not in after
    assert 'data-trial="begin"' in after
    assert not editions(insides(client).own.shop)
    assert not on_shelf(insides(client).own.shop, "2026-11-27")


def test_who_has_not_stepped_into_the_shop_to_try_is_in_one_s_own(client: TestClient) -> None:
    insides(client).begin_trial()
    assert 'data-trial="end"' not in client.get("/").text
    client.cookies.set("trying", "1")
    assert 'data-trial="end"' in client.get("/").text
