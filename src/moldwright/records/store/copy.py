"""A copy of an SQLite store that others may be using, whole or not at all."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from itertools import count
from pathlib import Path


def copied(source: Path, wanted: Path) -> Path:
    """Copy the last kept state of a store.

    Parameters
    ----------
    source : the store's file.
    wanted : the copy's name; where a file has it, "-2" and so on follows.

    Returns where the copy is. Nothing is there under that name before all of it is on the disk.
    """
    part = wanted.with_name(f".{wanted.name}.{os.getpid()}.part")
    try:
        with closing(sqlite3.connect(source)) as old, closing(sqlite3.connect(part)) as new:
            old.execute("PRAGMA query_only=ON")
            old.backup(new)
        _on_disk(part)
        return _moved(part, wanted)
    finally:
        part.unlink(missing_ok=True)


def _moved(part: Path, wanted: Path) -> Path:
    """A link fails where the name is taken, so that no earlier copy is written over."""
    names = (wanted if number == 1 else wanted.with_name(f"{wanted.name}-{number}") for number in count(1))
    for name in names:
        try:
            os.link(part, name)
        except FileExistsError:
            continue
        _on_disk(name.parent)
        return name
    raise AssertionError


def _on_disk(path: Path) -> None:
    number = os.open(path, os.O_RDONLY)
    try:
        os.fsync(number)
    finally:
        os.close(number)
