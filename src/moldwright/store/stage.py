"""A stage: a function that sees only what it is handed, and whose result is kept under a key of all that shapes it.

The key is made here and nowhere else: of the stage's name, of a mark of the code that it reaches (its module's source,
that of all it imports, and their data, so that constants count by themselves), and of every value it is handed. A
result that was kept is itself handed on by its key, and is unpacked only where a stage must compute with it.
"""

from __future__ import annotations

import importlib
import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import FunctionType
from typing import Any, Generic, TypeVar, cast, get_type_hints

from moldwright.progress import Progress
from moldwright.store.hashing import hash_of
from moldwright.store.memory import Store

T = TypeVar("T")
MUTABLE = (list, dict, set, bytearray)


class Kept(Generic[T]):
    """A stage's result by its key; found or made when its `value` is first asked for.

    Parameters
    ----------
    key : of all that shapes it.
    find : finds or makes it.
    """

    def __init__(self, key: str, find: Callable[[], T]) -> None:
        self.key = key
        self._find: Callable[[], T] | None = find
        self._value: T | None = None

    @property
    def value(self) -> T:
        """The result itself."""
        if self._find is not None:
            self._value = self._find()
            self._find = None
        return cast(T, self._value)


@dataclass(frozen=True, slots=True)
class _ByKey:
    """Stands in a key for a kept result."""

    key: str


class Stage(Generic[T]):
    """A function of a module by its name: the module is imported when it must compute or unpack, not before.

    Parameters
    ----------
    path : "moldwright.room.module:function"; a function of the module itself, without defaults. A last parameter named
        `progress` is handed to it and counts for nothing.
    told : what progress is told while it computes; "" for nothing.
    kind : the class of its result, so that one that is kept is unpacked without the module; left out, the function's
        own word for it.
    """

    def __init__(self, path: str, told: str = "", kind: type[T] | None = None) -> None:
        self.path = path
        self.module, _, self.name = path.partition(":")
        self.told = told
        self._kind = kind

    @property
    def function(self) -> Callable[..., T]:
        """The function, refused by TypeError where it could see more than it is handed or gives another class."""
        function = getattr(importlib.import_module(self.module), self.name)
        _only_what_it_is_handed(function, self.path)
        self._annotated(function)
        return cast(Callable[..., T], function)

    @property
    def kind(self) -> type[T]:
        """The class of its result."""
        return self._kind or self._annotated(self.function)

    def _annotated(self, function: Callable[..., T]) -> type[T]:
        told = get_type_hints(function)["return"]
        if self._kind not in (None, told):
            raise TypeError(f"{self.path} gives {told}, not {self._kind}")
        return cast(type[T], told)

    def key(self, store: Store, *inputs: Any) -> str:
        """The key of its result.

        Parameters
        ----------
        store : knows the mark of the code.
        *inputs : what it is handed; kept results count by their keys.
        """
        handed = tuple(_ByKey(value.key) if isinstance(value, Kept) else value for value in inputs)
        return f"{self.name}-{hash_of((self.path, store.mark(self.module), handed))}"

    def kept(self, store: Store, progress: Progress, *inputs: Any) -> Kept[T]:
        """Its result for these inputs, neither found nor made yet.

        Parameters
        ----------
        store : where results are kept.
        progress : told while it computes.
        *inputs : frozen values and kept results, one for each parameter.
        """
        key = self.key(store, *inputs)
        return Kept(key, lambda: self._found(store, key, progress, inputs))

    def _found(self, store: Store, key: str, progress: Progress, inputs: tuple[Any, ...]) -> T:
        found = store.get(key, self.kind)
        if found is None:
            found = self._made(progress, inputs)
            store.put(key, found)
        return found

    def _made(self, progress: Progress, inputs: tuple[Any, ...]) -> T:
        values = [value.value if isinstance(value, Kept) else value for value in inputs]
        function = self.function
        if "progress" in inspect.signature(function).parameters:
            values.append(progress)
        if self.told:
            progress(self.told, 0.0)
        made = function(*values)
        if self.told:
            progress(self.told, 1.0)
        return made


def _only_what_it_is_handed(function: Any, path: str) -> None:
    """A plain function of a module, without values of another function, defaults, or values beside it that change."""
    if not isinstance(function, FunctionType) or path != f"{function.__module__}:{function.__qualname__}":
        raise TypeError(f"{path} is no function of its module")
    if function.__closure__ or function.__defaults__ or function.__kwdefaults__:
        raise TypeError(f"{path} would see more than it is handed")
    changing = [name for name in function.__code__.co_names if _changes(function.__globals__, name)]
    if changing:
        raise TypeError(f"{path} would see {', '.join(changing)}, which can change: hand it over or freeze it")


def _changes(around: Mapping[str, Any], name: str) -> bool:
    return name in around and isinstance(around[name], MUTABLE)
