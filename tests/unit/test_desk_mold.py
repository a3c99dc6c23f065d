"""`moldwright mold`: what a maker reads and a program reads."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from moldwright.desk.main import app
from moldwright.ranges import Range
from moldwright.told.mold_words import spread


class Said:
    def __init__(self, place: str) -> None:
        self.place = place

    def __call__(self, *words: str, code: int = 0) -> str:
        found = CliRunner().invoke(app, ["mold", *words, "--shop", self.place])
        assert found.exit_code == code, found.output
        return found.output


@pytest.fixture
def said(tmp_path: Path) -> Said:
    return Said(str(tmp_path / "shop.db"))


def test_an_empty_register_says_what_to_do(said: Said) -> None:
    assert "moldwright mold add --run RUN" in said("list")


def test_an_older_mold_from_shelf_to_retired(said: Said, tmp_path: Path) -> None:
    """Latex with gypsum gives 30 to 200: of 22 drawn 8 to 178 are left; nothing was cast of late."""
    words = said("add", "old owl", "--rubber", "latex", "--cast", "gypsum", "--drawn", "22", "--stored", "attic")
    assert words.startswith("Registered: old owl (")
    assert "22 drawn, 58 (8–178) left · attic" in said("list")
    assert "No day can be told: nothing was cast of it lately." in said("show", "old owl")
    said("move", "old owl", "shelf 3")
    said("measure", "old owl", "0.4 %")
    said("note", "old owl", "talc it")
    said("look", "old owl", "torn", "--text", "at the beak")
    shown = said("show", "OLD OWL")
    assert "Begin the next glove now: it is torn." in shown
    assert "0.40 % smaller than the original, 1 measured" in shown
    assert [line for line in shown.splitlines() if "talc it" in line]
    entry = next(
        each for each in json.loads(said("show", "old owl", "--json"))["log"] if each["kind"] == "mold-inspected"
    )
    assert "looked over: torn, at the beak" in said("strike", entry["code"], "--why", "the other one")
    assert "struck out: looked over: torn" in said("show", "old owl")
    said("retire", "old owl", "--why", "gone")
    assert "old owl" not in said("list")
    table = tmp_path / "molds.csv"
    assert "retired" in said("list", "--all", "--csv", str(table))
    with table.open(newline="", encoding="utf-8") as file:
        row = next(csv.DictReader(file))
    assert (row["name"], row["drawn"], row["stored"], row["retired"]) == ("old owl", "22", "shelf 3", "gone")


def test_the_same_for_programs(said: Said) -> None:
    made = json.loads(said("add", "hare", "--rubber", "pink stuff", "--lasts", "40", "--drawn", "5", "--json"))
    assert (made["rubber"], made["lasts"], made["left"]) == (
        "pink stuff",
        {"low": 40.0, "likely": 40.0, "high": 40.0},
        {"low": 35.0, "likely": 35.0, "high": 35.0},
    )
    assert made["next_glove"]["call"] == "no_pace"
    assert [each["id"] for each in json.loads(said("list", "--json"))["molds"]] == [made["id"]]
    assert json.loads(said("look", made["code"], "worn", "--json"))["state"] == "worn"


def test_what_is_refused(said: Said) -> None:
    assert "text-unusable" in said("add", code=3)
    assert "not-kept" in said("show", "owl", code=3)
    assert "not-kept" in said("add", "--run", "0C07-398F", code=3)
    said("add", "--run", "0C07-398F", "--drawn", "3", code=2)
    said("look", "owl", "tired", code=2)
    assert "\x1b" not in said("add", "\x1b[31m", code=3)
    said("add", "owl")
    assert "shrink-impossible" in said("measure", "owl", "90 %", code=3)
    assert "tell of what it is" in said("show", "owl")


def test_a_range_of_one_value_is_one_value() -> None:
    assert spread(Range(1.2, 3.4, 5.6), 1) == "3.4 (1.2–5.6)"
    assert spread(Range.exactly(35.0)) == "35"
