"""The shelf at the desk: every act on a lot by hand, what is refused, who may do it; it says what the terminal says."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from lots_by_hand import received
from test_stock_story import numbered, shop_with_a_mold_and_casts
from tests.at_desk import DeskHand, hand_at
from typer.testing import CliRunner

from moldwright.desk.main import app as command_line
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop
from moldwright.web.doors.visitor import Role, Visitor


@pytest.fixture
def hand(shop_at: str, tmp_path: Path) -> Iterator[DeskHand]:
    """On either engine."""
    with hand_at(shop_at, tmp_path) as made:
        yield made


@pytest.fixture
def here(tmp_path: Path) -> Iterator[DeskHand]:
    """On a file."""
    with hand_at(str(tmp_path / "shop.db"), tmp_path) as made:
        yield made


def test_a_lot_comes_in_is_opened_used_counted_and_moved(hand: DeskHand) -> None:
    """1 kg less 200 g is 800 g; a pot of 650 g that weighs 120 g empty holds 530 g: 270 g less than the log said."""
    lot = hand.add(number="4711-A", expires="2099-06", keeps="180 days", stored="shelf 2")
    assert (lot["left"], lot["expires"], lot["state"], lot["number"]) == (1000.0, "2099-06-30", "sealed", "4711-A")
    path = f"/api/lots/{lot['id']}"
    assert hand(f"{path}/open", on="2026-01-01")["lot"]["expires"] == "2026-06-30"
    assert hand(f"{path}/use", amount="200 g", why="patch")["lot"]["left"] == 800.0
    counted = hand(f"{path}/count", amount="650 g", empty="120 g")
    assert counted["lot"]["left"] == 530.0
    assert counted["said"] == "530 g on the shelf, 800 g by the log: 270 g less. It counts from here."
    assert hand(f"{path}/move", stored="cabinet")["lot"]["stored"] == "cabinet"
    assert hand(f"{path}/note", text="lid is cracked")["lot"]["notes"] == ["lid is cracked"]
    page = hand.get(f"/shelf/{lot['code']}")
    for words in ("530 g", "cabinet", "lid is cracked", "used, 200 g: patch"):
        assert words in page, words


def test_put_back_strikes_the_entry_out_and_it_stays_readable(hand: DeskHand) -> None:
    """180 days from the first of January 2026 are the thirtieth of June (31+28+31+30+31+29 = 180)."""
    lot = hand.add(keeps="180 days")
    done = hand(f"/api/lots/{lot['id']}/use", amount="300 g")
    struck = hand(f"/api/lot-entries/{done['event']}/strike")
    assert struck["said"] == "Struck out: used, 300 g. It stays readable and counts in nothing."
    told = hand.client.get(f"/api/lots/{lot['id']}").json()
    assert told["lot"]["left"] == 1000.0
    assert [(entry["kind"], entry["struck"]) for entry in told["log"]][1] == ("lot-used", True)
    assert "used, 300 g" in hand.get(f"/shelf/{lot['id']}")


def test_papers_that_came_later_are_kept_with_it_and_put_back(hand: DeskHand) -> None:
    """The newest sheet holds; a line through its entry, and the one before holds again."""
    files = [hand.client.put("/api/files?name=sheet.txt", content=text).json()["file"] for text in (b"one\n", b"two\n")]
    lot = hand.add(data_sheet=files[0])
    path = f"/api/lots/{lot['id']}"
    later = hand(f"{path}/papers", data_sheet=files[1])
    assert (later["lot"]["data_sheet"], later["lot"]["certificate"]) == (files[1], None)
    assert f"/files/{files[1]}?" in hand.get(f"/shelf/{lot['code']}")
    hand(f"/api/lot-entries/{later['event']}/strike")
    assert hand.client.get(path).json()["lot"]["data_sheet"] == files[0]
    assert hand(f"{path}/papers", 422)["error"]["code"] == "paper-missing"
    assert hand(f"{path}/papers", 404, certificate="0" * 64)["error"]["code"] == "file-missing"


def test_gone_and_recalled(hand: DeskHand) -> None:
    first, second = hand.add(), hand.add()
    assert hand(f"/api/lots/{first['id']}/discard", why="set in the pot")["lot"]["state"] == "discarded"
    assert hand(f"/api/lots/{second['id']}/recall", why="a letter")["lot"]["state"] == "recalled"
    assert [each["id"] for each in hand.client.get("/api/lots").json()["lots"]] == [second["id"]]
    assert len(hand.client.get("/api/lots?gone=true").json()["lots"]) == 2
    assert "Recalled: it is offered for no cup any more" in hand.get(f"/shelf/{second['id']}")


@pytest.mark.parametrize(
    ("act", "body", "code"),
    [
        ("count", {"amount": "lots"}, "quantity-unclear"),
        ("count", {"amount": "5"}, "quantity-unclear"),
        ("count", {"amount": "100 g", "empty": "120 g"}, "pot-heavier"),
        ("count", {"amount": "5 pairs"}, "unit-differs"),
        ("count", {"amount": "500 g", "at": "noon"}, "time-unclear"),
        ("use", {"amount": "0 g"}, "amount-out-of-range"),
        ("move", {"stored": " "}, "text-unusable"),
        ("recall", {}, "text-unusable"),
        ("open", {"on": "yesterday"}, "day-unclear"),
        ("open", {"by": "somebody"}, "request-unclear"),
        ("move", {"stored": "x" * 201}, "request-unclear"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(
    here: DeskHand, act: str, body: dict[str, str], code: str
) -> None:
    lot = here.add()
    assert here(f"/api/lots/{lot['id']}/{act}", 422, **body)["error"]["code"] == code
    told = here.client.get(f"/api/lots/{lot['id']}").json()
    assert (told["lot"], len(told["log"])) == (lot, 1)


@pytest.mark.parametrize(
    ("body", "code"),
    [
        ({"material": "ocher", "amount": "5 g"}, "unknown-material"),
        ({"material": "bronze", "amount": ""}, "amount-missing"),
        ({"material": "bronze", "amount": "1 kg", "expires": "soon"}, "day-unclear"),
        ({"material": "bronze", "amount": "1 kg", "certificate": "0" * 64}, "file-missing"),
        ({"material": "bronze", "amount": "1 kg", "certificate": "../../shop.db"}, "file-missing"),
    ],
)
def test_a_lot_that_cannot_be_is_refused_and_nothing_is_written(
    here: DeskHand, body: dict[str, str], code: str
) -> None:
    assert here("/api/lots", 404 if code == "file-missing" else 422, **body)["error"]["code"] == code
    assert here.client.get("/api/lots?gone=true").json()["lots"] == []


def test_a_material_of_the_shop_s_own_has_a_name(here: DeskHand) -> None:
    lot = here("/api/lots", name="red ocher", amount="5 g")["lot"]
    assert (lot["name"], lot["material"], lot["kind"]) == ("red ocher", "red-ocher", "")


def test_it_is_looked_through(here: DeskHand) -> None:
    """By words in any order; by state; what expires first, first."""
    late = here.add(number="A 1", expires="2099-01-01", stored="cabinet")
    soon = here.add(number="A 2", expires="2098-01-01", supplier="Harbor Supply")
    wax = here("/api/lots", material="", name="felt discs", amount="12 pieces", stored="drawer")["lot"]

    def found(query: str) -> list[str]:
        return [each["id"] for each in here.client.get(f"/api/lots?{query}").json()["lots"]]

    assert found("q=harbor silicone") == [soon["id"]]
    assert found("q=CABINET") == [late["id"]]
    assert found(f"q={wax['code']}") == [wax["id"]]
    assert found("kind=rubber&order=expiry") == [soon["id"], late["id"]]
    assert found("state=expired") == []
    assert found("order=newest")[0] == wax["id"]
    assert here.client.get("/api/lots").json()["next"] == [soon["id"]]
    page = here.get("/shelf?q=felt")
    assert "felt discs" in page
    assert "Harbor Supply" not in page
    assert "No lot is like that" in here.get("/shelf?q=nothing like it")


def test_a_table_has_what_is_shown_and_no_cell_is_a_formula(here: DeskHand) -> None:
    """RFC 4180; a cell that begins with = + - @ gets an apostrophe (common practice, no source)."""
    here.add()
    for name in ("=1+1", "+1", "-1", "@SUM"):
        here("/api/lots", name=f"{name} wax", amount="3 pieces", number=name, stored=name)
    answer = here.client.get("/api/lots.csv?q=wax")
    assert answer.headers["content-type"] == "text/csv; charset=utf-8"
    assert answer.headers["content-disposition"] == 'attachment; filename="lots.csv"'
    rows = list(csv.DictReader(io.StringIO(answer.text)))
    assert len(rows) == 4
    for row in rows:
        assert row["name"][:2] in ("'=", "'+", "'-", "'@")
        assert row["number"][0] == row["stored"][0] == "'"


def test_it_says_what_the_terminal_says(here: DeskHand) -> None:
    """The same object as `moldwright lot list --json` and `lot show --json`."""
    lot = here.add(number="7")
    here(f"/api/lots/{lot['id']}/use", amount="100 g")

    def told(*words: str) -> Any:
        found = CliRunner().invoke(command_line, ["lot", *words, "--json", "--shop", here.place])
        assert found.exit_code == 0, found.output
        return json.loads(found.output)

    (listed,) = told("list")["lots"]
    assert {**listed} == {**here.client.get("/api/lots").json()["lots"][0], "next": False}
    shown = told("show", lot["code"])
    mine = here.client.get(f"/api/lots/{lot['id']}").json()
    assert {**mine["lot"], "log": mine["log"]}.items() <= shown.items()


def test_who_may_do_what(here: DeskHand, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever looks reads; the bench opens, counts, uses, moves; the owner adds, discards, recalls."""
    lot = here.add()
    gone = here(f"/api/lots/{lot['id']}/discard", why="x")["event"]
    acts: dict[str, dict[str, str]] = {
        "open": {}, "count": {"amount": "900 g"}, "use": {"amount": "1 g"}, "move": {"stored": "here"},
        "note": {"text": "x"}, "discard": {}, "recall": {"why": "x"},
    }  # fmt: skip
    for role, may in (
        (Role.VIEW, ()),
        (Role.BENCH, ("open", "count", "use", "move", "note")),
        (Role.OWNER, tuple(acts)),
    ):
        seen = Visitor(role, "tablet", token=here.client.headers["x-token"], here=True)
        monkeypatch.setattr("moldwright.web.doors.guard.Visitor", lambda *_, _seen=seen, **__: _seen)
        for act, body in acts.items():
            answer = here.client.post(f"/api/lots/{lot['id']}/{act}", json=body)
            assert answer.status_code == (200 if act in may else 403), (role, act, answer.text)
        added = here.client.post("/api/lots", json={"name": "wedges of ours", "amount": "1 piece"}).status_code
        assert added == (200 if role is Role.OWNER else 403)
        assert here.client.get("/shelf").status_code == 200
        if role is Role.BENCH:
            assert here(f"/api/lot-entries/{gone}/strike", 403)["error"]["code"] == "role-too-small"


def test_the_story_and_who_has_the_pieces(here: DeskHand, tmp_path: Path) -> None:
    shop: Shop = here.client.app.state.shop  # type: ignore[attr-defined]
    rubber, _ = shop_with_a_mold_and_casts(shop)
    numbered(shop)
    page = here.get(f"/shelf/{rubber}")
    assert "170 g as A in coat-1.cup-1, mold of otter" in page
    assert "otter 1: sold, the museum, 2026-08-01" in page
    rows = list(csv.DictReader(io.StringIO(here.get(f"/api/lots/{rubber}/pieces.csv"))))
    assert [(row["number"], row["state"], row["whom"]) for row in rows] == [
        ("1", "sold", "the museum"),
        ("2", "in the shop", ""),
    ]


def test_how_long_it_lasts_and_what_to_buy(here: DeskHand) -> None:
    """Nothing used, nothing to buy; of what is there a page and a table tell."""
    shop: Shop = here.client.app.state.shop  # type: ignore[attr-defined]
    received(shop, BenchClock("bench"))
    page = here.get("/shelf/ahead?until=2099-01-01")
    assert "Nothing to buy: what is there suffices." in page
    assert "addition-cure silicone, part A" in page
    assert here.client.get("/api/lots/forecast").json()["materials"][0]["left"] == 1000.0
    assert here.client.get("/api/lots/order?until=2099-01-01").json() == {"until": "2099-01-01", "buy": []}
    assert here.client.get("/api/lots/order?until=soon").json()["error"]["code"] == "day-unclear"
    assert here.get("/api/lots/order.csv").startswith("kind,material,name,buy_likely,buy_surely,unit")


def test_in_us_units(here: DeskHand) -> None:
    """1 lb is 453.59237 g (NIST SP 811)."""
    lot = here.add("1 lb")
    assert lot["left"] == pytest.approx(453.59237)
    here.client.cookies.set("units", "us")
    assert "1 lb 0.0 oz" in here.get("/shelf")
    assert "1 lb 0.0 oz" in here.get(f"/shelf/{lot['id']}")


def test_an_empty_shelf_says_one_sentence_and_offers_one_act(here: DeskHand) -> None:
    page = here.get("/shelf")
    assert "Nothing stands on the shelf" in page
    assert page.count('href="/shelf/add"') == 1


def test_the_calls_are_described(here: DeskHand) -> None:
    told = here.client.get("/api/openapi.json").json()
    answer = told["paths"]["/api/lots/{lot}/count"]["post"]["responses"]["200"]["content"]["application/json"]["schema"]
    assert answer == {"$ref": "#/components/schemas/LotDone"}
    assert told["components"]["schemas"]["LotTold"]["properties"]["left"]["type"] == "number"
