"""Stages' results on the disk, so that the next command finds them: npz files, never pickles, oldest ones dropped."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import Any, TypeVar

from moldwright.desk.places import source_mark
from moldwright.store.memory import MemoryStore
from moldwright.store.packing import pack, unpack

T = TypeVar("T")
MOST_BYTES = 2 << 30


class DiskStore:
    """Keeps results in memory and under a folder. A file that is torn, foreign or unreadable counts as absent.

    Parameters
    ----------
    folder : where the files lie; made when first needed.
    most_bytes : the oldest files are dropped above this.
    mark : of the code that computes; left out, this package's. Files of another mark count as absent.
    """

    def __init__(self, folder: Path, most_bytes: int = MOST_BYTES, mark: str = "") -> None:
        self._folder = folder
        self._mark = mark or source_mark()
        self._most_bytes = most_bytes
        self._memory = MemoryStore()

    def get(self, key: str, kind: type[T]) -> T | None:
        found = self._memory.get(key, kind)
        if found is not None:
            return found
        path = self._path(key)
        try:
            value = unpack(kind, path.read_bytes())
            os.utime(path)
        except (OSError, ValueError):
            return None
        self._memory.put(key, value)
        return value

    def put(self, key: str, value: Any) -> None:
        self._memory.put(key, value)
        try:
            self._write(self._path(key), pack(value))
        except (OSError, TypeError):
            return
        self._trim()

    def _path(self, key: str) -> Path:
        return self._folder / f"{self._mark}-{key}.npz"

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
        try:
            files = sorted((entry.stat().st_mtime, entry.stat().st_size, entry) for entry in self._folder.glob("*.npz"))
            over = sum(size for _, size, _ in files) - self._most_bytes
            for _, size, path in files:
                if over <= 0:
                    return
                path.unlink(missing_ok=True)
                over -= size
        except OSError:
            return
