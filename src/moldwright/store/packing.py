"""Frozen dataclasses with numpy arrays as bytes and back: a JSON tree and the arrays in one npz, no pickle."""

from __future__ import annotations

import io
import json
import types
import typing
from collections.abc import Mapping
from dataclasses import is_dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Any, TypeVar, get_args, get_origin

import numpy as np

from moldwright.store.walk import hints

T = TypeVar("T")
Arrays = dict[str, np.ndarray[Any, Any]]


def pack(value: Any) -> bytes:
    """The bytes of a frozen dataclass.

    Parameters
    ----------
    value : nested dataclasses, tuples, string-keyed dicts, numbers, texts, None and arrays of numbers.
    """
    arrays: Arrays = {}
    tree = json.dumps(_tree(value, arrays))
    held = io.BytesIO()
    np.savez(held, tree=np.frombuffer(tree.encode(), dtype=np.uint8), **arrays)  # type: ignore[arg-type]
    return held.getvalue()


def unpack(kind: type[T], packed: bytes) -> T:
    """The value of that class from its bytes; ValueError where they hold another.

    Parameters
    ----------
    kind : the class that was packed.
    packed : what `pack` made.
    """
    try:
        with np.load(io.BytesIO(packed), allow_pickle=False) as held:
            arrays = {name: held[name] for name in held.files}
        value = _value(kind, json.loads(bytes(arrays.pop("tree"))), arrays)
    except Exception as error:
        raise ValueError(f"not a kept {kind.__name__}") from error
    if not isinstance(value, kind):
        raise ValueError(f"not a kept {kind.__name__}")
    return value


def _tree(value: Any, arrays: Arrays) -> Any:
    if isinstance(value, np.ndarray):
        return _array(value, arrays)
    if is_dataclass(value) and not isinstance(value, type):
        return {name: _tree(getattr(value, name), arrays) for name in hints(type(value))}
    if isinstance(value, dict):
        return {str(key): _tree(item, arrays) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [_tree(item, arrays) for item in value]
    return _atom(value)


def _array(value: np.ndarray[Any, Any], arrays: Arrays) -> dict[str, str]:
    if value.dtype.hasobject:
        raise TypeError("an array of objects cannot be kept")
    name = f"a{len(arrays)}"
    arrays[name] = value
    return {"array": name}


def _atom(value: Any) -> Any:
    if isinstance(value, np.generic):
        return value.item()
    if isinstance(value, Decimal):
        return str(value)
    if value is None or isinstance(value, bool | int | float | str):
        return value
    raise TypeError(f"{type(value).__name__} cannot be kept")


def _value(kind: Any, tree: Any, arrays: Arrays) -> Any:
    origin, inner = get_origin(kind), get_args(kind)
    if origin is np.ndarray or kind is np.ndarray:
        return arrays[tree["array"]]
    if is_dataclass(kind) and isinstance(kind, type):
        return kind(**{name: _value(hint, tree[name], arrays) for name, hint in hints(kind).items()})
    if origin in (types.UnionType, typing.Union):
        return _one_of(inner, tree, arrays)
    if origin in (tuple, list):
        return _items(origin, inner, tree, arrays)
    if origin in (dict, Mapping):
        return {key: _value(inner[1], item, arrays) for key, item in tree.items()}
    return _plain(kind, tree)


def _plain(kind: Any, tree: Any) -> Any:
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return kind(tree)
    if kind is Decimal:
        return Decimal(tree)
    if kind is float and type(tree) is int:
        return float(tree)
    if type(tree) is not kind:
        raise ValueError(f"{kind} expected")
    return tree


def _one_of(kinds: tuple[Any, ...], tree: Any, arrays: Arrays) -> Any:
    for kind in kinds:
        try:
            return _value(kind, tree, arrays)
        except (ValueError, TypeError, KeyError, AttributeError, ArithmeticError):
            continue
    raise ValueError("none of the kinds fits")


def _items(origin: Any, inner: tuple[Any, ...], tree: Any, arrays: Arrays) -> Any:
    if not isinstance(tree, list):
        raise ValueError("a list expected")
    if origin is list or (len(inner) == 2 and inner[1] is Ellipsis):
        return origin(_value(inner[0], item, arrays) for item in tree)
    return tuple(_value(kind, item, arrays) for kind, item in zip(inner, tree, strict=True))
