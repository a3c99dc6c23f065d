"""The commission's schema describes the TOML as it is written, and agrees with the reader."""

from __future__ import annotations

import tomllib

import jsonschema
import pytest

from moldwright.commission.json_schema import commission_schema
from moldwright.commission.keys import ORDERS, keys
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused

BASE = '[original]\nfile = "a.stl"\n'
GOOD = [
    BASE + 'height = "8 in"\nup = "+Y"'.replace("Y", "y"),
    BASE + 'up = [0, 0, 1]\nboard = 0\n[shop]\npaper = "Letter"\nwaste = 0\n[prices]\ntalc = "4.50"',
    BASE + '[mold]\npieces = 2\ncoats = [{name = "detail", thickness = "2 mm"}]',
]
BAD = [
    "",
    BASE + "[mold]\nthickness = 4",
    BASE + '[mold]\nthicknes = "4 mm"',
    BASE + "[mold]\npieces = 9",
    BASE + '[shop]\nunits = "imperial"',
    BASE + "[prices]\ntalc = 4.5",
    BASE + "up = [0, 1]",
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
    for table, rows in keys().items():
        named = set(ORDERS[table].__dataclass_fields__)
        assert {key.field for key in rows.values()} == named
        assert all(len(key.about) > 10 for key in rows.values())


def test_every_example_is_read() -> None:
    for rows in keys().values():
        for key in rows.values():
            if key.example is not None:
                value = f'"{key.example}"' if isinstance(key.example, str) else key.example
                table = "" if key.table == "original" else f"[{key.table}]\n"
                own = BASE if key.dotted != "original.file" else "[original]\n"
                assert key.dotted in commission_from_toml(f"{own}{table}{key.name} = {value}").given
