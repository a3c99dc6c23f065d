"""JSON Schemas of the plan and of quantities alone, made from their dataclasses."""

from __future__ import annotations

import inspect
import types
from decimal import Decimal
from typing import Any

from moldwright.plan.json_text import json_name
from moldwright.plan.plan import SCHEMA_VERSION, Plan
from moldwright.plan.rough import ROUGH_VERSION, RoughPlan
from moldwright.store.shape import NOTHING, Array, Choice, Fixed, Many, Plain, Record, Row, Table, Word, hints, shape_of
from moldwright.store.walk import leaf_of

DIALECT = "https://json-schema.org/draft/2020-12/schema"
UNITS = {
    "mm3": "mm³", "mm2": "mm²", "cm2": "cm²", "mm": "mm", "ml": "ml", "g": "g", "kg": "kg", "s": "s",
    "min": "min", "c": "°C", "pct": "%", "deg": "degrees",
}  # fmt: skip
PLAIN = {
    float: "number", int: "integer", str: "string", bool: "boolean", Decimal: "string", types.NoneType: "null",
}  # fmt: skip


def plan_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of plan.json."""
    return _schema(Plan, SCHEMA_VERSION, "Moldwright plan")


def quantities_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of quantities.json."""
    return _schema(RoughPlan, ROUGH_VERSION, "Moldwright quantities")


def _schema(kind: type, version: int, title: str) -> dict[str, Any]:
    shared: dict[str, Any] = {}
    top = _object(Record(kind, hints(kind)), shared)
    stages = [json_name(name) for name, hint in hints(kind).items() if _optional(hint)]
    top["required"] = [name for name in top["required"] if name not in stages]
    for name in stages:
        top["properties"][name] = _without_null(top["properties"][name])
    top["properties"]["schema_version"] = {"const": version, "description": "version of this schema"}
    return {"$schema": DIALECT, "title": title, **top, "$defs": shared}


def _optional(hint: Any) -> bool:
    shape = shape_of(hint)
    return isinstance(shape, Choice) and NOTHING in map(shape_of, shape.options)


def _without_null(schema: dict[str, Any]) -> dict[str, Any]:
    rest = [option for option in schema["anyOf"] if option != {"type": "null"}]
    return {**{k: v for k, v in schema.items() if k != "anyOf"}, **rest[0]}


def _object(record: Record, shared: dict[str, Any]) -> dict[str, Any]:
    properties = {json_name(name): _field(name, hint, shared) for name, hint in record.fields.items()}
    required = list(properties)
    if told := getattr(record.kind, "IN_WORDS", ""):
        properties[told] = {"type": "string", "description": "in words, in the plan's units; the values count"}
    about = " ".join((inspect.getdoc(record.kind) or "").split())
    described = {} if about.startswith(f"{record.kind.__name__}(") else {"description": about}
    return {
        "type": "object",
        **described,
        "properties": properties,
        "required": required,
        "additionalProperties": False,
    }


def _field(name: str, hint: Any, shared: dict[str, Any]) -> dict[str, Any]:
    schema = _type(hint, shared)
    unit = UNITS.get(name.rpartition("_")[2]) if "_" in name else None
    title = json_name(name).removesuffix("_" + name.rpartition("_")[2] if unit else "").replace("_", " ")
    return {"title": title, **schema, **({"description": f"in {unit}", "x-unit": unit} if unit else {})}


def _type(hint: Any, shared: dict[str, Any]) -> dict[str, Any]:  # noqa: PLR0911
    match shape_of(hint):
        case Record(kind) as record:
            if kind.__name__ not in shared:
                shared[kind.__name__] = {}
                shared[kind.__name__] = _object(record, shared)
            return {"$ref": f"#/$defs/{kind.__name__}"}
        case Choice(options):
            return {"anyOf": [_type(option, shared) for option in options]}
        case Many(item, _):
            return {"type": "array", "items": _type(item, shared)}
        case Row(items):
            return _row([_type(item, shared) for item in items])
        case Table(_, item):
            return {"type": "object", "additionalProperties": _type(item, shared)}
        case Word(kind):
            return {"enum": [leaf_of(word) for word in kind]}
        case Fixed(values):
            return {"enum": [leaf_of(value) for value in values]}
        case Plain(kind):
            return {"type": PLAIN[kind]}
        case Array():
            raise TypeError("a plan holds no arrays")


def _row(items: list[dict[str, Any]]) -> dict[str, Any]:
    return {"type": "array", "prefixItems": items, "items": False, "minItems": len(items), "maxItems": len(items)}
