"""Stages' results on the disk, so that the next command finds them: npz files, never pickles, oldest ones dropped."""

from __future__ import annotations

import os
import tempfile
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar

from moldwright.making.marks import CodeMarks
from moldwright.making.places import cache_folder
from moldwright.store.memory import MemoryStore, NoStore, Store
from moldwright.store.packing import pack, unpack

T = TypeVar("T")
MOST_BYTES = 2 << 30
STALE_S = 3600
"""A half-written file that is older than this belongs to nobody."""


class DiskStore:
    """Keeps results in memory and under a folder. A file that is torn, foreign or unreadable counts as absent.

    A file appears whole, under the key of all that shaped it: two commands at once write the same file or different
    ones. What cannot be written is only not kept.

    Parameters
    ----------
    folder : where the files lie; made when first needed.
    most_bytes : the oldest files are dropped above this.
    marks : the mark of the code that a module reaches; left out, of this package's.
    """

    def __init__(self, folder: Path, most_bytes: int = MOST_BYTES, marks: Callable[[str], str] | None = None) -> None:
        self._folder = folder
        self._marks = marks or CodeMarks(memo=folder / "code.json")
        self._most_bytes = most_bytes
        self._memory = MemoryStore()

    def mark(self, module: str) -> str:
        return self._marks(module)

    def get(self, key: str, kind: type[T]) -> T | None:
        found = self._memory.get(key, kind)
        if found is not None:
            return found
        path = self._path(key)
        try:
            value = unpack(kind, path.read_bytes())
        except (OSError, ValueError, MemoryError):
            return None
        with suppress(OSError):
            os.utime(path)
        self._memory.put(key, value)
        return value

    def put(self, key: str, value: Any) -> None:
        self._memory.put(key, value)
        try:
            self._write(self._path(key), pack(value))
            self._trim()
        except (OSError, TypeError, MemoryError):
            return

    def _path(self, key: str) -> Path:
        """Where a result lies; the form of the files is part of the name."""
        return self._folder / f"{key}-{self._marks(pack.__module__)}.npz"

    def _write(self, path: Path, packed: bytes) -> None:
        self._folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        number, name = tempfile.mkstemp(suffix=".part", dir=self._folder)
        try:
            with os.fdopen(number, "wb") as file:
                file.write(packed)
            Path(name).replace(path)
        finally:
            Path(name).unlink(missing_ok=True)

    def _trim(self) -> None:
        """Drop what a killed command left half written, then the oldest results above the limit."""
        for part in self._folder.glob("*.part"):
            if part.stat().st_mtime < time.time() - STALE_S:
                part.unlink(missing_ok=True)
        files = sorted((status.st_mtime, status.st_size, path) for path, status in self._kept())
        over = sum(size for _, size, _ in files) - self._most_bytes
        for _, size, path in files:
            if over <= 0:
                return
            path.unlink(missing_ok=True)
            over -= size

    def _kept(self) -> list[tuple[Path, os.stat_result]]:
        found = []
        for path in self._folder.glob("*.npz"):
            try:
                found.append((path, path.stat()))
            except FileNotFoundError:
                continue
        return found


def store_of(cache: Path | None, no_cache: bool) -> Store:
    """The store that is asked for.

    Parameters
    ----------
    cache : its folder, None for the usual one.
    no_cache : keep nothing.
    """
    return NoStore() if no_cache else DiskStore(cache or cache_folder() / "stages")
