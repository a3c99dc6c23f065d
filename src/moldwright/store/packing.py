"""Frozen dataclasses with numpy arrays as bytes and back: a JSON tree and the arrays in one npz, no pickle."""

from __future__ import annotations

import io
import json
from dataclasses import Field
from decimal import Decimal
from enum import Enum
from typing import Any, TypeVar, cast

import numpy as np

from moldwright.store.walk import Reader, fold, leaf_of, read

T = TypeVar("T")
Arrays = dict[str, np.ndarray[Any, Any]]


def pack(value: Any) -> bytes:
    """The bytes of a value; TypeError for what cannot be kept.

    Parameters
    ----------
    value : nested dataclasses, tuples, text-keyed dicts, numbers, texts, bytes, None and arrays of numbers.
    """
    packer = _Packer()
    tree = json.dumps(fold(value, packer))
    held = io.BytesIO()
    np.savez(held, tree=np.frombuffer(tree.encode(), dtype=np.uint8), **packer.arrays)  # type: ignore[arg-type]
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
        return cast(T, read(kind, json.loads(bytes(arrays.pop("tree"))), _Unpacker(arrays)))
    except Exception as error:
        raise ValueError(f"not a kept {kind.__name__}") from error


class _Packer:
    """JSON for all but arrays and bytes, for which a name stands."""

    def __init__(self) -> None:
        self.arrays: Arrays = {}

    def keeps(self, field: Field[Any]) -> bool:
        return True

    def record(self, kind: type, parts: dict[str, Any]) -> Any:
        return parts

    def many(self, kind: type, parts: list[Any]) -> Any:
        return parts

    def table(self, parts: list[tuple[Any, Any]]) -> Any:
        return dict(parts)

    def array(self, value: np.ndarray[Any, Any]) -> Any:
        name = f"a{len(self.arrays)}"
        self.arrays[name] = value
        return {"array": name}

    def word(self, value: Enum) -> Any:
        return leaf_of(value)

    def plain(self, value: Any) -> Any:
        if isinstance(value, bytes):
            return self.array(np.frombuffer(value, dtype=np.uint8))
        return str(value) if isinstance(value, Decimal) else value


class _Unpacker(Reader):
    def __init__(self, arrays: Arrays) -> None:
        self._arrays = arrays

    def array(self, tree: Any) -> np.ndarray[Any, Any]:
        return self._arrays[tree["array"]]

    def plain(self, kind: type, tree: Any) -> Any:
        if kind is bytes:
            return self.array(tree).tobytes()
        return Decimal(tree) if kind is Decimal else super().plain(kind, tree)
