"""`moldwright edition`: what a maker reads, what a program reads, and what is refused."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from moldwright.desk.main import app


class Told:
    def __init__(self, place: str) -> None:
        self.place = place

    def __call__(self, *words: str, code: int = 0) -> str:
        found = CliRunner().invoke(app, ["edition", *words, "--shop", self.place])
        assert found.exit_code == code, found.output
        return found.output


@pytest.fixture
def told(tmp_path: Path) -> Told:
    edition = Told(str(tmp_path / "shop.db"))
    edition("open", "otter", "--size", "24", "--proofs", "2", "--material", "cold-cast bronze")
    return edition


def test_an_empty_shop_says_what_to_do(tmp_path: Path) -> None:
    assert "edition open" in Told(str(tmp_path / "shop.db"))("list")


def test_numbers_moves_and_the_list(told: Told, tmp_path: Path) -> None:
    assert "otter 1/24: piece" in told("number", "otter")
    assert "otter 7/24: piece" in told("number", "otter", "--number", "7")
    assert "artist's proof 1/2" in told("number", "otter", "--proof")
    assert (
        told("sell", "otter 7", "--to", "=a friend", "--on", "2026-03-31")
        == "otter 7/24: sold, =a friend, 2026-03-31.\n"
    )
    assert "piece-elsewhere" in told("reserve", "otter 7", code=6)
    assert "number-given" in told("number", "otter", "--number", "7", code=6)
    assert "void" in told("void", "otter 1")
    said = told("show", "otter", "--csv", str(tmp_path / "otter.csv"))
    assert "22 of 24 numbers left · 1 of 2 artist's proofs left" in said
    assert "1 in the shop · 1 sold · 1 void" in said
    with (tmp_path / "otter.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert [(row["number"], row["of"], row["state"], row["whom"]) for row in rows][1] == (
        "7",
        "24",
        "sold",
        "'=a friend",
    )
    assert [row["void"] for row in rows] == ["void", "", ""]
    assert "in the shop" in told("strike", "otter 7")
    assert "broken" in told("broken", "otter 7")
    assert "in the shop" in told("back", "otter 7")


def test_the_same_for_programs(told: Told) -> None:
    piece = json.loads(told("number", "otter", "--json"))
    assert (piece["number"], piece["of"], piece["run"]) == (1, 24, None)
    moved = json.loads(told("reserve", piece["code"], "--for", "a friend", "--json"))
    assert (moved["state"], moved["whom"]) == ("reserved", "a friend")
    listed = json.loads(told("list", "--json"))["editions"]
    assert [(each["name"], each["left"], each["proofs_left"]) for each in listed] == [("otter", 23, 2)]
    assert json.loads(told("show", "otter", "--json"))["pieces"] == [moved]
    assert json.loads(told("resize", "otter", "--size", "9", "--why", "enough", "--json"))["left"] == 8
    assert json.loads(told("number", "otter", "--number", "10", "--json", code=3))["error"]["code"] == "number-outside"
    assert json.loads(told("resize", "otter", "--size", "10", "--json", code=6))["error"]["code"] == "edition-grows"


def test_a_run_needs_its_cast_and_a_name_steers_nothing(told: Told) -> None:
    told("number", "otter", "--run", "0C07-398F", code=2)
    assert "not-kept" in told("number", "otter", "--run", "0C07-398F", "--cast", "1", code=3)
    assert "\x1b" not in told("open", "\x1b[31mred", "--size", "3", code=3)
