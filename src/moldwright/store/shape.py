"""What the type of a frozen dataclass's field is made of."""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from decimal import Decimal
from enum import Enum
from functools import lru_cache
from typing import Any, Literal, NewType, get_args, get_origin, get_type_hints

import numpy as np


@dataclass(frozen=True, slots=True)
class Record:
    """A dataclass and the types of its fields by name."""

    kind: type
    fields: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Many:
    """Any number of one type, as a tuple, a list or a frozenset."""

    item: Any
    make: type


@dataclass(frozen=True, slots=True)
class Row:
    """A tuple of so many, each of its own type."""

    items: tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A mapping."""

    key: Any
    item: Any


@dataclass(frozen=True, slots=True)
class Choice:
    """One of several types: None first, an integer before a float, a word before any text."""

    options: tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Fixed:
    """These values only (`Literal`): records of a choice that have such a field are told apart by it."""

    values: tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Word:
    """A member of an enumeration."""

    kind: type[Enum]


@dataclass(frozen=True, slots=True)
class Array:
    """A numpy array."""


@dataclass(frozen=True, slots=True)
class Plain:
    """A number, a text, bytes, a Decimal, None, True or False."""

    kind: type


Shape = Record | Many | Row | Table | Choice | Fixed | Word | Array | Plain
PLAIN = (types.NoneType, bool, int, float, Decimal, str, bytes)
NOTHING = Plain(types.NoneType)


@lru_cache(maxsize=256)
def hints(kind: type) -> dict[str, Any]:
    """The types of a dataclass's fields by name."""
    told = get_type_hints(kind)
    return {field.name: told[field.name] for field in fields(kind)}


@lru_cache(maxsize=1024)
def shape_of(hint: Any) -> Shape:
    """What a type is made of; TypeError for what can be neither kept nor read back.

    Parameters
    ----------
    hint : a dataclass, tuple, list, frozenset, dict, `X | Y`, `Literal`, an Enum, a NewType of these, an array, or a
        plain type.

    >>> shape_of(tuple[float, ...])
    Many(item=<class 'float'>, make=<class 'tuple'>)
    """
    while isinstance(hint, NewType):
        hint = hint.__supertype__
    origin, inner = get_origin(hint), get_args(hint)
    if origin is None:
        return _class_shape(hint)
    if origin is np.ndarray:
        return Array()
    if origin in (types.UnionType, typing.Union):
        return _choice(inner)
    if origin is Literal:
        return Fixed(inner)
    if origin in (tuple, list, frozenset):
        return _items(origin, inner)
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return Table(*inner)
    raise TypeError(f"{hint} can be neither kept nor read back")


def _items(origin: Any, inner: tuple[Any, ...]) -> Shape:
    if origin is tuple and inner[1:] != (Ellipsis,):
        return Row(inner)
    return Many(inner[0], origin)


def _class_shape(kind: Any) -> Shape:
    if kind is None:
        return NOTHING
    if kind is np.ndarray:
        return Array()
    if isinstance(kind, type) and is_dataclass(kind):
        return Record(kind, hints(kind))
    if isinstance(kind, type) and issubclass(kind, Enum):
        return Word(kind)
    if kind in PLAIN:
        return Plain(kind)
    raise TypeError(f"{kind} can be neither kept nor read back")


def _choice(options: tuple[Any, ...]) -> Choice:
    records = [shape for shape in map(shape_of, options) if isinstance(shape, Record)]
    if len({(*record.fields, *tags_of(record).values()) for record in records}) < len(records):
        raise TypeError(f"nothing tells {' and '.join(record.kind.__name__ for record in records)} apart")
    return Choice(tuple(sorted(options, key=lambda option: _rank(shape_of(option)))))


def _rank(shape: Shape) -> int:
    """None, what has a form of its own, then plain values from the narrow to the wide."""
    if isinstance(shape, Plain):
        place = PLAIN.index(shape.kind)
        return place and place + 1
    return 1


def tags_of(record: Record) -> dict[str, tuple[Any, ...]]:
    """The fields that can only hold fixed values, with these.

    Parameters
    ----------
    record : a dataclass's shape.
    """
    return {name: get_args(hint) for name, hint in record.fields.items() if get_origin(hint) is Literal}
