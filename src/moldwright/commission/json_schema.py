"""JSON Schema of a commission's TOML as it is written, made from the keys' table."""

from __future__ import annotations

from typing import Any

from moldwright.commission.coats import MOST_COATS
from moldwright.commission.keys import ORDERS, Key, ValueKind, keys
from moldwright.commission.values import LONGEST_COAT, LONGEST_TEXT, UPS
from moldwright.units.tables import EXAMPLE

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def commission_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of a commission's TOML as it is written: quantities are text with their unit."""
    tables = {name: _table(rows) for name, rows in keys().items()}
    prices = {
        "type": "object",
        "description": "price of one pack by a material's id, as text",
        "additionalProperties": {
            "type": "string",
            "pattern": r"^\s*[0-9]{1,9}([.,][0-9]{1,2})?\s*$",
            "examples": ["14.50"],
        },
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
    return {
        "type": "object",
        "properties": {name: _written(key) for name, key in rows.items()},
        **({"required": required} if required else {}),
        "additionalProperties": False,
    }


def _written(key: Key) -> dict[str, Any]:
    about = {
        "title": key.name,
        "description": _bounds(key),
        **({"examples": [key.example]} if key.example is not None else {}),
    }
    if key.kind is ValueKind.CHOICE:
        spellings = [
            c for choice in key.choices for c in dict.fromkeys((str(choice), choice.upper(), choice.capitalize()))
        ]
        return {"enum": spellings, **about}
    if key.kind in (ValueKind.COUNT, ValueKind.SWITCH):
        return {**_plain(key), **about}
    if key.kind is ValueKind.DIRECTION:
        axis = {"enum": [*UPS, *(up[1:] for up in UPS if up[0] == "+")]}
        numbers = {"type": "array", "items": {"type": "number"}, "minItems": 3, "maxItems": 3}
        return {"anyOf": [axis, numbers], **about}
    if key.kind is ValueKind.COATS:
        return {"type": "array", "minItems": 1, "maxItems": MOST_COATS, "items": _coat(), **about}
    if key.kind in EXAMPLE and (key.low or 0) <= 0 and key.kind is not ValueKind.TEMPERATURE:
        return {"anyOf": [{"type": "string"}, {"const": 0}], **about}
    return {"type": "string", "minLength": 1, "maxLength": LONGEST_TEXT, **about}


def _plain(key: Key) -> dict[str, Any]:
    """A whole number, or true and false."""
    if key.kind is ValueKind.SWITCH:
        return {"type": "boolean"}
    return {"type": "integer", "minimum": key.low, "maximum": key.high}


def _coat() -> dict[str, Any]:
    return {
        "type": "object",
        "properties": {
            "name": {"type": "string", "minLength": 1, "maxLength": LONGEST_COAT},
            "thickness": {"type": "string", "description": f"a length such as {EXAMPLE['length']}"},
        },
        "required": ["name", "thickness"],
        "additionalProperties": False,
    }


def _bounds(key: Key) -> str:
    quantity = f"; a {key.kind} such as {EXAMPLE[key.kind]}" if key.kind in EXAMPLE else ""
    bounds = f"; {key.limits}" if key.limits else ""
    return f"{key.about}{quantity}{bounds}"
