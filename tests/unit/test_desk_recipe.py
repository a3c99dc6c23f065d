"""`moldwright recipe`: what it keeps and prints."""

from __future__ import annotations

import json
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from test_stock_story import MAKING, shop_with_a_mold_and_casts
from typer.testing import CliRunner

from moldwright.desk.main import app
from moldwright.records.shop import open_shop

PARTS = ("--part", "urethane-standard-a=100 g", "--part", "bronze=150 g", "--part", "urethane-standard-b=104.8 g")


@pytest.fixture
def place(tmp_path: Path) -> str:
    return str(tmp_path / "shop.db")


def told(place: str, *words: str, code: int = 0) -> str:
    found = CliRunner().invoke(app, ["recipe", *words, "--shop", place])
    assert found.exit_code == code, found.output
    return found.output


def tree(place: str, *words: str) -> Any:
    return json.loads(told(place, *words, "--json"))


def test_a_recipe_is_typed_in_and_scaled_with_its_cautions(place: str) -> None:
    """354.8 g as mixed; twice of it reads 200, 500 and 709.6 g on the scale."""
    told(place, "keep", "museum bronze", "--kind", "metal", *PARTS)
    said = told(place, "scale", "museum bronze", "709.6 g")
    for words in ("scale reads      200.0 g", "scale reads      500.0 g", "scale reads      709.6 g", "! "):
        assert words in said, words
    assert "isocyanate" in said.casefold()
    assert "safety data sheet" in said.casefold()
    made = tree(place, "scale", "museum bronze", "709.6 g")
    assert [part["reads_g"] for part in made["parts"]] == [200.0, 500.0, 709.6]
    assert made["cautions"]


def test_ounces(place: str) -> None:
    """8 oz are 226.8 g, on a scale of 0.1 oz."""
    told(place, "keep", "b", "--kind", "metal", *PARTS)
    said = told(place, "scale", "b", "8 oz", "--scale", "0.1 oz", "--units", "us")
    assert " oz in all" in said
    assert " g " not in said[said.index(" oz in all") :]


def test_a_recipe_of_a_cup_and_its_states(place: str) -> None:
    with closing(open_shop(place)) as shop:
        shop_with_a_mold_and_casts(shop)
    told(place, "keep", "otter skin", "--kind", "color", "--run", MAKING, "--cup", "skin.cup-1", "--cast", "1")
    told(place, "keep", "otter skin", "--kind", "color", "--run", MAKING, "--cup", "skin.cup-1", "--cast", "2")
    states = tree(place, "show", "otter skin")["states"]
    assert [state["mass_g"] for state in states] == [180.0, 181.0]
    shown = told(place, "show", "otter skin")
    assert "before" in shown
    assert "180 g" in shown
    told(place, "strike", states[1]["code"])
    assert [state["mass_g"] for state in tree(place, "show", "otter skin")["states"]] == [180.0]


def test_dropped_and_listed(place: str, tmp_path: Path) -> None:
    told(place, "keep", "a", "--kind", "color", "--own", "umber of ours=3 g")
    told(place, "drop", "a", "--why", "too dark")
    assert tree(place, "list")["recipes"] == []
    assert "dropped: too dark" in told(place, "list", "--all", "--csv", str(tmp_path / "r.csv"))
    assert "umber of ours" in (tmp_path / "r.csv").read_text("utf-8")


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("keep", "x", "--kind", "metal"), "recipe-unclear"),
        (("keep", "x", "--kind", "metal", "--run", "FFFF-FFFF"), "recipe-unclear"),
        (("keep", "x", "--kind", "metal", "--run", "FFFF-FFFF", "--cup", "skin.cup-1"), "not-kept"),
        (("keep", "x", "--kind", "metal", "--part", "bronze"), "part-unclear"),
        (("keep", "x", "--kind", "metal", "--part", "bog=3 g"), "unknown-material"),
        (("keep", "x", "--kind", "metal", "--part", "bronze=3"), "quantity-unclear"),
        (("scale", "museum bronze", "0 g"), "amount-out-of-range"),
        (("scale", "museum bronze", "1 kg", "--scale", "0 g"), "scale-step"),
        (("show", "nothing"), "not-kept"),
    ],
)
def test_what_cannot_be_is_refused(place: str, words: tuple[str, ...], code: str) -> None:
    told(place, "keep", "museum bronze", "--kind", "metal", *PARTS)
    assert code in told(place, *words, code=3)
    assert len(tree(place, "list")["recipes"]) == 1
