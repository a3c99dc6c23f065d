"""What stands on a mix card: syringes in milliliters whatever the units, one part has nothing to put right."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from sheets_fixture import plan

from moldwright.cast.resin_recipe import resin_mix
from moldwright.materials import library
from moldwright.materials.library import check_sheet
from moldwright.mixing.rubber import rubber_recipe
from moldwright.plan.mixes import MeasuredBy, MixFor, MixKind, MixPart, PartKind
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.sheets.marked_cup import marked_rows
from moldwright.sheets.mix_cards import mix_card
from moldwright.sheets.rubber_words import to_mix
from moldwright.units.system import UnitSystem

PLAN = plan()
CUP = PLAN.mixes[0]
LIBRARY = library()
SILICA = LIBRARY.thixotrope("silicone-thixotrope")
LIFE_S = Range(600.0, 900.0, 1500.0)


def part(by: MeasuredBy, syringe_ml: float | None = None) -> MixPart:
    return MixPart(PartKind.B, "B", 6.6, 6.2, 100.0, by, 144.0, syringe_ml)


@pytest.mark.parametrize("units", UnitSystem)
def test_a_syringe_is_read_in_milliliters(units: UnitSystem) -> None:
    marked = replace(CUP, parts=(part(MeasuredBy.MARKS), part(MeasuredBy.SYRINGE, 10.0)))
    poured, drawn = marked_rows(marked, units)
    assert (drawn["add"], drawn["also_add"], drawn["reads"]) == ("6.2 ml", "syringe of 10 ml", "")
    assert poured["unit"] == ("fl oz" if units is UnitSystem.US else "ml")
    assert poured["also"] == ("144 ml" if units is UnitSystem.US else "")


def card(mold: Plan, **changes: object) -> dict[str, object]:
    cup = replace(CUP, **changes)  # type: ignore[arg-type]
    return mix_card(replace(mold, mixes=(cup, *mold.mixes[1:])), cup.for_, [8])


def test_no_ratio_is_told_to_hold_without_an_error() -> None:
    assert str(card(PLAN, tolerance_pct=0.004)["sub"]).endswith("true to 0.1 %.")
    assert str(card(PLAN, tolerance_pct=2.44)["sub"]).endswith("true to 2.4 %.")


def test_too_much_of_a_part_is_put_right_by_the_ratio() -> None:
    """Of 100 to 1.5: 1 g of A asks for 0.015 g of B, 1 g of B for 66.7 g of A (arithmetic)."""
    said = str(card(PLAN, ratio=0.015)["remedy"])
    assert "1 g A: 0.015 g more B; 1 g B: 66.7 g more A" in said
    assert str(card(replace(PLAN, units=UnitSystem.US), ratio=0.015)["remedy"]).startswith("1 oz A: 0.015 oz more B")
    assert str(card(PLAN, ratio=1.0)["remedy"]).startswith("As much more of the other")
    assert card(PLAN, ratio=None)["remedy"] == ""


def test_what_is_mixed_is_told_as_the_shop_measures() -> None:
    weighed = Range.exactly(100.0)
    assert to_mix(weighed, PLAN) == "100 g"
    cups = [mix for mix in PLAN.mixes if mix.for_.coat is not None]
    density = sum(mix.mass_g for mix in cups) / sum(mix.volume_ml for mix in cups)
    assert to_mix(Range.exactly(100.0 * density), replace(PLAN, marks_ml=10.0)) == "100 ml"


RUBBER_PARTS = {"condensation-cure-a25": ["A base", "B catalyst"], "addition-cure-a10-slow": ["B", "A"]}
RESIN_PARTS = {
    "epoxy-slow": ["A resin", "B hardener"],
    "polyester": ["A resin", "B catalyst"],
    "modified-gypsum": ["B water", "A gypsum"],
    "urethane-standard": ["A", "B"],
}


def test_a_part_is_called_as_the_trade_calls_it() -> None:
    """Beside its letter, in the order of the cup: words of the trade, common practice, no source."""
    rubbers = {id_: rubber_recipe(LIBRARY.rubber(id_), None, 0.0, SILICA) for id_ in RUBBER_PARTS}
    resins = {id_: resin_mix(LIBRARY.resin(id_), None, "", 0.0, LIFE_S).recipe for id_ in RESIN_PARTS}
    for id_, told in (RUBBER_PARTS | RESIN_PARTS).items():
        pair = (rubbers | resins)[id_].pair
        parts = tuple(replace(part(MeasuredBy.SCALE), kind=each.kind, name=each.name) for each in pair)
        shown: Any = card(PLAN, parts=parts, ratio=0.5)
        assert [row["name"] for row in shown["cups"][0]["rows"]] == told
        assert f"1 g {told[0][0]}: 0.5 g more {told[1][0]}" in shown["remedy"]


def test_a_shop_calls_the_parts_as_on_its_pots() -> None:
    own = library({"own.toml": '[resin.epoxy-slow]\npart_b = "hardener 2"'})
    assert resin_mix(own.resin("epoxy-slow"), None, "", 0.0, LIFE_S).recipe.pair[1].name == "hardener 2"
    [long] = check_sheet(f'[resin.epoxy-slow]\npart_b = "{"x" * 17}"')
    assert (long.severity, long.code) == ("stop", "value-unclear")


def test_gypsum_is_mixed_in_buckets_and_all_else_in_cups() -> None:
    """A shop mixes a shell's gypsum in buckets, as its steps say: common practice, no source."""
    shell = MixFor(MixKind.SHELL, piece=2)
    buckets = tuple(replace(CUP, for_=shell, cup=number) for number in (1, 2, 3))
    mold = replace(PLAN, mixes=(*PLAN.mixes, *buckets))
    told = mix_card(mold, shell, [26])
    (table,) = told["cups"]
    assert (told["title"], table["title"]) == ("Shell 2: 3 buckets", "Buckets 1 to 3, each")
    assert table["names"] == ["Bucket 1", "Bucket 2", "Bucket 3"]
    assert "Zero the empty bucket." in told["sub"]
    assert "cup" not in f"{told['title']} {told['sub']}".lower()
    assert str(mix_card(replace(mold, mixes=(*PLAN.mixes, buckets[0])), shell, [26])["title"]) == "Shell 2: 1 bucket"
    assert "bucket" not in str(mix_card(mold, CUP.for_, [8])).lower()
