"""JSON Schemas of the plan and of the commission as it is written, made from the dataclasses and the keys' table."""

from __future__ import annotations

import inspect
import types
from dataclasses import fields, is_dataclass
from typing import Any, get_args, get_origin

from moldwright.job.keys import ORDERS, Key, keys
from moldwright.job.plan import SCHEMA_VERSION, Plan
from moldwright.job.plan_json import hints, json_name
from moldwright.job.values import MOST_COATS, UPS
from moldwright.units.tables import EXAMPLE

DIALECT = "https://json-schema.org/draft/2020-12/schema"
UNITS = {
    "mm3": "mm³", "mm2": "mm²", "cm2": "cm²", "mm": "mm", "ml": "ml", "g": "g", "kg": "kg", "s": "s",
    "min": "min", "c": "°C", "pct": "%", "deg": "degrees",
}  # fmt: skip
PLAIN = {float: "number", int: "integer", str: "string", bool: "boolean"}


def schemas() -> dict[str, Any]:
    """Both schemas, as `moldwright plan --schema` prints them.

    >>> sorted(schemas())
    ['commission', 'plan']
    """
    return {"plan": plan_schema(), "commission": commission_schema()}


def plan_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of plan.json."""
    shared: dict[str, Any] = {}
    top = _object(Plan, shared)
    stages = [json_name(f.name) for f in fields(Plan) if _optional(hints(Plan)[f.name])]
    top["required"] = [name for name in top["required"] if name not in stages]
    for name in stages:
        top["properties"][name] = _without_null(top["properties"][name])
    top["properties"]["schema_version"] = {"const": SCHEMA_VERSION, "description": "version of this schema"}
    return {"$schema": DIALECT, "title": "Moldwright plan", **top, "$defs": shared}


def _optional(kind: Any) -> bool:
    return isinstance(kind, types.UnionType) and types.NoneType in get_args(kind)


def _without_null(schema: dict[str, Any]) -> dict[str, Any]:
    rest = [option for option in schema["anyOf"] if option != {"type": "null"}]
    return {**{k: v for k, v in schema.items() if k != "anyOf"}, **rest[0]}


def _object(kind: Any, shared: dict[str, Any]) -> dict[str, Any]:
    properties = {json_name(name): _field(name, hint, shared) for name, hint in hints(kind).items()}
    about = " ".join((inspect.getdoc(kind) or "").split())
    described = {} if about.startswith(f"{kind.__name__}(") else {"description": about}
    return {
        "type": "object",
        **described,
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }


def _field(name: str, hint: Any, shared: dict[str, Any]) -> dict[str, Any]:
    schema = _type(hint, shared)
    unit = UNITS.get(name.rpartition("_")[2]) if "_" in name else None
    title = json_name(name).removesuffix("_" + name.rpartition("_")[2] if unit else "").replace("_", " ")
    return {"title": title, **schema, **({"description": f"in {unit}", "x-unit": unit} if unit else {})}


def _type(hint: Any, shared: dict[str, Any]) -> dict[str, Any]:
    if is_dataclass(hint):
        name = getattr(hint, "__name__", "")
        if name not in shared:
            shared[name] = {}
            shared[name] = _object(hint, shared)
        return {"$ref": f"#/$defs/{name}"}
    if isinstance(hint, types.UnionType):
        return {"anyOf": [{"type": "null"} if k is types.NoneType else _type(k, shared) for k in get_args(hint)]}
    if get_origin(hint) is tuple:
        return _tuple(get_args(hint), shared)
    return {"type": PLAIN[hint]}


def _tuple(kinds: tuple[Any, ...], shared: dict[str, Any]) -> dict[str, Any]:
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return {"type": "array", "items": _type(kinds[0], shared)}
    items = [_type(kind, shared) for kind in kinds]
    return {"type": "array", "prefixItems": items, "items": False, "minItems": len(items), "maxItems": len(items)}


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
    if key.kind == "choice":
        spellings = [c for choice in key.choices for c in dict.fromkeys((choice, choice.upper(), choice.capitalize()))]
        return {"enum": spellings, **about}
    if key.kind == "count":
        return {"type": "integer", "minimum": key.low, "maximum": key.high, **about}
    if key.kind == "direction":
        axis = {"enum": [*UPS, *(up[1:] for up in UPS if up[0] == "+")]}
        numbers = {"type": "array", "items": {"type": "number"}, "minItems": 3, "maxItems": 3}
        return {"anyOf": [axis, numbers], **about}
    if key.kind == "coats":
        return {"type": "array", "minItems": 1, "maxItems": MOST_COATS, "items": _coat(), **about}
    if key.kind in EXAMPLE and (key.low or 0) <= 0 and key.kind != "temperature":
        return {"anyOf": [{"type": "string"}, {"const": 0}], **about}
    return {"type": "string", "minLength": 1, **about}


def _coat() -> dict[str, Any]:
    return {
        "type": "object",
        "properties": {
            "name": {"type": "string", "minLength": 1, "maxLength": 40},
            "thickness": {"type": "string", "description": f"a length such as {EXAMPLE['length']}"},
        },
        "required": ["name", "thickness"],
        "additionalProperties": False,
    }


def _bounds(key: Key) -> str:
    quantity = f"; a {key.kind} such as {EXAMPLE[key.kind]}" if key.kind in EXAMPLE else ""
    share = 100 if key.kind == "share" else 1
    unit = "%" if key.kind == "share" else key.unit
    bounds = ""
    if key.low is not None and key.high is not None and key.kind != "coats":
        bounds = f"; {key.low * share:g} to {key.high * share:g} {unit}".rstrip()
    return f"{key.about}{quantity}{bounds}"
