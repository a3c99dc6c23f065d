"""TOML of a stranger: the same tables as the standard library reads, within bounds of depth, dots and digits."""

from __future__ import annotations

import json
import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldwright.errors import InputRefused
from moldwright.text.toml import DEEPEST, MOST_DOTS, toml_tables

TEXTS = st.text(alphabet=st.sampled_from([*"ab.[]{}#='\"\\\n9_ é\u202e"]), max_size=60)
VALUES = st.recursive(
    st.one_of(TEXTS, st.booleans(), st.integers(-(2**63), 2**63), st.floats(allow_nan=False)),
    lambda inner: st.lists(inner, max_size=3),
    max_leaves=6,
)


def written(value: Any) -> str:
    """A value as TOML, by the JSON that TOML shares: text with JSON's escapes, lists, true and false."""
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, list):
        return f"[{', '.join(written(item) for item in value)}]"
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def read(text: str) -> dict[str, Any]:
    return toml_tables(text, "list", "list-unreadable", 300_000)


@given(
    st.dictionaries(st.from_regex(r"[a-z]{1,5}", fullmatch=True), VALUES, max_size=4), st.sampled_from(["\n", "\r\n"])
)
def test_the_same_tables_as_the_standard_library(values: dict[str, Any], end: str) -> None:
    text = end.join(f"{name} = {written(value)}  # [{{. 'x" for name, value in values.items())
    assert read(text) == read("\ufeff" + text) == tomllib.loads(text) == values


@given(TEXTS.filter(lambda text: "'''" not in text and not text.endswith("'")))
def test_what_stands_in_quotes_and_comments_counts_for_nothing(text: str) -> None:
    literal = f"a = '''{text}'''\n# {text!r}\nb = 1"
    assert read(literal) == tomllib.loads(literal)


def test_long_rows_of_dots_and_brackets_in_text_are_text() -> None:
    assert read(f'a = "{"." * 999}{"[" * 999}"') == {"a": "." * 999 + "[" * 999}
    assert len(read(f"a = [{', '.join(['1.5'] * 999)}]")["a"]) == 999


@pytest.mark.parametrize(
    "text",
    [
        ".".join("a" * 100_000) + " = 1",
        f"[{'.'.join('a' * 100_000)}]",
        " . ".join(['"a"'] * 30_000) + " = 1",
        f"a = {'[' * 100_000}",
        f"a = {'[' * 100_000}{']' * 100_000}",
        f"a = {'{a=' * 60_000}",
        '"' * 99_999,
        "'" * 99_999,
        '"""' + "\\" * 99_999,
        "a = 1" + "\r" * 1000,
        "a = '\ud800'\x00",
        "a = 1\na = 2",
        "[a]\n[a]",
        '"\\ud800" = 1',
        "a = 01",
        "\x00",
    ],
    ids=range(16),
)
def test_what_is_tangled_is_refused_at_once(text: str) -> None:
    with pytest.raises(InputRefused) as refused:
        read(text)
    assert refused.value.code == "list-unreadable"
    assert refused.value.limit
    assert refused.value.remedy


def test_the_bounds() -> None:
    deep = DEEPEST - 1
    assert read(f"a = {'[' * deep}{']' * deep}")
    assert read(f"{'.'.join(['a'] * (MOST_DOTS + 1))} = 1")
    with pytest.raises(InputRefused, match="brackets deep"):
        read(f"a = {'[' * (deep + 2)}{']' * (deep + 2)}")
    with pytest.raises(InputRefused, match="dots in a key"):
        read(f"{'.'.join(['a'] * (MOST_DOTS + 2))} = 1")
    with pytest.raises(InputRefused, match="list-too-long"):
        read(" " * 300_001)


@pytest.mark.parametrize("digits", [401, 4299, 4301, 5000, 250_000])
def test_endless_integers_are_past_every_bound(digits: int) -> None:
    """Python's own limit of digits is 4,300; the largest float has 309."""
    assert read(f"a = {'9' * digits}")["a"] > 10**309
    assert read(f"a = -{'9' * digits}")["a"] < -(10**309)
    assert read(f"a = '{'9' * digits}'")["a"] == "9" * digits
