"""A shop's own sheet: field by field over the class, checked, and refused in words."""

from __future__ import annotations

from decimal import Decimal

import pytest

from moldwright.errors import InputRefused
from moldwright.materials import check_sheet, library
from moldwright.materials.compatibility import judge
from moldwright.materials.read_value import RATIO
from moldwright.materials.sheet_fields import kind_rules

OWN = """
[rubber.addition-cure-a10-slow]
source = "data sheet, 2026"
pot_life = "50 min"
viscosity = "20000 cps"
tear = "102 pli"
packs = [{ amount = 1000, unit = "g", price = "41.50" }]
"""


def codes(text: str) -> list[str]:
    return [finding.code for finding in check_sheet(text)]


def test_it_overrides_only_what_it_says() -> None:
    shop, shipped = (lib.rubber("addition-cure-a10-slow") for lib in (library({"own.toml": OWN}), library()))
    assert shop.pot_life_s.likely == 3000
    assert shop.pot_life_s.source == "data sheet, 2026"
    assert shop.viscosity_pa_s.likely == pytest.approx(20)
    assert shop.tear_kn_m.likely == pytest.approx(17.86, rel=1e-3)  # 1 lbf/in = 4.4482 N / 25.4 mm
    assert shop.demold_s == shipped.demold_s
    assert shop.packs[0].price == Decimal("41.50")
    assert not shop.packs[0].placeholder
    assert shop.own_file == "own.toml"


def test_other_sheets_stay_as_they_are() -> None:
    assert library({"own.toml": OWN}).resin("polyester") == library().resin("polyester")


def test_a_new_material_starts_from_a_class() -> None:
    text = '[resin.our-casting-resin]\nlike = "urethane-fast"\nname = "our casting resin"\npot_life = "3 to 5 min"\n'
    resin = library({"own.toml": text}).resin("our casting resin")
    assert (resin.pot_life_s.low, resin.pot_life_s.likely, resin.pot_life_s.high) == (180, 240, 300)
    assert resin.chemistry == "urethane"


def test_a_new_material_without_a_class_must_be_whole() -> None:
    assert set(codes('[powder.our-powder]\nname = "our powder"\n')) == {"value-missing"}


def test_a_ratio_that_was_left_out_follows_from_the_other() -> None:
    """2:1 by volume at 1.05 and 1.22 g/ml is 100:58.10 by weight (rule of mixtures, by hand)."""
    text = '[resin.epoxy-slow]\nratio_volume = "2:1"\ndensity_a = "1.05 g/cc"\ndensity_b = "1.22 g/cc"\n'
    resin = library({"own.toml": text}).resin("epoxy-slow")
    assert resin.ratio_weight[1] == pytest.approx(58.10, rel=1e-3)
    assert dict(resin.provenance)["ratio_weight"].startswith("computed")


def test_two_ratios_that_contradict_the_densities_are_refused() -> None:
    text = (
        '[resin.epoxy-slow]\nratio_volume = "2:1"\nratio_weight = "2:1"\ndensity_a_g_ml = 1.15\ndensity_b_g_ml = 0.95\n'
    )
    assert codes(text) == ["ratio-inconsistent"]
    with pytest.raises(InputRefused, match="ratio-inconsistent"):
        library({"own.toml": text})


@pytest.mark.parametrize(
    ("text", "code", "says"),
    [
        ('[rubber.latex]\npot_lif = "9 min"', "unknown-key", "pot_life"),
        ("[ruber.latex]\nshore_a = 40", "unknown-kind", "rubber"),
        ("[rubber.latex]\ndensity_a_g_ml = 950", "not-possible", "decimal point"),
        ("[rubber.latex]\nshore_a = 140", "not-possible", "unit"),
        ("[rubber.latex]\npot_life = 9", "value-unclear", "unit"),
        ('[rubber.latex]\npot_life_s = "9"', "value-unclear", "unit"),
        ("[rubber.latex]\npot_life_s = [900, 300]", "value-unclear", "order"),
        ("[rubber.latex]\npot_life_s = nan", "value-unclear", "finite"),
        ("[rubber.latex]\npot_life_s = true", "value-unclear", "number"),
        ('[rubber.latex]\npot_life = "9 min"\npot_life_s = 540', "key-twice", "write one"),
        ('[rubber.latex]\nratio_weight = "1:1"', "parts-unclear", "1:0"),
        ('[rubber.urethane-a30]\npot_life = "30 h"', "order-impossible", "before"),
        (
            '[rubber.urethane-a30]\ntack_latest = "40 min"',
            "order-impossible",
            "tack_earliest_s comes before tack_latest_s",
        ),
        ('[rubber.urethane-a30]\nratio_weight = "1:-1"', "value-unclear", "finite"),
        ('[rubber.urethane-a30]\nchemistry = "epoxy"', "chemistry-unclear", "urethane rubber"),
        ('[rubber.urethane-a30]\nchemistry = "epoxi"', "value-unclear", "epoxy"),
        ("[powder.bronze]\napparent_density_g_ml = 7", "powder-too-dense", "74 %"),
        ('[powder.bronze]\nhazards = ["H9"]', "unknown-hazard", "H"),
        ('[powder.bronze]\nlike = "bras"', "unknown-material", "brass"),
        ('[powder."My Bronze"]\nname = "x"', "id-unclear", "hyphens"),
        ("[powder]\nbronze = 3", "sheet-unreadable", "[powder.bronze]"),
        ("[powder.bronze", "sheet-unreadable", "TOML"),
        ('[powder.bronze]\nname = ""', "value-unclear", "one line"),
        ('[powder.bronze]\nname = "two\\nlines"', "value-unclear", "one line"),
        ("[powder.bronze]\ncautions = [3]", "value-unclear", "list"),
        ('[powder.bronze]\npacks = [{ amount = -1, unit = "g", price = "3" }]', "value-unclear", "above zero"),
        ("[powder.bronze]\npacks = [{ amount = 1 }]", "value-unclear", "unit"),
    ],
)
def test_what_cannot_be_is_refused_in_words(text: str, code: str, says: str) -> None:
    findings = [f for f in check_sheet(text) if f.severity == "stop"]
    assert code in [f.code for f in findings]
    assert any(says.casefold() in f.remedy.casefold() for f in findings), findings
    with pytest.raises(InputRefused) as refused:
        library({"own.toml": text})
    assert refused.value.code in [f.code for f in findings]


@pytest.mark.parametrize(
    ("written", "days"), [("1 week", 7), ("30 weeks", 210), ("6 months", 6 * 365.25 / 12), ("2 years", 730.5)]
)
def test_a_shelf_life_is_counted_in_days_of_the_calendar(written: str, days: float) -> None:
    """A week has seven days, the Julian year 365.25."""
    sheet = library({"own.toml": f'[powder.bronze]\nshelf_life = "{written}"'}).powder("bronze")
    assert sheet.shelf_life_days is not None
    assert sheet.shelf_life_days.likely == pytest.approx(days)


def test_what_is_only_unusual_is_questioned() -> None:
    text = "[rubber.addition-cure-a30-slow]\nshore_a = 60"
    assert [(f.severity, f.code) for f in check_sheet(text)] == [("doubt", "unusual-for-class")]
    assert library({"own.toml": text}).findings[0].code == "unusual-for-class"


def test_an_isocyanate_without_its_part_is_refused() -> None:
    text = '[resin.urethane-fast]\nisocyanate_part = ""'
    assert codes(text) == ["value-missing"]


def test_powder_in_the_isocyanate_side_is_questioned() -> None:
    assert codes('[resin.urethane-fast]\npowder_part = "B"') == ["powder-in-isocyanate"]


def test_a_shop_cannot_take_tags_or_cautions_away() -> None:
    text = "[powder.aluminum]\ntags = []\ncautions = []"
    shop, shipped = library({"own.toml": text}).powder("aluminum"), library().powder("aluminum")
    assert shop.tags == shipped.tags
    assert shop.cautions == shipped.cautions


def test_a_tag_is_a_word_of_the_list_in_any_letter_case() -> None:
    """What is metal burns and conducts: a capital letter must not make it a mineral."""
    text = '[powder.ours]\nlike = "marble"\nname = "ours"\ntags = [{}]'
    assert library({"own.toml": text.format('"METAL", "Copper alloy"')}).powder("ours").metal
    assert not library({"own.toml": text.format('"rusts"')}).powder("ours").metal
    assert codes(text.format('"shiny"')) == ["value-unclear"]
    assert "metal" in check_sheet(text.format('"metall"'))[0].remedy


@pytest.mark.parametrize("word", ["none", "no"])
def test_no_material_is_called_what_leaves_one_out(word: str) -> None:
    assert codes(f'[powder.{word}]\nlike = "bronze"') == ["id-unclear"]
    assert codes(f'[powder.ours]\nlike = "bronze"\nname = " {word.upper()} "') == ["value-unclear"]


def test_a_bandage_is_as_thick_as_its_plies() -> None:
    """Two layers of four plies of 0.75 mm: 6 mm, by hand; a thickness that says otherwise is a slip."""
    laid = library({"own.toml": "[shell.plaster-bandage]\nlayers = 2"}).shell("plaster-bandage")
    assert laid.thickness_mm.likely == pytest.approx(6.0)
    assert codes('[shell.plaster-bandage]\nthickness = "20 mm"') == ["thickness-inconsistent"]
    assert codes("[shell.plaster-bandage]\ndensity_g_ml = 1.1") == ["not-used"]
    assert codes('[shell.ours]\nname = "ours"\nmaking = "printed"\nthickness = "3 mm"\nbeyond_rubber = "13 mm"') == [
        "value-missing"
    ]


def test_a_thinned_release_says_what_thins_it() -> None:
    assert codes('[release.petroleum-jelly]\nthinner = "40 %"') == ["value-missing"]
    assert codes('[release.petroleum-jelly]\nthinner = "40 %"\ncarrier = "mineral spirits"') == []


def test_an_id_is_no_tag() -> None:
    """A sealer that somebody calls "solvent" has what its sheet says, not what its id spells."""
    text = '[sealer.solvent]\nlike = "soap"\nname = "ours"'
    job = (
        "plastic",
        "solvent",
        "petroleum-jelly",
        "addition-cure-a10-slow",
        "urethane-fast",
        "bronze",
        "plaster-bandage",
    )
    soap = ("plastic", "soap", *job[2:])
    own, plain = (judge(*each, library({"own.toml": text})) for each in (job, soap))
    assert [finding.rule for finding in own] == [finding.rule for finding in plain]


def test_a_good_sheet_has_no_findings() -> None:
    assert check_sheet(OWN) == ()


def test_sheets_are_read_in_the_order_of_their_names() -> None:
    first, second = ("[powder.bronze]\napparent_density_g_ml = 2.6", "[powder.bronze]\napparent_density_g_ml = 3.2")
    assert library({"b.toml": second, "a.toml": first}).powder("bronze").apparent_density_g_ml.likely == 3.2


STRANGE = (
    "9" * 5000,
    "-" + "9" * 5000,
    "0x" + "f" * 5000,
    *("1e999", "nan", "-inf", "true", "2026-01-01", "00:00:00", "[[]]", "[[[[[1]]]]]", "[true]", "[[1, 2], 3]", "{}"),
    *("{value = {value = 1}}", '{value = 1, source = "\\u001b[2J"}', "{value = 1, x = 2}", '"\\u009b"', '["\\u0007"]'),
    f'"{" " * 100_000}9"',
    f'"{"9" * 100_000} s"',
    "[" + "1, " * 9999 + "1]",
    '{amount = 1, unit = "g", price = "1e9"}',
    '[{amount = 1, unit = "g", price = "1e9"}]',
    '[{amount = 1, unit = "\\u202e", price = "1"}]',
    '[{amount = true, unit = "g", price = "1"}]',
    '[{amount = 1e99, unit = "g", price = 1}]',
    f'[{{amount = 1, unit = "g", price = {"9" * 5000}}}]',
)
NO_RATIO = (
    "[0.0, 1]",
    "[1e308, 1e-308]",
    "[1e-320, 1]",
    '"1e308:1"',
    "[true, true]",
    "[1, -1]",
    "[3]",
    '"1:2:3"',
    "[nan, 1]",
)
FIELDS = [(kind, key) for kind, rule in kind_rules().items() for key in rule.keys]


@pytest.mark.parametrize(("kind", "key"), FIELDS, ids=lambda name: name)
def test_every_type_under_every_key_of_a_sheet_is_refused_in_few_words(kind: str, key: str) -> None:
    """None of these is a value of any key: TOML's types, endless numbers, texts that steer a terminal."""
    like = next(iter(library().sheets[kind]))
    for value in STRANGE:
        found = check_sheet(f"[{kind}.{like}]\n{key} = {value}")
        stops = [finding for finding in found if finding.severity == "stop"]
        taken = key == "weight_only" and value == "true"
        assert bool(stops) != taken, (value[:80], found)
        for finding in stops:
            assert finding.limit not in (None, "")
            assert finding.remedy
            assert len(finding.refusal().sentence()) < 1500


@pytest.mark.parametrize("value", [*NO_RATIO, *STRANGE], ids=range(len(NO_RATIO) + len(STRANGE)))
def test_what_is_no_ratio_is_refused_with_its_bounds(value: str) -> None:
    found = check_sheet(f"[resin.epoxy-slow]\nratio_volume = {value}")
    assert [(finding.code, finding.limit) for finding in found] == [("value-unclear", RATIO)]


def test_a_density_of_nothing_is_refused_before_it_divides() -> None:
    assert codes('[resin.epoxy-slow]\nratio_weight = "2:1"\ndensity_b_g_ml = 0') == ["not-possible"]


def test_a_thousand_faults_are_told_a_hundred_times_at_most() -> None:
    text = "\n".join(f"wrong{n} = 1" for n in range(1000))
    assert len(check_sheet(f"[powder.bronze]\n{text}")) == 100
    assert len(check_sheet("\n".join(f"[wrong{n}.x]" for n in range(1000)))) == 100


@pytest.mark.parametrize("price", ["38.00", "38,5", "0", "999999999.99"])
def test_a_pack_has_a_price_to_the_cent(price: str) -> None:
    text = f'[powder.bronze]\npacks = [{{ amount = 1, unit = "g", price = "{price}" }}]'
    assert library({"own.toml": text}).powder("bronze").packs[0].price == Decimal(price.replace(",", "."))


def test_a_doubt_is_told_once_and_not_after_it_is_mended() -> None:
    soft = "[rubber.latex]\nshore_a = 70\n"
    named_again = library({"a.toml": soft, "b.toml": '[rubber.latex]\nname = "our latex"\n'})
    assert [found.code for found in named_again.findings] == ["unusual-for-class"]
    mended = library({"a.toml": soft, "b.toml": "[rubber.latex]\nshore_a = 40\n"})
    assert mended.findings == ()
