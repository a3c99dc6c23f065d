"""The plan as JSON text and back: always the same bytes for the same plan."""

from __future__ import annotations

import json
import math
from dataclasses import Field, replace
from decimal import Decimal
from enum import Enum
from typing import Any

import numpy as np

from moldwright.errors import ComputationFailed, InputRefused
from moldwright.plan.plan import OLDEST_READ, SCHEMA_VERSION, Plan
from moldwright.plan.rough import RoughPlan
from moldwright.store.walk import Reader, Torn, fold, leaf_of, read

FIGURES = 7
SMALLEST = 1e-9


def plan_to_json(plan: Plan) -> str:
    """The text of plan.json: keys in the contract's order, floats at seven significant figures.

    Parameters
    ----------
    plan : the whole plan. A stage of the plan that is None is left out; None deeper in is null.
    """
    return text_of(plan_tree(plan))


def plan_tree(plan: Plan | RoughPlan) -> dict[str, Any]:
    """The plan as dicts, lists and rounded numbers; stages that are None are left out.

    Parameters
    ----------
    plan : the whole plan, or quantities alone.
    """
    return {key: value for key, value in tree_of(plan).items() if value is not None}


def text_of(tree: dict[str, Any]) -> str:
    """The text of a tree, as plan.json is written.

    Parameters
    ----------
    tree : from `plan_tree`.
    """
    return json.dumps(tree, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def plan_from_json(text: str) -> Plan:
    """The plan that `plan_to_json` wrote, in this version or an earlier one since `OLDEST_READ`; others, and a torn
    file, are refused.

    Parameters
    ----------
    text : the content of a plan.json.
    """
    try:
        tree = json.loads(text)
        version = tree["schema_version"]
    except (ValueError, KeyError, TypeError, RecursionError):
        raise InputRefused("plan-unreadable", "no plan.json", "a plan", "", "Plan the commission again.") from None
    if "lacks" in tree:
        remedy = "Write a tape, photos or a scan into the commission and plan it again: they give the form."
        raise InputRefused("quantities-only", "quantities by water or weight alone", "a plan", "", remedy)
    if type(version) is not int or not OLDEST_READ <= version <= SCHEMA_VERSION:
        remedy = "Plan the commission again with this version."
        raise InputRefused("plan-version", str(version)[:40], SCHEMA_VERSION, "", remedy)
    plan = from_tree(Plan, tree, "plan", defaults=version != SCHEMA_VERSION)
    assert isinstance(plan, Plan)
    return plan if version == SCHEMA_VERSION else replace(plan, schema_version=SCHEMA_VERSION)


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
    """Frozen dataclasses, tuples, mappings and numbers -> dicts, lists and rounded numbers."""
    return fold(value, _JsonFolder())


def from_tree(kind: Any, tree: Any, where: str, defaults: bool = False) -> Any:
    """The value of a type from its JSON tree; InputRefused where it holds another.

    Parameters
    ----------
    kind : a type that `store.shape` knows.
    tree : what JSON gave.
    where : the path, named in the refusal.
    defaults : a field that is missing has its default, where it has one.
    """
    try:
        return read(kind, tree, _JsonReader(defaults), where)
    except Torn as torn:
        limit, remedy = "a plan written by this version", "Plan the commission again."
        raise InputRefused("plan-unreadable", str(torn), limit, "", remedy) from None


class _JsonFolder:
    """JSON's own types; floats rounded, money as text, sets in order."""

    def keeps(self, field: Field[Any]) -> bool:
        return True

    def record(self, kind: type, parts: dict[str, Any]) -> Any:
        return {json_name(name): part for name, part in parts.items()}

    def many(self, kind: type, parts: list[Any]) -> Any:
        return parts if issubclass(kind, tuple | list) else sorted(parts, key=str)

    def table(self, parts: list[tuple[Any, Any]]) -> Any:
        return dict(parts)

    def array(self, value: np.ndarray[Any, Any]) -> Any:
        raise TypeError("a plan holds no arrays")

    def word(self, value: Enum) -> Any:
        return leaf_of(value)

    def plain(self, value: Any) -> Any:
        if isinstance(value, Decimal):
            return str(value)
        return rounded(value) if isinstance(value, float) else value


class _JsonReader(Reader):
    def __init__(self, defaults: bool) -> None:
        self.defaults = defaults

    def name(self, field: str) -> str:
        return json_name(field)

    def plain(self, kind: type, tree: Any) -> Any:
        return Decimal(tree) if kind is Decimal else super().plain(kind, tree)
