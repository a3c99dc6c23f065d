"""A commission's text with other values: what was written stays, read back by the standard library's own parser."""

from __future__ import annotations

import tomllib

import pytest

from moldwright.commission.changed import changed_commission
from moldwright.errors import MoldwrightError

TEXT = """# ours
[original]
file = "stag.off"   # beside

[mold]
rubber = 'a10'

[shop]
temperature = "22 °C" # warm
"""


def test_a_value_is_changed_and_nothing_else() -> None:
    made = changed_commission(TEXT, {("shop", "temperature"): "28 °C"})
    assert made == TEXT.replace("22 °C", "28 °C")


def test_a_key_and_a_table_that_are_not_there_are_added() -> None:
    made = changed_commission(TEXT, {("mold", "pieces"): 2, ("edition", "count"): 12})
    assert tomllib.loads(made) == tomllib.loads(TEXT) | {
        "mold": {"rubber": "a10", "pieces": 2},
        "edition": {"count": 12},
    }
    assert "# beside" in made


def test_a_key_of_another_table_is_left_alone() -> None:
    text = "[cast]\ncount = 3\n[edition]\ncount = 4\n"
    assert tomllib.loads(changed_commission(text, {("edition", "count"): 9}))["cast"]["count"] == 3


@pytest.mark.parametrize("text", ['shop = { temperature = "22 °C" }\n', 'shop.temperature = "22 °C"\n'])
def test_a_form_that_hides_a_key_is_told_and_not_guessed_at(text: str) -> None:
    with pytest.raises(MoldwrightError, match=r"commission-(not-changed|unreadable)"):
        changed_commission(text, {("shop", "temperature"): "28 °C"})
