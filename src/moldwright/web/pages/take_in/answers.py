"""From what was typed to a commission, and back."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from moldwright.commission.keys import ValueKind, keys
from moldwright.commission.reading import LONGEST
from moldwright.commission.values import is_word
from moldwright.making.choices import YES_NO
from moldwright.making.commission import commission_text
from moldwright.records.pieces.names import is_harmless
from moldwright.text.toml import toml_tables, toml_value
from moldwright.units.system import UnitSystem
from moldwright.web.pages.take_in.fields import UNIT_OF
from moldwright.web.pages.take_in.marks import WORDS, marks_turned

MOST_DIGITS = 9
NAMES_OF_FILES = frozenset(("original.file", "original.photos", "shop.sheets", "shop.steps"))
BY_WAY = {
    "scan": ("original.file", "original.height", "original.unit", "original.up", "original.board"),
    "photos": ("original.photos", "original.bar", "original.leave_out", "original.bowls"),
    "tape": ("original.tape", "original.height"),
    "water": ("original.height",),
}
"""Answers that belong to one way to know a piece alone; water and weight go with any."""
PRICES = "[prices]\n"


def typed(written: Mapping[str, Any], units: UnitSystem) -> dict[str, Any]:
    """What was typed as a commission holds it: in the house's marks, and a bare number with the unit behind its field.

    Parameters
    ----------
    written : by dotted key; "" and none: left out; what is no key is left out too.
    units : of who typed.
    """
    found: dict[str, Any] = {}
    written = marks_turned(written)
    for table, rows in keys().items():
        for name, key in rows.items():
            value = written.get(f"{table}.{name}")
            if isinstance(value, str):
                value = value.strip()
            if value not in (None, "", [], {}):
                found[f"{table}.{name}"] = _typed(key.kind, value, units)
    return found | {name: value for name, value in written.items() if _is_price(name, value)}


def _is_price(name: str, value: Any) -> bool:
    """Prices are asked nowhere here; those of a commission that is changed go along."""
    return name.startswith("prices.") and is_word(name.partition(".")[2]) and isinstance(value, str)


def own_only(answers: Mapping[str, Any], way: str, folder: Path) -> dict[str, Any]:
    """What was typed without the other ways to know a piece, and without names of files that are not its own.

    Parameters
    ----------
    answers : by dotted key, as a commission holds them.
    way : by what it is known: "scan", "photos", "tape" or "water".
    folder : where its own files lie: whatever was sent, no other is ever read.
    """
    other = {dotted for each, keys_ in BY_WAY.items() if each != way for dotted in keys_} - set(BY_WAY.get(way, ()))
    found = {dotted: value for dotted, value in answers.items() if dotted not in other}
    for dotted in NAMES_OF_FILES & set(found):
        if not _is_own(found[dotted], folder):
            del found[dotted]
    return found


def _is_own(name: Any, folder: Path) -> bool:
    return isinstance(name, str) and is_harmless(name) and (folder / name).exists()


def _typed(kind: ValueKind, value: Any, units: UnitSystem) -> Any:
    if not isinstance(value, str):
        return _rows(value, units)
    if kind is ValueKind.COUNT and value.isdecimal() and len(value) <= MOST_DIGITS:
        return int(value)
    if kind is ValueKind.SWITCH:
        return YES_NO.get(value.casefold(), value)
    if kind is ValueKind.DIRECTION and "," in value:
        try:
            return [float(part) for part in value.strip("[] ").split(",")]
        except ValueError:
            return value
    return with_unit(value, UNIT_OF[units].get(kind.value, ""))


def with_unit(value: str, unit: str) -> str:
    """A quantity with its unit: a bare number gets one, anything else is left as it is.

    Parameters
    ----------
    value : as it was typed.
    unit : in which a bare number is read; "" for none.

    >>> with_unit("190", "mm"), with_unit("7 1/2 in", "mm"), with_unit("12,5", "mm")
    ('190 mm', '7 1/2 in', '12,5 mm')
    """
    bare = unit and value and all(letter.isdecimal() or letter in "., /½¼¾" for letter in value)
    return f"{value} {unit}" if bare else value


def _rows(value: Any, units: UnitSystem) -> Any:
    """Tables under a key: lengths in them are typed as bare numbers too; what was left empty is left out."""
    if isinstance(value, list):
        return [row for row in (_rows(each, units) for each in value) if row not in ("", {}, None)]
    if isinstance(value, dict):
        found = {name: _cell(name, own, units) for name, own in value.items()}
        return {name: own for name, own in found.items() if own not in (None, "", [], {}) and name.isidentifier()}
    return value


def _cell(name: str, value: Any, units: UnitSystem) -> Any:
    if not isinstance(value, str):
        return _rows(value, units)
    value = value.strip()
    if name == "count" and value.isdecimal() and len(value) <= MOST_DIGITS:
        return int(value)
    return value if name in WORDS else with_unit(value, UNIT_OF[units]["length"])


def text_of(answers: Mapping[str, Any]) -> str:
    """The commission's text; prices, which are asked nowhere here, go along.

    Parameters
    ----------
    answers : by dotted key.
    """
    prices = {name: value for name, value in answers.items() if name.startswith("prices.")}
    text = commission_text(answers)
    rows = "".join(f"{name.partition('.')[2]} = {toml_value(value)}\n" for name, value in prices.items())
    return text.replace(PRICES, PRICES + rows) if rows else text


def answers_of(text: str) -> dict[str, Any]:
    """What a commission answers, by dotted key, as it is written there.

    Parameters
    ----------
    text : the commission.
    """
    tables = toml_tables(text, "commission", "commission-not-toml", LONGEST)
    return {
        f"{table}.{name}": value
        for table, rows in tables.items()
        if isinstance(rows, dict)
        for name, value in rows.items()
    }
