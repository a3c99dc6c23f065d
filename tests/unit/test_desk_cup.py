"""`moldwright cup`: what it prints of a cup that did not come out as planned; masses by arithmetic."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from job_plan_sample import sample_plan
from typer.testing import CliRunner

from moldwright.desk.main import app
from moldwright.mixing.cup import CupClock, CupLimit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.recipe import Ingredient, Recipe, liquid
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.mixes import SKIN, PartKind, TaskKind
from moldwright.units.system import UnitSystem

RECIPE = Recipe(
    (
        liquid(PartKind.A, 1.0, 1.05),
        liquid(PartKind.TINT, 0.002, 1.0, "umber"),
        Ingredient(PartKind.POWDER, 2.0, 4.0, 8.5, "metal"),
        liquid(PartKind.B, 1.0, 1.1),
    ),
    0.02,
)
LIMIT = CupLimit(600.0, 600.0, CupClock(900.0, 60.0, TaskKind.POUR, 0.1))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A plan whose one cup has 100 g of A, 200 g of metal, 100 g of B."""
    mixes = cups_of(SKIN, 400.2, RECIPE, LIMIT, 0.1)
    plan = replace(sample_plan(), mixes=mixes, scale_g=0.1, units=UnitSystem.METRIC)
    (tmp_path / "plan.json").write_text(plan_to_json(plan), encoding="utf-8")
    return tmp_path


def told(folder: Path, *options: str, code: int = 0) -> str:
    found = CliRunner().invoke(app, ["cup", str(folder), "skin.cup-1", *options])
    assert found.exit_code == code, found.output
    return found.output


def test_an_over_pour_raises_all_that_is_to_come(folder: Path) -> None:
    said = told(folder, "--in", "A=112 g")
    assert "112.0 g is in, add nothing" in said
    assert "add 224.0 g: scale reads 336.2 g" in said
    assert "add 112.0 g: scale reads 448.2 g" in said
    assert "gels sooner" in said
    assert "safety data sheets" in said


def test_a_part_by_the_name_on_its_pot_and_in_ounces(folder: Path) -> None:
    """8 oz = 226.8 g of metal is past 105 % of 200 g: A and B become 8 % more each."""
    said = told(folder, "--in", "A=100 g", "--in", "Metal=8 oz")
    assert "100.0 g is in, add 8.0 g more" in said


def test_too_much_before_it_reacts_goes_into_two_cups(folder: Path) -> None:
    said = told(folder, "--in", "A=200 g")
    assert "pour 100.0 g of it into a clean cup" in said
    assert "one after the other" in said


def test_json_has_every_target(folder: Path) -> None:
    tree = json.loads(told(folder, "--in", "A=112 g", "--json"))
    assert tree["mix"] == "skin.cup-1"
    assert [part["add_g"] for part in tree["correction"]["cups"][0]["parts"]] == [0.0, 0.224, 224.0, 112.0]


@pytest.mark.parametrize(
    ("options", "code"),
    [
        (["--in", "A=112"], "unit"),
        (["--in", "sand=3 g"], "part-not-in-cup"),
        (["--in", "A"], "part-not-in-cup"),
        (["--in", "A=-3 g"], "mass-out-of-range"),
        (["--in", "A=60 g", "--in", "A=40 g"], "part-told-twice"),
    ],
)
def test_what_cannot_be_read_is_refused(folder: Path, options: list[str], code: str) -> None:
    assert code in told(folder, *options, code=3)


def test_a_cup_that_gels_too_large_and_a_part_that_runs_out_are_refused(folder: Path) -> None:
    said = " ".join(told(folder, "--in", "A=100 g", "--in", "B=180 g", code=4).split())
    assert "cup-overfull" in said
    assert "do not touch it bare" in said
    assert "Take 20 g of A out" in told(folder, "--in", "A=100 g", "--left", "B=80 g", code=4)


def test_an_unknown_cup_tells_those_there_are(folder: Path) -> None:
    found = CliRunner().invoke(app, ["cup", str(folder), "skin.cup-9"])
    assert found.exit_code == 3
    assert "skin.cup-1" in found.output
