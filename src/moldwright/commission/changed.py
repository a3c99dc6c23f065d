"""A commission's text with some of its values changed: comments, order and all else stay as they were written."""

from __future__ import annotations

import re
from collections.abc import Mapping

from moldwright.errors import ComputationFailed
from moldwright.text.toml import toml_tables, toml_value

Place = tuple[str, str]
"""A table and a key of it."""
_LONGEST = 2_000_000
_HEAD = re.compile(r"^\s*\[\s*(?P<table>[A-Za-z0-9_-]+)\s*\]\s*(#.*)?$")
_LINE = re.compile(
    r"^(?P<before>\s*(?P<key>[A-Za-z0-9_-]+)\s*=\s*)(?P<value>\"[^\"\\]*\"|'[^']*'|[^#\"'\[\{]+?)(?P<after>\s*(#.*)?)$"
)


def changed_commission(text: str, values: Mapping[Place, str | int]) -> str:
    """The text with other values at some keys; a key or table that it has not is added.

    Parameters
    ----------
    text : a commission that is TOML.
    values : what is to stand at each key of a table.

    Raises ComputationFailed ("commission-not-changed") where its form hides a key from this.

    >>> changed_commission('[shop]  # ours\\ntemperature = "22 °C"  # in winter\\n', {("shop", "temperature"): "28 °C"})
    '[shop]  # ours\\ntemperature = "28 °C"  # in winter\\n'
    """
    lines = text.splitlines()
    for place, value in values.items():
        lines = _with(lines, place, toml_value(value))
    made = "\n".join(lines) + "\n"
    wanted, found = _tables(text), _tables(made)
    for (table, key), value in values.items():
        wanted.setdefault(table, {})[key] = value
    if found != wanted:
        remedy = "Change the commission itself, on the piece's page."
        raise ComputationFailed("commission-not-changed", "an unusual form of TOML", None, "", remedy)
    return made


def _tables(text: str) -> dict[str, dict[str, object]]:
    return toml_tables(text, "commission", "commission-unreadable", _LONGEST)


def _with(lines: list[str], place: Place, value: str) -> list[str]:
    table, at, head = "", None, None
    for number, line in enumerate(lines):
        if found := _HEAD.match(line):
            table = found["table"]
            head = number if table == place[0] else head
        elif table == place[0] and (told := _LINE.match(line)) and told["key"] == place[1]:
            at = number
            lines = [*lines[:at], f"{told['before']}{value}{told['after']}", *lines[at + 1 :]]
    if at is not None:
        return lines
    if head is not None:
        return [*lines[: head + 1], f"{place[1]} = {value}", *lines[head + 1 :]]
    return [*lines, "", f"[{place[0]}]", f"{place[1]} = {value}"]
