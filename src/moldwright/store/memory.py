"""Where the results of stages are kept, so that a new price or temperature computes no geometry again.

A store is handed in by the desk; the rooms that compute know no disk.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from typing import Any, Protocol, TypeVar

from moldwright.store.hashing import key_of

T = TypeVar("T")


class Store(Protocol):
    """Keeps frozen results by key. What it cannot give back is None, never an error."""

    def get(self, key: str, kind: type[T]) -> T | None: ...

    def put(self, key: str, value: Any) -> None: ...


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


class NoStore:
    """Keeps nothing."""

    def get(self, key: str, kind: type[T]) -> T | None:
        return None

    def put(self, key: str, value: Any) -> None:
        return None


def remembered(store: Store, stage: str, kind: type[T], make: Callable[[], T], *inputs: Any) -> T:
    """The stage's result from the store, or made now and kept.

    Parameters
    ----------
    store : where results are kept.
    stage : the stage's name, part of the key.
    kind : the class of the result, a frozen dataclass.
    make : computes it; called only where the store has nothing.
    *inputs : all that the result depends on, as `store.hashing` takes it.

    >>> store, made = MemoryStore(), []
    >>> [remembered(store, "half", float, lambda: made.append(1) or 2.0, 4.0) for _ in range(3)], len(made)
    ([2.0, 2.0, 2.0], 1)
    """
    key = key_of(stage, *inputs)
    found = store.get(key, kind)
    if found is not None:
        return found
    made = make()
    store.put(key, made)
    return made
