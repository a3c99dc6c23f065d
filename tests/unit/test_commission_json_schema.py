"""The commission's schema describes the TOML as it is written, and agrees with the reader."""

from __future__ import annotations

import tomllib

import jsonschema
import pytest

from moldwright.commission.json_schema import commission_schema
from moldwright.commission.keys import ORDERS, RECORDS, keys, record_keys
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.text.toml import toml_value

BASE = '[original]\nfile = "a.stl"\n'
GOOD = [
    BASE + 'height = "8 in"\nup = "+Y"'.replace("Y", "y"),
    BASE + 'up = [0, 0, 1]\nboard = 0\n[shop]\npaper = "Letter"\nwaste = 0\n[prices]\ntalc = "4.50"',
    '[original]\nphotos = "p"\nbar = "99.6 mm"\nleave_out = ["a.jpg"]\nsolid = true\nweight = "3 kg"',
    '[original]\ndisplaced = "1.9 l"\ngaps = [{where = "chin", depth = "9 mm", width = "1 in", count = 2}]',
    '[original.tape]\nlevels = [{at = 0, girth = "9 in", shape = "Boxy"}]\nlimbs = [{name = "arm", joins_at = "2 in",'
    ' levels = [{at = 0, girth = "3 in"}], side = "left"}]',
    BASE + '[mold]\nlevel-cuts = ["40 mm", "4 in"]',
    BASE + '[mold]\npieces = 2\ncoats = [{name = "detail", thickness = "2 mm"}]',
]
BAD = [
    "",
    BASE + "[mold]\nthickness = 4",
    BASE + '[mold]\nthicknes = "4 mm"',
    BASE + "[mold]\npieces = 9",
    BASE + '[shop]\nunits = "imperial"',
    BASE + "[mold]\nlevel-cuts = [40]",
    BASE + "[prices]\ntalc = 4.5",
    BASE + "up = [0, 1]",
    '[original]\nheight = "160 mm"',
    BASE + 'bar = "99 mm"',
    '[original]\nphotos = "p"\nleave_out = []',
    '[original]\nphotos = "p"\nleave_out = "a.jpg"',
    "[original]\ntape = {}",
    "[original.tape]\nlevels = [{at = 0}]",
    '[original.tape]\nlevels = [{at = 0, girth = "9 in", girt = "9 in"}]',
    '[original.tape]\nlevels = [{at = 0, girth = "9 in"}]\nlimbs = [{name = "arm"}]',
    '[original]\ndisplaced = "1.9 l"\ngaps = [{where = "chin", depth = 9, width = "9 mm"}]',
    '[original]\ndisplaced = "1.9 l"\ngaps = [{where = "chin", depth = "9 mm", width = "9 mm", count = 0}]',
]


def valid(text: str) -> bool:
    checker = jsonschema.Draft202012Validator(commission_schema())
    return bool(checker.is_valid(tomllib.loads(text)))


def test_it_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(commission_schema())


@pytest.mark.parametrize("text", GOOD)
def test_what_is_read_is_valid(text: str) -> None:
    assert commission_from_toml(text)
    assert valid(text)


@pytest.mark.parametrize("text", BAD)
def test_what_is_refused_is_invalid(text: str) -> None:
    with pytest.raises(InputRefused):
        commission_from_toml(text)
    assert not valid(text)


def test_every_key_fills_a_field_and_says_what_it_is() -> None:
    for kinds, tables in ((ORDERS, keys()), (RECORDS, record_keys())):
        assert set(kinds) == set(tables)
        for table, rows in tables.items():
            named = set(kinds[table].__dataclass_fields__)
            assert {key.field for key in rows.values()} == named
            assert all(len(key.about) > 10 for key in rows.values())


def test_every_example_is_read() -> None:
    for rows in keys().values():
        for key in rows.values():
            if key.example is not None:
                table = "" if key.table == "original" else f"[{key.table}]\n"
                own = BASE if key.dotted != "original.file" else "[original]\n"
                needed = f"{key.needs} = {toml_value(rows[key.needs].example)}\n" if key.needs else ""
                text = f"{own}{table}{needed}{key.name} = {toml_value(key.example)}"
                assert key.dotted in commission_from_toml(text).given
                assert valid(text)


@pytest.mark.parametrize("example", ["levels", "limbs", "gaps", "bowls"])
def test_every_example_of_a_record_is_read(example: str) -> None:
    """A list with every key of its record, each with its example."""
    record = {"levels": "level", "limbs": "limb", "gaps": "gap", "bowls": "bowl"}[example]
    levels = [{key.name: key.example for key in record_keys()["level"].values()}]
    row = {k.name: levels if k.name == "levels" else k.example for k in record_keys()[record].values()}
    written = {example: [row]} if example != "limbs" else {"levels": levels, "limbs": [row]}
    lines = [f"{name} = {toml_value(own)}" for name, own in written.items()]
    text = (
        "\n".join(["[original.tape]", *lines])
        if record in ("level", "limb")
        else f'{BASE}photos = "p"\n{example} = {toml_value([row])}'
    )
    order = commission_from_toml(text).original
    assert valid(text)
    read = {"levels": lambda: order.tape.levels, "limbs": lambda: order.tape.limbs, "gaps": lambda: order.gaps}
    read["bowls"] = lambda: order.bowls
    assert all(getattr(read[example]()[0], k.field) is not None for k in record_keys()[record].values())
