"""A commission as a file to work on: what was answered, and everything else with its default, commented out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from moldwright.commission.keys import QUANTITIES, Key, ValueKind, keys
from moldwright.text.shown import number
from moldwright.text.toml import toml_value
from moldwright.units import show_share

HEAD = """# A commission: what to copy, how many, and what the shop works with.
# Only a scan's file and its size are needed. A line with # in front is left out: it holds the default, which the
# plan then shows, or an example where there is none.
# Quantities as you write them: "8 in", "72 °F", "1/2 in", "250 g", "3 lb 4 oz", "7½ min".
"""
PRICES = """[prices]
# what a pack costs you, by the material's id, as text
# addition-cure-a10-slow = "31.50"
"""
HOUSE_UNITS = frozenset(QUANTITIES) - {ValueKind.COATS, ValueKind.LENGTHS, ValueKind.SHARE} | {ValueKind.RATE}
"""Kinds whose default is written exactly, in the key's own unit."""
WIDE = 34
LONGEST = 110


def commission_text(answers: Mapping[str, Any]) -> str:
    """The TOML text of a commission.

    Parameters
    ----------
    answers : values as written, by dotted key.

    >>> [line[:14] for line in commission_text({"original.file": "a.stl"}).splitlines()[5:7]]
    ['[original]', 'file = "a.stl"']
    """
    tables = [_table(name, rows, answers) for name, rows in keys().items()]
    return "\n".join([HEAD, *tables, PRICES])


def _table(name: str, rows: Mapping[str, Key], answers: Mapping[str, Any]) -> str:
    return "\n".join([f"[{name}]", *(_line(key, answers) for key in rows.values()), ""])


def _line(key: Key, answers: Mapping[str, Any]) -> str:
    written = answers.get(key.dotted)
    mark = "# " if written is None else ""
    value = toml_value(shown_default(key) if written is None else written)
    line = f"{f'{mark}{key.name} = {value}':<{WIDE}} # {key.about}"
    return line if len(line) <= LONGEST else f"# {key.about}:\n{mark}{key.name} = {value}"


def shown_default(key: Key) -> Any:
    """The key's default as a person writes it; an example where it has none.

    Parameters
    ----------
    key : the key.
    """
    default = key.default
    if default in (None, "", ()):
        return key.example if key.example is not None else False if key.kind is ValueKind.SWITCH else ""
    if key.kind is ValueKind.SHARE:
        return show_share(default)
    if key.kind is ValueKind.MONEY:
        return str(default)
    return f"{number(default)} {key.unit}" if key.kind in HOUSE_UNITS else default
