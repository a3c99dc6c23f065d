"""The commission's file: the smallest one is enough, every key is read, everything else is refused with a remedy."""

from __future__ import annotations

from decimal import Decimal

import pytest
from exact_factors import INCH_MM, OUNCE_G

from moldwright.commission.keys import Key, ValueKind, keys
from moldwright.commission.orders import CoatOrder, Commission, EditionOrder
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.text.toml import toml_value
from moldwright.units.read_off import ReadOff

SMALLEST = '[original]\nfile = "stag.off"\nheight = "160 mm"\n'
WATER = '[original]\ndisplaced = "1.9 l"\n'
CONTRACT = """
[original]
file = "stag.off"
height = "160 mm"
up = "+y"
material = "plastic"
[edition]
count = 12
[mold]
thickness = "4 mm"
pieces = 2
[shop]
temperature = "22 °C"
"""
FULL = """
[original]
file = "stag.off"
name = "Stag"
unit = "mm"
height = "6 5/16 in"
up = [0, 0, 1]
board = 0
material = "sulfur clay"
[edition]
count = 24
[mold]
rubber = "addition-cure-a20-fast"
coats = [{name = "detail", thickness = "0,75 mm"}, {name = "build", thickness = "1/8 in"}]
pieces = 2
shell = "plaster bandage"
flange = "2 in"
release = "petroleum-jelly"
sealer = "shellac"
[cast]
resin = "urethane-fast"
powder = "brass"
skin = "3 mm"
backfill = "urethane-standard"
[shop]
temperature = "72 °F"
scale = "0.1 g"
cup = "1 pt"
measure = "volume"
paper = "Letter"
units = "us"
people = 2
hours = "08:30-16:00"
waste = "12 %"
mixing = "2½ min"
laying = "1 oz/min"
sheets = "our-sheets"
steps = "our-steps.toml"
[prices]
talc = "4"
addition-cure-a20-fast = "31.50"
"""


def test_the_smallest_commission_takes_every_default() -> None:
    order = commission_from_toml(SMALLEST)
    assert order.given == ("original.file", "original.height")
    assert order == Commission(order.original, given=order.given)
    assert order.original.height_mm == 160.0


def test_the_contracts_example() -> None:
    order = commission_from_toml(CONTRACT)
    assert order.edition == EditionOrder(12)
    assert (order.mold.thickness_mm, order.mold.pieces, order.original.up) == (4.0, 2, "+y")
    assert order.given[-1] == "shop.temperature"


def test_every_key_is_read_into_the_houses_units() -> None:
    order = commission_from_toml(FULL)
    assert order.original.height_mm == pytest.approx(6.3125 * INCH_MM)
    assert order.original.up == (0.0, 0.0, 1.0)
    assert order.original.board_mm == 0.0
    assert order.mold.coats == (CoatOrder("detail", 0.75), CoatOrder("build", INCH_MM / 8))
    assert order.mold.thickness_mm == pytest.approx(3.925)
    assert order.mold.flange_mm == pytest.approx(50.8)
    assert order.shop.temperature_c == pytest.approx(40 / 1.8)
    assert order.shop.cup_ml == pytest.approx(473.176473)
    assert order.shop.waste == pytest.approx(0.12)
    assert order.shop.mix_min == 2.5
    assert order.shop.lay_g_per_min == pytest.approx(OUNCE_G)
    assert (order.shop.paper, order.shop.units, order.shop.measure) == ("letter", "us", "volume")
    assert order.prices == (("addition-cure-a20-fast", Decimal("31.50")), ("talc", Decimal("4")))
    assert "prices.talc" in order.given
    assert "mold.thickness" not in order.given


@pytest.mark.parametrize(
    ("text", "value", "step"),
    [
        ('displaced = "1.9 l"', 1900.0, 100.0),
        ('displaced = "1900 ml"', 1900.0, 1.0),
        ('displaced = "1,90 l"', 1900.0, 10.0),
        ('displaced = "1 qt 1/2 pt"', 0.946352946e3 * 1.25, 473.176473 / 2),
        ('displaced = "1500 cm³"', 1500.0, 1.0),
        ('weight = "3 lb 4 oz"', 52 * OUNCE_G, OUNCE_G),
        ('weight = "3 lb 4½ oz"', 52.5 * OUNCE_G, OUNCE_G / 2),
        ('weight = "3.20 kg"', 3200.0, 10.0),
    ],
)
def test_what_is_read_off_keeps_how_finely_it_was_written(text: str, value: float, step: float) -> None:
    """Gallon of 231 cubic inches, avoirdupois ounce (NIST Special Publication 811, from memory)."""
    order = commission_from_toml(f"[original]\n{text}").original
    read = order.displaced_ml if "displaced" in text else order.weight_g
    assert read == ReadOff(pytest.approx(value), pytest.approx(step))


def test_lengths_of_a_list_stand_once_the_least_first() -> None:
    """An inch is 25.4 mm (NIST Special Publication 811)."""
    order = commission_from_toml(SMALLEST + '[mold]\nlevel-cuts = ["120 mm", "1 in", "12 cm"]')
    assert order.mold.level_cuts_mm == (25.4, 120.0)


def test_a_density_is_a_mass_per_volume() -> None:
    for written, value, step in (
        ("1.05 g/ml", 1.05, 0.01),
        ("1.05 kg per l", 1.05, 0.01),
        ("8 oz/5 cu in", 2.768, 0.346),
    ):
        order = commission_from_toml(f'[original]\nweight = "3 kg"\ndensity = "{written}"').original
        assert order.density_g_ml == ReadOff(pytest.approx(value, rel=1e-3), pytest.approx(step, rel=1e-3))


@pytest.mark.parametrize(
    ("text", "code", "told"),
    [
        ("", "key-missing", "original.file"),
        ('[original]\nheight = "160 mm"', "key-missing", "scan"),
        (WATER + 'bar = "99 mm"', "key-missing", "original.photos"),
        (WATER + 'density = "1.05"', "key-missing", "original.weight"),
        (WATER + 'weight = "3 kg"\ndensity = "1.05 g/mm"', "quantity-unclear", "asked for is: volume"),
        (WATER + 'weight = "3 kg"\ndensity = "1 kg/ml"', "value-out-of-range", "at most 25"),
        (WATER + 'weight = "3 kg"\ndensity = "1 g/0 ml"', "value-out-of-range", "at most 25"),
        (WATER + 'photos = "p"\nbar = "120 mm"', "value-out-of-range", "at most 110 mm"),
        (WATER + 'photos = "p"\nleave_out = "a.jpg"', "wrong-type", '["photo-07.jpg"]'),
        (WATER + 'photos = "p"\nleave_out = ["p/a.jpg"]', "text-unusable", "without its folder"),
        (SMALLEST + '[mold]\nprinted-wall = "2.9 mm"', "value-out-of-range", "at least 3 mm"),
        (SMALLEST + '[mold]\nprinted-wall = "6.5 mm"', "value-out-of-range", "at most 6 mm"),
        (SMALLEST + '[mold]\nlevel-cuts = "40 mm"', "wrong-type", '["40 mm", "120 mm"]'),
        (SMALLEST + "[mold]\nlevel-cuts = []", "value-out-of-range", "1 to 8 lengths"),
        (SMALLEST + '[mold]\nlevel-cuts = ["40"]', "quantity-unclear", "mold.level-cuts[0]"),
        (SMALLEST + '[mold]\nlevel-cuts = ["40 mm", "4 m"]', "value-out-of-range", "at most 3000 mm"),
        (WATER + 'gaps = [{where = "chin", depth = "12 mm"}]', "key-missing", "original.gaps[0].width is left out"),
        (
            WATER + 'gaps = [{where = "chin", depth = "12", width = "2 mm"}]',
            "quantity-unclear",
            "original.gaps[0].depth",
        ),
        (WATER + 'gaps = {where = "chin"}', "wrong-type", "a list of 1 to 40 tables"),
        (WATER + "tape = {}", "key-missing", "original.tape.levels is left out"),
        (WATER + "tape = 4", "wrong-type", "levels = ["),
        (WATER + "tape = {levels = []}", "value-out-of-range", "1 to 60"),
        (WATER + 'tape = {levels = [{at = 0, girt = "3 mm"}]}', "unknown-key", "Did you mean girth?"),
        (
            WATER + "tape = {levels = [{at = 0, girth = 300}]}",
            "quantity-unclear",
            "tape.levels[0].girth = 300",
        ),
        (WATER + "tape = {levels = [{at = 0, girth = 0}], shape = 'ovl'}", "unknown-choice", '"oval"'),
        (SMALLEST + '[molds]\nthickness = "4 mm"', "unknown-table", "[mold]"),
        (SMALLEST + '[mold]\nthicknes = "4 mm"', "unknown-key", "thickness"),
        (SMALLEST + '[mold]\ntemperature = "22 °C"', "unknown-key", "[shop]"),
        (SMALLEST + "[mold]\nzzzz = 1", "unknown-key", "knows: rubber"),
        ('thickness = "4 mm"\n' + SMALLEST, "unknown-key", "[mold]"),
        ("mold = 4\n" + SMALLEST, "wrong-type", "[mold]"),
        (SMALLEST + "[mold]\nthickness = 4", "quantity-unclear", "mold.thickness = 4"),
        (SMALLEST + '[mold]\nthickness = "4"', "quantity-unclear", "unit is missing"),
        (SMALLEST + '[mold]\nthickness = "4 g"', "quantity-unclear", "of another kind: mass"),
        (SMALLEST + '[mold]\nthickness = ["4 mm"]', "wrong-type", "a list"),
        (SMALLEST + '[mold]\nthickness = "0.2 mm"', "value-out-of-range", "at least 1 mm"),
        (SMALLEST + '[mold]\nthickness = "4 ft"', "value-out-of-range", "at most 30 mm"),
        (SMALLEST + "[mold]\npieces = 5", "value-out-of-range", "at most 4"),
        (SMALLEST + "[mold]\npieces = 2.0", "wrong-type", "a whole number"),
        (SMALLEST + "[mold]\npieces = true", "wrong-type", "true or false"),
        (SMALLEST + "[mold]\nrubber = 10", "wrong-type", "mold.rubber"),
        (SMALLEST + "[mold]\ncoats = []", "value-out-of-range", "1 to 8"),
        (SMALLEST + '[mold]\ncoats = [{name = "detail"}]', "key-missing", "mold.coats[0]"),
        (SMALLEST + '[mold]\ncoats = [{name = "a", thick = "1 mm"}]', "unknown-key", "thickness"),
        (SMALLEST + '[mold]\ncoats = [{name="a",thickness="1 mm"},{name="a",thickness="1 mm"}]', "coat-twice", "own"),
        (SMALLEST + '[mold]\nthickness = "4 mm"\ncoats = [{name="a",thickness="3 mm"}]', "coats-disagree", "add up"),
        (SMALLEST + "[edition]\ncount = 0", "value-out-of-range", "at least 1"),
        (SMALLEST + '[shop]\ntemperature = "72"', "quantity-unclear", "°C"),
        (SMALLEST + '[shop]\ntemperature = "72 °C"', "value-out-of-range", "at most 45"),
        (SMALLEST + '[shop]\nmeasure = "weigth"', "unknown-choice", '"weight"'),
        (SMALLEST + '[shop]\npaper = "a3"', "unknown-choice", "letter"),
        (SMALLEST + '[shop]\nhours = "17:00-09:00"', "hours-unclear", "09:00-17:00"),
        (SMALLEST + '[shop]\ncup = "2 cups"', "quantity-unclear", "kitchen"),
        (SMALLEST + '[shop]\nwaste = "80 %"', "value-out-of-range", "at most 50 %"),
        (SMALLEST + '[shop]\nlaying = "25 g"', "quantity-unclear", "25 g/min"),
        (SMALLEST + "[prices]\ntalc = 4.5", "wrong-type", '"14.50"'),
        (SMALLEST + '[prices]\ntalc = "$4.50"', "price-unclear", "without currency"),
        (SMALLEST.replace("160 mm", "5 mm"), "value-out-of-range", "at least 10 mm"),
        (SMALLEST + 'up = "up"', "up-unclear", "+x"),
        (SMALLEST + "up = [0, 0, 0]", "up-unclear", "three numbers"),
        (SMALLEST + "up = [0, nan, 1]", "up-unclear", "three numbers"),
        (SMALLEST + 'unit = "parsec"', "unknown-choice", "mm"),
        (SMALLEST + 'file = "again.stl"', "commission-not-toml", "quotes"),
        ("height = 160 mm", "commission-not-toml", "line 1"),
        ("x" * 300_000, "commission-too-long", "commission"),
    ],
)
def test_refusals_name_the_value_and_the_remedy(text: str, code: str, told: str) -> None:
    with pytest.raises(InputRefused) as refused:
        commission_from_toml(text)
    assert refused.value.code == code
    assert told in refused.value.sentence()
    assert refused.value.remedy


EVERY = [key for rows in keys().values() for key in rows.values()]
ENDLESS = ("9" * 5000, "-" + "9" * 5000, "0x" + "f" * 5000, "1e999", "-1e999", "nan", "inf", "1e308", "9" * 400)
TYPES = (
    *("true", "-7", "-0.5", '""', '" "', '"\\u0000"', '"\\u009b"', '"\\u202e"', '"a\\nb"', f'"{"9" * 100_000} mm"'),
    *("2026-01-01", "2026-01-01T00:00:00Z", "00:00:00", "[]", "[[]]", "[[[[[[[[1]]]]]]]]", "[true]", "[{}]", "{}"),
    *("{a = 1}", '["4 mm"]'),
)
ANYTHING = [*ENDLESS, *TYPES]


LISTS = (ValueKind.COATS, ValueKind.LENGTHS)


def refusal(key: Key, value: str) -> InputRefused | None:
    base = "[original]\n" if key.dotted == "original.file" else '[original]\nfile = "a.stl"\n'
    base += f"[{key.table}]\n" if key.table != "original" else ""
    base += f"{key.needs} = {toml_value(keys()[key.table][key.needs].example)}\n" if key.needs else ""
    try:
        commission_from_toml(f"{base}{key.name} = {value}")
    except InputRefused as refused:
        return refused
    return None


@pytest.mark.parametrize("key", EVERY, ids=lambda key: key.dotted)
@pytest.mark.parametrize("value", ANYTHING, ids=range(len(ANYTHING)))
def test_every_type_under_every_key_is_refused_with_the_keys_limits(key: Key, value: str) -> None:
    """The types are TOML's; the limits are the key's own, as docs/commission.md shows them. A path may turn its writing
    round: what it is called is its owner's."""
    refused = refusal(key, value)
    if refused is None:
        assert (key.kind, value) in (
            (ValueKind.PATH, '"\\u202e"'),
            (ValueKind.SWITCH, "true"),
            (ValueKind.NAMES, '["4 mm"]'),
            (ValueKind.LENGTHS, '["4 mm"]'),
        )
        return
    assert refused.remedy
    assert len(refused.sentence()) < 900
    said = f"{refused.limit} {refused.unit}"
    bounds = {
        f"{bound * (100 if key.kind is ValueKind.SHARE else 1):g}" for bound in (key.low, key.high) if bound is not None
    }
    assert any(bound in said for bound in bounds) or not bounds or (key.kind in LISTS and refused.limit), said


@pytest.mark.parametrize("value", ENDLESS)
def test_an_endless_count_is_refused_with_the_count_that_may_be(value: str) -> None:
    refused = refusal(keys()["edition"]["count"], value)
    assert refused is not None
    assert refused.limit in (1, 10_000, "a whole number, 1 to 10000")


@pytest.mark.parametrize("value", ANYTHING, ids=range(len(ANYTHING)))
def test_every_type_of_a_price_is_refused_with_its_limit(value: str) -> None:
    with pytest.raises(InputRefused) as refused:
        commission_from_toml(f"{SMALLEST}[prices]\ntalc = {value}")
    assert "price" in str(refused.value.limit) or "amount" in str(refused.value.limit)


@pytest.mark.parametrize("name", ['"\\u001b[31m"', '"\\u202e"', '""', f'"{"k" * 5000}"', '"a\\nb"', '"ключ"'])
@pytest.mark.parametrize("table", ["", "[mold]\n", "[shop]\n", "[prices]\n"])
def test_strange_keys_are_refused_in_few_words(table: str, name: str) -> None:
    with pytest.raises(InputRefused) as refused:
        commission_from_toml(f'{name + " = 1" if not table else ""}\n{SMALLEST}{table}{name} = "1"')
    assert len(refused.value.sentence()) < 600
    assert refused.value.limit


def test_digits_of_every_script_are_digits() -> None:
    order = commission_from_toml(
        SMALLEST + '[shop]\nhours = "０８:３０-１６:００"\ntemperature = "٢٢ °C"\nlaying = "1/2 oz per 1/2 min"'
    )
    assert (order.shop.hours, order.shop.temperature_c) == ("08:30-16:00", 22.0)
    assert order.shop.lay_g_per_min == pytest.approx(OUNCE_G)  # avoirdupois ounce (NIST Special Publication 811)


@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_what_editors_leave_changes_nothing(end: str, mark: str) -> None:
    assert commission_from_toml(mark + CONTRACT.replace("\n", end)) == commission_from_toml(CONTRACT)
