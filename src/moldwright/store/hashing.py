"""One short text for any frozen input of a stage: the same value, the same text, in every process."""

from __future__ import annotations

import hashlib
import struct
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from decimal import Decimal
from enum import Enum
from typing import Any

import numpy as np

import moldwright


def key_of(stage: str, *inputs: Any) -> str:
    """The key under which a stage's result is kept: a hash of its name, the package's version and its inputs.

    Parameters
    ----------
    stage : the stage's name.
    *inputs : frozen dataclasses, tuples, mappings, numpy arrays, numbers, texts.

    >>> key_of("glove", 1.0) == key_of("glove", 1.0), key_of("glove", 1.0) == key_of("glove", 1)
    (True, False)
    """
    return hash_of((stage, moldwright.__version__, inputs))


def hash_of(value: Any) -> str:
    """SHA-256 of a nested value, 40 hexadecimal digits; raises TypeError for what has no stable form.

    Parameters
    ----------
    value : frozen dataclasses, tuples, lists, mappings, sets, numpy arrays, numbers, texts, bytes, None.
    """
    digest = hashlib.sha256()
    _feed(digest, value)
    return digest.hexdigest()[:40]


def _feed(digest: Any, value: Any) -> None:
    if isinstance(value, np.ndarray):
        if value.dtype.hasobject:
            raise TypeError("an array of objects has no stable hash")
        _head(digest, "array", f"{value.dtype.str}{value.shape}")
        digest.update(np.ascontiguousarray(value).data)
    elif is_dataclass(value) and not isinstance(value, type):
        parts = [(f.name, getattr(value, f.name)) for f in fields(value)]
        _each(digest, f"{type(value).__module__}.{type(value).__qualname__}", [x for part in parts for x in part])
    elif isinstance(value, Mapping):
        _each(digest, "mapping", [x for key in sorted(value, key=str) for x in (key, value[key])])
    elif isinstance(value, frozenset | set):
        _each(digest, "set", sorted(hash_of(item) for item in value))
    elif isinstance(value, tuple | list):
        _each(digest, "list", list(value))
    else:
        _atom(digest, value)


def _each(digest: Any, kind: str, items: list[Any]) -> None:
    _head(digest, kind, str(len(items)))
    for item in items:
        _feed(digest, item)


def _atom(digest: Any, value: Any) -> None:
    if isinstance(value, np.generic):
        value = value.item()
    if isinstance(value, Enum):
        _head(digest, type(value).__qualname__, value.name)
    elif value is None or isinstance(value, bool | int | Decimal):
        _head(digest, type(value).__name__, str(value))
    elif isinstance(value, float):
        _head(digest, "float", struct.pack("<d", value + 0.0).hex())
    elif isinstance(value, str):
        _head(digest, "str", value)
    elif isinstance(value, bytes):
        _head(digest, "bytes", hashlib.sha256(value).hexdigest())
    else:
        raise TypeError(f"{type(value).__name__} has no stable hash")


def _head(digest: Any, kind: str, text: str) -> None:
    encoded = text.encode("utf-8", "surrogatepass")
    digest.update(f"{kind}:{len(encoded)}:".encode())
    digest.update(encoded)
