"""Where the results of stages are kept, so that a new price or temperature computes no geometry again.

A store is handed in by the desk; the rooms that compute know no disk.
"""

from __future__ import annotations

from collections import OrderedDict
from typing import Any, Protocol, TypeVar

T = TypeVar("T")


class Store(Protocol):
    """Keeps frozen results by key. What it cannot give back is None, never an error."""

    def get(self, key: str, kind: type[T]) -> T | None: ...

    def put(self, key: str, value: Any) -> None: ...

    def mark(self, module: str) -> str:
        """A mark of the code that a module reaches; "" where no result outlives the process."""
        ...


class MemoryStore:
    """The last `most` results, in this process only.

    >>> store = MemoryStore()
    >>> store.put("a", 1.5)
    >>> store.get("a", float), store.get("b", float)
    (1.5, None)
    """

    def __init__(self, most: int = 64) -> None:
        self._most = most
        self._kept: OrderedDict[str, Any] = OrderedDict()

    def get(self, key: str, kind: type[T]) -> T | None:
        found = self._kept.get(key)
        if not isinstance(found, kind):
            return None
        self._kept.move_to_end(key)
        return found

    def put(self, key: str, value: Any) -> None:
        self._kept[key] = value
        self._kept.move_to_end(key)
        while len(self._kept) > self._most:
            self._kept.popitem(last=False)

    def mark(self, module: str) -> str:
        return ""


class NoStore:
    """Keeps nothing."""

    def get(self, key: str, kind: type[T]) -> T | None:
        return None

    def put(self, key: str, value: Any) -> None:
        return None

    def mark(self, module: str) -> str:
        return ""
