"""One process at a time: a file that is locked while it is there, and that a killed process leaves behind unlocked."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

try:
    import fcntl
except ImportError:
    fcntl = None  # type: ignore[assignment]


TRIES = 1000


class InUseError(Exception):
    """Another process holds the lock."""


@contextmanager
def locked(path: Path, wait: bool = False, folder: bool = False) -> Iterator[int]:
    """The open file at `path`, made where it is missing and locked until the body ends; it may be moved or removed.

    A file that is no longer at `path` once its lock is had belongs to one who is done: the next is tried. The system
    drops the lock of a process that ends, however it ends. Where it knows no locks, there is none.

    Parameters
    ----------
    path : the file.
    wait : wait for the other instead of raising `InUseError`.
    folder : make its folder too.
    """
    number = _held(path, wait, folder)
    try:
        yield number
    finally:
        os.close(number)


def _held(path: Path, wait: bool, folder: bool) -> int:
    """Whoever is done removes file and folder: either may vanish under the hands of the next."""
    for turn in range(TRIES):
        try:
            if folder:
                path.parent.mkdir(parents=True, exist_ok=True)
            number = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o600)
        except (FileNotFoundError, FileExistsError):
            if turn == TRIES - 1:
                raise PermissionError(errno.EACCES, "no file can be made there", str(path)) from None
            continue
        if _had(number, path, wait):
            return number
        os.close(number)
    raise InUseError


def _had(number: int, path: Path, wait: bool) -> bool:
    """Whether the lock is had, and of the file that is at the path now."""
    try:
        _lock(number, wait)
        return os.path.samestat(os.fstat(number), path.stat())
    except FileNotFoundError:
        return False
    except BaseException:
        os.close(number)
        raise


def _lock(number: int, wait: bool) -> None:
    if fcntl is None:
        return
    try:
        fcntl.flock(number, fcntl.LOCK_EX | (0 if wait else fcntl.LOCK_NB))
    except BlockingIOError:
        raise InUseError from None
    except InterruptedError:
        raise
    except OSError:
        return
