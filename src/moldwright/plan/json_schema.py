"""JSON Schema of the plan, made from its dataclasses."""

from __future__ import annotations

import inspect
import types
from dataclasses import fields, is_dataclass
from enum import StrEnum
from typing import Any, get_args, get_origin

from moldwright.plan.json_text import json_name
from moldwright.plan.plan import SCHEMA_VERSION, Plan
from moldwright.store.walk import hints

DIALECT = "https://json-schema.org/draft/2020-12/schema"
UNITS = {
    "mm3": "mm³", "mm2": "mm²", "cm2": "cm²", "mm": "mm", "ml": "ml", "g": "g", "kg": "kg", "s": "s",
    "min": "min", "c": "°C", "pct": "%", "deg": "degrees",
}  # fmt: skip
PLAIN = {float: "number", int: "integer", str: "string", bool: "boolean"}


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
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return {"enum": [str(word) for word in hint]}
    return {"type": PLAIN[hint]}


def _tuple(kinds: tuple[Any, ...], shared: dict[str, Any]) -> dict[str, Any]:
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return {"type": "array", "items": _type(kinds[0], shared)}
    items = [_type(kind, shared) for kind in kinds]
    return {"type": "array", "prefixItems": items, "items": False, "minItems": len(items), "maxItems": len(items)}
