"""One short text for any frozen input of a stage: the same value, the same text, in every process."""

from __future__ import annotations

import hashlib
import struct
from dataclasses import Field
from enum import Enum
from typing import Any

import numpy as np

from moldwright.store.walk import fold


def hash_of(value: Any) -> str:
    """SHA-256 of a nested value, 40 hexadecimal digits; TypeError for what has no stable form or can change.

    Fields of a dataclass that do not count in comparisons (`compare=False`) do not count here.

    Parameters
    ----------
    value : frozen dataclasses, tuples, lists, mappings, sets, numpy arrays, numbers, texts, bytes, None.

    >>> hash_of((1.0, "a")) == hash_of((1.0, "a")), hash_of(1.0) == hash_of(1)
    (True, False)
    """
    return fold(value, _Hasher()).hex()[:40]


class _Hasher:
    """Each part becomes its digest: of its kind, its length and its content or the digests of its own parts."""

    def keeps(self, field: Field[Any]) -> bool:
        return field.compare

    def record(self, kind: type, parts: dict[str, bytes]) -> bytes:
        if not kind.__dataclass_params__.frozen:  # type: ignore[attr-defined]
            raise TypeError(f"{kind.__name__} is not frozen")
        named = [digest for name, part in parts.items() for digest in (self.plain(name), part)]
        return _digest(f"{kind.__module__}.{kind.__qualname__}", b"".join(named))

    def many(self, kind: type, parts: list[bytes]) -> bytes:
        if issubclass(kind, tuple | list):
            return _digest("list", b"".join(parts))
        return _digest("set", b"".join(sorted(parts)))

    def table(self, parts: list[tuple[bytes, bytes]]) -> bytes:
        return _digest("mapping", b"".join(key + item for key, item in sorted(parts)))

    def array(self, value: np.ndarray[Any, Any]) -> bytes:
        return _digest(f"array {value.dtype.str}{value.shape}", np.ascontiguousarray(value).reshape(-1).view(np.uint8))

    def word(self, value: Enum) -> bytes:
        return _digest(f"word {type(value).__qualname__}", value.name.encode())

    def plain(self, value: Any) -> bytes:
        if isinstance(value, bytes):
            return _digest("bytes", value)
        text = struct.pack("<d", value + 0.0).hex() if isinstance(value, float) else str(value)
        return _digest(type(value).__name__, text.encode("utf-8", "surrogatepass"))


def _digest(kind: str, content: Any) -> bytes:
    digest = hashlib.sha256(f"{kind}:{len(content)}:".encode())
    digest.update(content)
    return digest.digest()
