"""The plan as JSON text and back: always the same bytes for the same plan."""

from __future__ import annotations

import json
import math
import types
from dataclasses import fields, is_dataclass
from enum import StrEnum
from typing import Any, get_args, get_origin

from moldwright.errors import ComputationFailed, InputRefused
from moldwright.plan.plan import SCHEMA_VERSION, Plan
from moldwright.store.walk import hints

FIGURES = 7
SMALLEST = 1e-9


def plan_to_json(plan: Plan) -> str:
    """The text of plan.json: keys in the contract's order, floats at seven significant figures.

    Parameters
    ----------
    plan : the whole plan. A stage of the plan that is None is left out; None deeper in is null.
    """
    tree = {key: value for key, value in tree_of(plan).items() if value is not None}
    return json.dumps(tree, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def plan_from_json(text: str) -> Plan:
    """The plan that `plan_to_json` wrote; another version or a torn file is refused.

    Parameters
    ----------
    text : the content of a plan.json.
    """
    try:
        tree = json.loads(text)
        version = tree["schema_version"]
    except (ValueError, KeyError, TypeError, RecursionError):
        raise InputRefused("plan-unreadable", "no plan.json", "a plan", "", "Plan the commission again.") from None
    if version != SCHEMA_VERSION:
        remedy = "Plan the commission again with this version."
        raise InputRefused("plan-version", str(version)[:40], SCHEMA_VERSION, "", remedy)
    plan = from_tree(Plan, tree, "plan")
    assert isinstance(plan, Plan)
    return plan


def json_name(field: str) -> str:
    """The JSON key of a field: `for_` -> `for`.

    >>> json_name("for_")
    'for'
    """
    return field.rstrip("_")


def rounded(value: float) -> float:
    """A float at seven significant figures, what is nothing as 0.0; not finite: `ComputationFailed`.

    >>> rounded(12.3456789012), rounded(-1e-15)
    (12.34568, 0.0)
    """
    if not math.isfinite(value):
        raise ComputationFailed(
            "number-not-finite", str(value), "a finite number", "", "Please report this commission."
        )
    return 0.0 if abs(value) < SMALLEST else float(f"{value:.{FIGURES}g}")


def tree_of(value: Any) -> Any:
    """Frozen dataclasses, tuples and numbers -> dicts, lists and rounded numbers."""
    if is_dataclass(value) and not isinstance(value, type):
        return {json_name(f.name): tree_of(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, list | tuple):
        return [tree_of(item) for item in value]
    return rounded(value) if isinstance(value, float) else value


def from_tree(kind: Any, tree: Any, where: str) -> Any:
    """The value of a type from its JSON tree.

    Parameters
    ----------
    kind : a dataclass, tuple, `X | None`, float, int, str or bool.
    tree : what JSON gave.
    where : the path, named in the refusal.
    """
    if is_dataclass(kind):
        return _dataclass_from(kind, tree, where)
    if isinstance(kind, types.UnionType):
        inner = next(k for k in get_args(kind) if k is not types.NoneType)
        return None if tree is None else from_tree(inner, tree, where)
    if get_origin(kind) is tuple:
        return _tuple_from(get_args(kind), tree, where)
    if kind is float and isinstance(tree, int) and not isinstance(tree, bool):
        return float(tree)
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return _word_from(kind, tree, where)
    if type(tree) is not kind:
        raise _torn(where)
    return tree


def _word_from(kind: type[StrEnum], tree: Any, where: str) -> StrEnum:
    try:
        return kind(tree)
    except ValueError:
        raise _torn(where) from None


def _dataclass_from(kind: Any, tree: Any, where: str) -> Any:
    if not isinstance(tree, dict):
        raise _torn(where)
    return kind(
        **{name: from_tree(hint, tree.get(json_name(name)), f"{where}.{json_name(name)}")
           for name, hint in hints(kind).items()}
    )  # fmt: skip


def _tuple_from(kinds: tuple[Any, ...], tree: Any, where: str) -> tuple[Any, ...]:
    if not isinstance(tree, list):
        raise _torn(where)
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return tuple(from_tree(kinds[0], item, f"{where}[{n}]") for n, item in enumerate(tree))
    if len(kinds) != len(tree):
        raise _torn(where)
    return tuple(from_tree(k, item, f"{where}[{n}]") for n, (k, item) in enumerate(zip(kinds, tree, strict=True)))


def _torn(where: str) -> InputRefused:
    return InputRefused("plan-unreadable", where, "a plan written by this version", "", "Plan the commission again.")
