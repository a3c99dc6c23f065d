"""One walk over frozen dataclasses: a value folded up from its parts, and read back from the tree that came of it.

Hashing, packing, the plan's JSON and its schema are four uses of it; none looks into a type or a value by itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any, Protocol, TypeVar

import numpy as np

from moldwright.store.shape import (
    NOTHING,
    PLAIN,
    Array,
    Choice,
    Fixed,
    Many,
    Plain,
    Record,
    Row,
    Shape,
    Table,
    Word,
    hints,
    shape_of,
    tags_of,
)

__all__ = ["Folder", "Reader", "Torn", "fold", "hints", "read"]
R = TypeVar("R")


class Folder(Protocol[R]):
    """What a value becomes, from what its parts became. `keeps(field)`: whether a field is a part."""

    def keeps(self, field: Any) -> bool: ...

    def record(self, kind: type, parts: dict[str, R]) -> R: ...

    def many(self, kind: type, parts: list[R]) -> R: ...

    def table(self, parts: list[tuple[R, R]]) -> R: ...

    def array(self, value: np.ndarray[Any, Any]) -> R: ...

    def word(self, value: Enum) -> R: ...

    def plain(self, value: Any) -> R: ...


def fold(value: Any, folder: Folder[R]) -> R:
    """A value folded up from its parts; TypeError for what has no stable form.

    Parameters
    ----------
    value : dataclasses, tuples, lists, sets, mappings, arrays, enumerations, plain values, nested.
    folder : what each becomes.
    """
    kind: Any = type(value)
    if kind in PLAIN:
        return folder.plain(value)
    parts = _parts_of(kind)
    if parts is not None:
        kept = [f.name for f in parts if folder.keeps(f)]
        return folder.record(kind, {name: fold(getattr(value, name), folder) for name in kept})
    if kind is tuple or kind is list:
        return folder.many(kind, [fold(item, folder) for item in value])
    if kind is dict:
        return folder.table([(fold(key, folder), fold(item, folder)) for key, item in value.items()])
    return _fold_rarer(value, folder)


def _fold_rarer(value: Any, folder: Folder[R]) -> R:
    if isinstance(value, np.ndarray) and not value.dtype.hasobject:
        return folder.array(value)
    if isinstance(value, Mapping):
        return folder.table([(fold(key, folder), fold(item, folder)) for key, item in value.items()])
    if isinstance(value, tuple | list | AbstractSet):
        return folder.many(type(value), [fold(item, folder) for item in value])
    if isinstance(value, Enum):
        return folder.word(value)
    plain = value.item() if isinstance(value, np.generic) else value
    if type(plain) not in PLAIN:
        raise TypeError(f"{type(value).__name__} has no stable form")
    return folder.plain(plain)


@cache
def _parts_of(kind: Any) -> tuple[Field[Any], ...] | None:
    """The fields of a dataclass; None for what is none. A value is asked for its type's once, not each time."""
    return fields(kind) if is_dataclass(kind) else None


class Torn(ValueError):
    """A tree that does not hold what its type asks for; the text is the place."""


class Reader:
    """How the leaves of a tree are read; the walk reads the rest. What a leaf raises is told as `Torn`.

    `defaults`: a field that the tree lacks has its default, where it has one.
    """

    defaults: bool = False

    def name(self, field: str) -> str:
        """The key of a field in the tree."""
        return field

    def array(self, tree: Any) -> Any:
        """An array from what stands for it."""
        raise TypeError("no array here")

    def plain(self, kind: type, tree: Any) -> Any:
        """A plain value of exactly that type; an integer serves as a float."""
        if kind is float and type(tree) is int:
            return float(tree)
        if type(tree) is not kind:
            raise TypeError(f"{kind.__name__} expected")
        return tree


def read(hint: Any, tree: Any, reader: Reader, where: str = "") -> Any:
    """The value of a type from a tree of dicts, lists and leaves; `Torn` where it holds another.

    Parameters
    ----------
    hint : the type.
    tree : what a folder made of such a value.
    reader : how leaves are read.
    where : the path so far.
    """
    try:
        return _read(shape_of(hint), tree, reader, where)
    except Torn:
        raise
    except (ValueError, TypeError, LookupError, AttributeError, ArithmeticError) as error:
        raise Torn(where) from error


def _read(shape: Shape, tree: Any, reader: Reader, where: str) -> Any:  # noqa: PLR0911
    match shape:
        case Record():
            return _record(shape, tree, reader, where)
        case Choice():
            return read(_chosen(shape, tree, reader), tree, reader, where)
        case Many(item, make):
            return make([read(item, part, reader, f"{where}[{n}]") for n, part in enumerate(_listed(tree))])
        case Row(items):
            pairs = enumerate(zip(items, _listed(tree), strict=True))
            return tuple(read(item, part, reader, f"{where}[{n}]") for n, (item, part) in pairs)
        case Table(key, item):
            return {read(key, k, reader, where): read(item, part, reader, f"{where}.{k}") for k, part in tree.items()}
        case Array():
            return reader.array(tree)
        case Plain(kind):
            return reader.plain(kind, tree)
        case Word(kind):
            return _member(tuple(kind), tree)
        case Fixed(values):
            return _member(values, tree)


def _record(shape: Record, tree: Any, reader: Reader, where: str) -> Any:
    parts = {name: (reader.name(name), hint) for name, hint in shape.fields.items()}
    if reader.defaults:
        lacking = {f.name for f in fields(shape.kind) if f.default is not MISSING and reader.name(f.name) not in tree}
        parts = {name: part for name, part in parts.items() if name not in lacking}
    return shape.kind(
        **{name: read(hint, tree.get(key), reader, f"{where}.{key}") for name, (key, hint) in parts.items()}
    )


def _listed(tree: Any) -> list[Any]:
    if not isinstance(tree, list):
        raise TypeError("a list expected")
    return tree


def _member(values: tuple[Any, ...], tree: Any) -> Any:
    """The value that is written so: a word of text by its value, any other member by its name."""
    return {leaf_of(value): value for value in values}[tree]


def leaf_of(value: Any) -> Any:
    """How a word or a fixed value is written in a tree.

    Parameters
    ----------
    value : a member of an enumeration, or a plain value.
    """
    if isinstance(value, str):
        return str(value)
    return value.name if isinstance(value, Enum) else value


def _chosen(choice: Choice, tree: Any, reader: Reader) -> Any:
    """The option that the tree was made of; the last one where none fits, so that its own place is told."""
    if tree is None and NOTHING in map(shape_of, choice.options):
        return None
    options = [option for option in choice.options if shape_of(option) != NOTHING]
    return next((option for option in options[:-1] if _fits(option, tree, reader)), options[-1])


def _fits(option: Any, tree: Any, reader: Reader) -> bool:
    shape = shape_of(option)
    if isinstance(shape, Record):
        names = {reader.name(name) for name in shape.fields}
        tags = tags_of(shape).items()
        return (
            isinstance(tree, dict)
            and set(tree) <= names
            and all(tree.get(reader.name(name)) in map(leaf_of, values) for name, values in tags)
        )
    try:
        read(option, tree, reader)
    except Torn:
        return False
    return True
