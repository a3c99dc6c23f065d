"""JSON Schema of a commission's TOML as it is written, made from the keys' table."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from moldwright.commission.coats import MOST_COATS
from moldwright.commission.keys import ORDERS, Key, ValueKind, keys, record_keys
from moldwright.commission.reading import SOURCES
from moldwright.commission.refusals import LONGEST_TEXT
from moldwright.commission.values import LONGEST_COAT, UPS
from moldwright.units.unclear import EXAMPLE

MONEY = {"type": "string", "pattern": r"^\s*[0-9]{1,9}([.,][0-9]{1,2})?\s*$"}
DIALECT = "https://json-schema.org/draft/2020-12/schema"


def commission_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of a commission's TOML as it is written: quantities are text with their unit."""
    tables = {name: _table(rows) for name, rows in keys().items()}
    tables["original"]["anyOf"] = [{"required": [name]} for name in SOURCES]
    prices = {
        "type": "object",
        "description": "price of one pack by a material's id, as text",
        "additionalProperties": {**MONEY, "examples": ["14.50"]},
    }
    return {
        "$schema": DIALECT,
        "title": "Moldwright commission",
        "type": "object",
        "properties": {**{name: tables[name] for name in ORDERS}, "prices": prices},
        "required": ["original"],
        "additionalProperties": False,
    }


def _table(rows: dict[str, Key]) -> dict[str, Any]:
    required = [key.name for key in rows.values() if key.required]
    needs = {key.name: [key.needs] for key in rows.values() if key.needs}
    return {
        "type": "object",
        "properties": {name: _written(key) for name, key in rows.items()},
        **({"required": required} if required else {}),
        **({"dependentRequired": needs} if needs else {}),
        "additionalProperties": False,
    }


def _written(key: Key) -> dict[str, Any]:
    about = {
        "title": key.name,
        "description": _bounds(key),
        **({"examples": [key.example]} if key.example is not None else {}),
    }
    return {**_value(key), **about}


def _value(key: Key) -> dict[str, Any]:
    if key.kind in _OF_KIND:
        return _OF_KIND[key.kind](key)
    if key.kind in EXAMPLE and (key.low or 0) <= 0 and key.kind is not ValueKind.TEMPERATURE:
        return {"anyOf": [{"type": "string"}, {"const": 0}]}
    return {"type": "string", "minLength": 1, "maxLength": LONGEST_TEXT}


def _choice(key: Key) -> dict[str, Any]:
    cases = [(str(choice), choice.upper(), choice.capitalize()) for choice in key.choices]
    return {"enum": [spelled for each in cases for spelled in dict.fromkeys(each)]}


def _direction(key: Key) -> dict[str, Any]:
    axis = {"enum": [*UPS, *(up[1:] for up in UPS if up[0] == "+")]}
    numbers = {"type": "array", "items": {"type": "number"}, "minItems": 3, "maxItems": 3}
    return {"anyOf": [axis, numbers]}


def _list(items: dict[str, Any], most: int) -> dict[str, Any]:
    return {"type": "array", "minItems": 1, "maxItems": most, "items": items}


def _length() -> dict[str, Any]:
    return {"type": "string", "description": f"a length such as {EXAMPLE['length']}"}


def _coat() -> dict[str, Any]:
    return {
        "type": "object",
        "properties": {
            "name": {"type": "string", "minLength": 1, "maxLength": LONGEST_COAT},
            "thickness": _length(),
        },
        "required": ["name", "thickness"],
        "additionalProperties": False,
    }


def _bounds(key: Key) -> str:
    quantity = f"; a {key.kind} such as {EXAMPLE[key.kind]}" if key.kind in EXAMPLE else ""
    bounds = f"; {key.limits}" if key.limits else ""
    return f"{key.about}{quantity}{bounds}"


_OF_KIND: dict[ValueKind, Callable[[Key], dict[str, Any]]] = {
    ValueKind.CHOICE: _choice,
    ValueKind.SWITCH: lambda key: {"type": "boolean"},
    ValueKind.COUNT: lambda key: {"type": "integer", "minimum": key.low, "maximum": key.high},
    ValueKind.DIRECTION: _direction,
    ValueKind.MONEY: lambda key: dict(MONEY),
    ValueKind.COATS: lambda key: _list(_coat(), MOST_COATS),
    ValueKind.NAMES: lambda key: _list({"type": "string", "minLength": 1, "maxLength": LONGEST_TEXT}, key.most),
    ValueKind.LENGTHS: lambda key: _list(_length(), key.most),
    ValueKind.RECORD: lambda key: _table(record_keys()[key.of]),
    ValueKind.RECORDS: lambda key: _list(_table(record_keys()[key.of]), key.most),
}
