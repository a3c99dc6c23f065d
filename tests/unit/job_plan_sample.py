"""A made-up plan with a value in every field, for tests that need one: its numbers mean nothing."""

from __future__ import annotations

import types
from dataclasses import is_dataclass
from decimal import Decimal
from enum import StrEnum
from itertools import count
from typing import Any, NewType, Union, get_args, get_origin

from moldwright.plan.plan import SCHEMA_VERSION, Plan
from moldwright.ranges import Range
from moldwright.store.shape import hints


def sample_plan() -> Plan:
    numbers = count(1)
    values = {name: _made(hint, numbers) for name, hint in hints(Plan).items()}
    return Plan(**{**values, "schema_version": SCHEMA_VERSION})


def _made(kind: Any, numbers: Any) -> Any:  # noqa: PLR0911
    if kind is Range:
        n = next(numbers)
        return Range(n - 0.25, n * 1.0, n + 0.5)
    if isinstance(kind, NewType):
        return f"id-{next(numbers)}"
    if is_dataclass(kind) and isinstance(kind, type):
        return kind(**{name: _made(hint, numbers) for name, hint in hints(kind).items()})
    if get_origin(kind) in (types.UnionType, Union):
        kinds = [each for each in get_args(kind) if each is not types.NoneType]
        return _made(kinds[next(numbers) % len(kinds)], numbers)
    if get_origin(kind) is tuple:
        inner = get_args(kind)
        kinds = (inner[0], inner[0]) if inner[1] is Ellipsis else inner
        return tuple(_made(k, numbers) for k in kinds)
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return list(kind)[next(numbers) % len(kind)]
    n = next(numbers)
    return {float: n + 0.5, int: n, str: f"text {n} · é", bool: True, Decimal: Decimal(n) / 100}[kind]
