"""What a refusal tells to write is taken when it is written."""

from __future__ import annotations

import re

import pytest

from moldwright.commission.keys import ValueKind, keys
from moldwright.commission.reading import commission_from_toml
from moldwright.commission.values import value_of
from moldwright.errors import InputRefused
from moldwright.materials import library
from moldwright.steps.own_file import own_steps
from moldwright.text.toml import toml_tables

KEYS = [key for table in keys().values() for key in table.values()]
WRONG = (True, "", "wrong", "-7", 10**9, [], {}, "1e99 mm", "5 cups")
WRITE = re.compile(r"Write ((?:[a-z_-]+) = (?:\"(?:[^\"\\]|\\.)*\"|[0-9]+(?:\.[0-9]+)?|\[[^\]]*\]))")


@pytest.mark.parametrize("key", KEYS, ids=lambda key: key.dotted)
def test_the_example_in_a_keys_hint_is_taken(key) -> None:  # type: ignore[no-untyped-def]
    for wrong in WRONG:
        try:
            value_of(key, wrong)
        except InputRefused as refused:
            for told in WRITE.findall(refused.remedy):
                name, _, _ = told.partition(" = ")
                table = toml_tables(told, "hint", "hint", 1000)
                value_of(key, table if key.kind is ValueKind.RECORD and name != key.name else table[name])


def test_every_keys_own_example_is_taken() -> None:
    for key in KEYS:
        if key.example is not None:
            value_of(key, key.example)


def test_a_key_that_is_missing_is_told_with_an_example_that_is_taken() -> None:
    with pytest.raises(InputRefused) as refused:
        commission_from_toml('[original]\nheight = "8 in"\n')
    told = WRITE.findall(refused.value.remedy)
    assert told
    commission_from_toml(f'[original]\nheight = "8 in"\n{told[0]}\n')


def test_what_a_step_of_ones_own_lacks_is_told_as_it_may_be_written() -> None:
    text = "[[add]]\n"
    for _ in range(3):
        with pytest.raises(InputRefused) as refused:
            own_steps(text)
        told = re.findall(r'Give it ([a-z]+ = "[^"]+")', refused.value.remedy)
        text += told[0] + "\n"
    assert own_steps(text).add[0].labor_min == 15.0


def test_each_choice_that_is_offered_for_a_material_is_taken() -> None:
    for kind, asked in (("rubber", "silicone"), ("resin", "urethane"), ("powder", "glass"), ("powder", "bronce")):
        with pytest.raises(InputRefused) as refused:
            getattr(library(), kind)(asked)
        offered = re.findall(r'"([a-z0-9-]+)" \(', refused.value.remedy)
        offered += re.findall(r"Did you mean ([a-z0-9-]+)", refused.value.remedy)
        assert offered
        assert [getattr(library(), kind)(each).id for each in offered] == offered
