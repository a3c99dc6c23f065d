"""`moldwright lot`: what it writes down and prints, of a shelf by hand."""

from __future__ import annotations

import csv
import json
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from shelf_plan import plan
from test_stock_story import MAKING, numbered, shop_with_a_mold_and_casts
from typer.testing import CliRunner

from moldwright.desk.main import app
from moldwright.plan.json_text import plan_to_json
from moldwright.records.shop import open_shop


@pytest.fixture
def place(tmp_path: Path) -> str:
    return str(tmp_path / "shop.db")


def told(place: str, *words: str, code: int = 0, typed: str = "") -> str:
    found = CliRunner().invoke(app, ["lot", *words, "--shop", place], input=typed)
    assert found.exit_code == code, found.output
    return found.output


def tree(place: str, *words: str) -> Any:
    return json.loads(told(place, *words, "--json"))


def added(place: str, material: str = "addition-cure-a10-slow-a", amount: str = "1 kg", *more: str) -> str:
    """A new lot's code."""
    return str(tree(place, "add", "--material", material, "--amount", amount, *more)["code"])


def test_a_lot_is_added_used_counted_with_its_pot_and_shown(place: str) -> None:
    """1000 g less 200 g: 800 g; the scale shows 905 g with a pot of 120 g: 785 g, 15 g less than the log said."""
    lot = added(place, "addition-cure-a10-slow-a", "1 kg", "--number", "4711-A", "--stored", "shelf 1")
    assert "800 g of addition-cure silicone" in told(place, "use", lot, "200 g", "--why", "patch test")
    said = told(place, "count", "4711-a", "905 g", "--empty", "120 g")
    assert "785 g on the shelf, 800 g by the log: 15.0 g less" in said
    shown = told(place, "show", lot)
    for words in ("left       785 g", "stands     shelf 1", "used, 200 g: patch test", "counted, 785 g"):
        assert words in shown


def test_what_is_struck_out_stays_readable(place: str) -> None:
    lot = added(place)
    told(place, "use", lot, "300 g")
    entry = tree(place, "show", lot)["log"][-1]
    assert "used, 300 g" in told(place, "strike", entry["code"], "--why", "another pot")
    assert tree(place, "show", lot)["left"] == 1000.0
    shown = told(place, "show", lot)
    assert "struck out: used, 300 g" in shown
    assert "another pot" in shown


def test_more_used_than_there_was_is_told_and_listed(place: str) -> None:
    lot = added(place, "bronze", "100 g")
    assert "the log says 40.0 g more were used" in told(place, "use", lot, "140 g")
    assert "used up" in told(place, "list")


def test_the_list_is_in_the_order_of_use_and_goes_into_a_table(place: str, tmp_path: Path) -> None:
    late = added(place, "bronze", "1 kg", "--expires", "2099-12")
    soon = added(place, "bronze", "1 kg", "--expires", "2098-02", "--stored", "=cold()")
    lots = tree(place, "list", "--material", "bronze")["lots"]
    assert [(lot["code"], lot["expires"], lot["next"]) for lot in lots] == [
        (soon, "2098-02-28", True),
        (late, "2099-12-31", False),
    ]
    told(place, "list", "--csv", str(tmp_path / "shelf.csv"))
    rows = list(csv.DictReader((tmp_path / "shelf.csv").read_text("utf-8").splitlines()))
    assert [(row["code"], row["left"], row["unit"]) for row in rows] == [(soon, "1000.0", "g"), (late, "1000.0", "g")]
    assert rows[0]["stored"] == "'=cold()"


def test_units_of_the_reader(place: str) -> None:
    """1 lb = 453.59237 g."""
    lot = added(place, "bronze", "1 lb")
    assert tree(place, "show", lot)["left"] == pytest.approx(453.59237, abs=1e-4)
    assert "1 lb 0.0 oz" in told(place, "list", "--units", "us")
    assert "454 g" in told(place, "list")


def test_without_options_it_is_asked_and_what_cannot_be_read_is_asked_again(place: str) -> None:
    typed = "\n".join(["bronze", "two", "500 g", "77", "", "", "2099-02-31", "2099-02", "", "shelf 3", ""])
    said = told(place, "add", typed=typed)
    assert "quantity-unclear" in said
    lot = tree(place, "list")["lots"][0]
    assert (lot["left"], lot["number"], lot["expires"], lot["stored"]) == (500.0, "77", "2099-02-28", "shelf 3")


def test_what_is_in_no_list_has_a_name_of_its_own(place: str) -> None:
    assert "unknown-material" in told(place, "add", "--material", "ocher", "--amount", "5 g", code=3)
    told(place, "add", "--material", "ocher", "--name", "red ocher", "--amount", "5 g")
    assert "red ocher" in told(place, "list")
    typed = "\n".join(["umber", "umber from the hills", "20 g", *[""] * 7])
    told(place, "add", typed=typed)
    assert {lot["name"] for lot in tree(place, "list")["lots"]} == {"red ocher", "umber from the hills"}


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("use", "{lot}", "200"), "quantity-unclear"),
        (("use", "{lot}", "200 ml"), "unit-differs"),
        (("use", "{lot}", "0 g"), "amount-out-of-range"),
        (("count", "{lot}", "100 g", "--empty", "200 g"), "pot-heavier"),
        (("count", "{lot}", "100 g", "--at", "yesterday"), "time-unclear"),
        (("open", "{lot}", "--on", "1.2.2026"), "day-unclear"),
        (("show", "FFFF-FFFF"), "not-kept"),
        (("strike", "FFFF-FFFF"), "event-not-kept"),
        (("list", "--units", "stone"), "unknown-choice"),
        (("add", "--material", "bronze"), "amount-missing"),
        (("add", "--material", "silicone a", "--amount", "1 kg"), "several-materials"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(place: str, words: tuple[str, ...], code: str) -> None:
    lot = added(place)
    before = tree(place, "show", lot)
    assert code in told(place, *(word.format(lot=lot) for word in words), code=3)
    assert tree(place, "show", lot) == before


@pytest.mark.parametrize("printed", ["2028-02", "02/2028", "2.2028", "2028-02-29"])
def test_a_month_that_a_pot_is_printed_with_is_meant_to_its_end(place: str, printed: str) -> None:
    """Both ways of printing it are common practice, no source; 2028 is a leap year (ISO 8601's calendar)."""
    told(place, "add", "--material", "bronze", "--amount", "1 kg", "--expires", printed)
    assert [lot["expires"] for lot in tree(place, "list")["lots"]] == ["2028-02-29"]


def test_words_of_several_materials_are_answered_by_their_names(place: str) -> None:
    """Who reads a pot's label writes names, no codes; each that is told is taken."""
    refused = told(place, "add", "--material", "silicone slow", "--amount", "1 kg", code=3)
    flat = " ".join(refused.split())
    assert '"addition-cure silicone, Shore A 10, slow, part A"' in flat
    assert "addition-cure-a10" not in flat
    told(place, "add", "--material", "addition-cure silicone, Shore A 10, slow, part A", "--amount", "1 kg")


def test_the_forecast_and_the_order_of_a_shelf_for_a_plan(place: str, tmp_path: Path) -> None:
    """The plan's four casts want 800 g of resin, 960 g to be sure; 500 g are there: 300 g to buy, 460 g to be sure."""
    (tmp_path / "plan.json").write_text(plan_to_json(plan()), encoding="utf-8")
    added(place, "urethane-standard-a", "500 g")
    lot = added(place, "bronze", "1 kg", "--on", "2026-01-01")
    told(place, "use", lot, "100 g")
    materials = {row["material"]: row for row in tree(place, "forecast", "--for", str(tmp_path))["materials"]}
    assert materials["urethane-standard-a"]["short"] == {"low": 220.0, "likely": 300.0, "high": 460.0}
    assert materials["bronze"]["left"] == 900.0
    assert materials["bronze"]["ahead"] is None
    assert "short    300 g (220–460)" in told(place, "forecast", "--for", str(tmp_path))
    csv_file = tmp_path / "order.csv"
    said = told(place, "order", "--for", str(tmp_path / "plan.json"), "--csv", str(csv_file))
    assert "300 g (220–460)  standard casting urethane, part A" in said
    rows = {row["material"]: row for row in csv.DictReader(csv_file.read_text("utf-8").splitlines())}
    assert (rows["urethane-standard-a"]["buy_likely"], rows["urethane-standard-a"]["buy_surely"]) == ("300.0", "460.0")
    assert "bronze" not in rows
    bought = tree(place, "order", "--for", str(tmp_path))["buy"]
    assert {row["material"] for row in bought} == {*rows}


def test_an_empty_shop_orders_nothing(place: str) -> None:
    assert "Nothing to buy" in told(place, "order", "--until", "2099-01-01")
    assert "Nothing is used" in told(place, "forecast")
    assert "day-unclear" in told(place, "order", "--until", "soon", code=3)


def test_a_recall_tells_what_was_made_and_who_has_it(place: str) -> None:
    with closing(open_shop(place)) as shop:
        _, resin = shop_with_a_mold_and_casts(shop)
        numbered(shop)
    said = told(place, "recall", resin, "supplier's letter")
    for words in (
        "recalled: supplier's letter",
        "180 g as A in skin.cup-1, cast 1 of otter",
        "moisture foam: a spoonful",
        "otter 1: sold, the museum, 2026-08-01",
        "stands in a cup still",
        "lost: it gelled",
    ):
        assert words in said, words
    assert tree(place, "list", "--material", "urethane-standard-a")["lots"][0]["state"] == "recalled"
    assert [piece["number"] for piece in tree(place, "show", resin)["pieces"]] == [1, 2]


def test_the_lots_in_a_piece_and_in_a_mold(place: str) -> None:
    with closing(open_shop(place)) as shop:
        rubber, resin = shop_with_a_mold_and_casts(shop)
        numbered(shop)
    assert [lot["lot"] for lot in tree(place, "in", "otter 1")["lots"]] == [resin]
    assert [lot["lot"] for lot in tree(place, "in", MAKING, "--cast", "0")["lots"]] == [rubber]
    assert "170 g as A in coat-1.cup-1, mold of otter" in told(place, "in", MAKING, "--cast", "0")
    assert "cast-not-known" in told(place, "in", "otter 3", code=3)


def test_papers_are_kept_with_the_lot(place: str, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.txt"
    sheet.write_text("Safety data sheet of the resin\n", encoding="utf-8")
    lot = added(place, "urethane-standard-a", "1 kg", "--data-sheet", str(sheet))
    assert tree(place, "show", lot)["data_sheet"] == sha256(sheet.read_bytes()).hexdigest()
    assert "safety data sheet" in told(place, "show", lot)
    sheet.write_text("Safety data sheet of the resin, second edition\n", encoding="utf-8")
    later = tree(place, "papers", lot, "--data-sheet", str(sheet))
    assert later["data_sheet"] == sha256(sheet.read_bytes()).hexdigest()
    assert "paper-missing" in told(place, "papers", lot, code=3)
    words = ("add", "--material", "bronze", "--amount", "1 kg", "--certificate", str(tmp_path / "none.pdf"))
    assert "file-missing" in told(place, *words, code=3)
