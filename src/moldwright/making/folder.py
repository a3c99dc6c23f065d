"""A folder that is written whole or not at all: made beside its place, then moved there in one step."""

from __future__ import annotations

import errno
import json
import os
import shutil
import signal
import tempfile
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from moldwright.disk.lock import InUseError, locked
from moldwright.errors import InputRefused
from moldwright.making.exchange import put_in_place
from moldwright.making.places import real_path

UNWRITABLE = {
    errno.EACCES, errno.EEXIST, errno.EPERM, errno.EROFS, errno.ENOSPC, errno.EDQUOT, errno.ENAMETOOLONG,
    errno.ENOTDIR, errno.EBUSY, errno.EXDEV, errno.ELOOP,
}  # fmt: skip
LOCK = "lock"
UNDER_WAY: list[int] = []
"""Pipes that are told the folders that are written in, so that who hears of a violent end can sweep them."""


def holds_plan(folder: Path) -> bool:
    """Whether the folder is a plan's, or one of quantities alone: its JSON has a schema version."""
    return any(_versioned(folder / name) for name in ("plan.json", "quantities.json"))


def _versioned(file: Path) -> bool:
    try:
        tree = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return False
    return isinstance(tree, dict) and isinstance(tree.get("schema_version"), int)


def check_out(out: Path, inputs: Sequence[Path] = (), own: Callable[[Path], bool] = holds_plan) -> Path:
    """The folder's real path, refused where something else than a plan would be replaced.

    Parameters
    ----------
    out : where the folder shall be.
    inputs : files that are read and must not lie in it.
    own : tells whether an existing folder may be replaced.
    """
    with _refusing(out):
        real = real_path(out)
        if real.exists() and not real.is_dir():
            raise InputRefused(
                "out-no-folder", str(out), "a folder", "", "Name a folder that is new, empty or holds a plan."
            )
        if real.is_dir() and any(real.iterdir()) and not own(real):
            remedy = "Name a new or empty folder, or one that holds a plan: it would be replaced whole."
            raise InputRefused("out-not-empty", str(out), "a new folder, an empty one or a plan's", "", remedy)
        for path in inputs:
            if real_path(path).is_relative_to(real):
                remedy = "Name a folder of its own: it is replaced whole each time."
                raise InputRefused(
                    "out-holds-input", str(path), "a folder without the commission and the scan", "", remedy
                )
        return real


@contextmanager
def whole_folder(out: Path, inputs: Sequence[Path] = (), own: Callable[[Path], bool] = holds_plan) -> Iterator[Path]:
    """A fresh folder to write in, which takes the place of `out` when the body ends well and vanishes when not.

    It is made in a hidden folder beside `out` that is locked meanwhile: a second command is refused, and what a killed
    one left there is swept by the next. Temporary files of the body go there too.

    Parameters
    ----------
    out : where the folder shall be.
    inputs : files that are read and must not lie in it.
    own : tells whether an existing folder may be replaced.
    """
    real = check_out(out, inputs, own)
    place = real.parent / f".{real.name}.part"
    for number in UNDER_WAY:
        os.write(number, os.fsencode(place) + b"\0")
    with _refusing(out), _parents(place), locked(place / LOCK, folder=True), _emptied(place), _temporary(place):
        made = place / "new"
        made.mkdir()
        yield made
        check_out(out, inputs, own)
        put_in_place(made, real)


def sweep_left(places: Sequence[Path]) -> None:
    """Remove the hidden folders of a process that has ended, unless another has taken them over.

    Parameters
    ----------
    places : the folders that it told.
    """
    for place in places:
        if place.is_dir():
            with suppress(InUseError, OSError), locked(place / LOCK), _emptied(place):
                pass


@contextmanager
def _refusing(out: Path) -> Iterator[None]:
    try:
        yield
    except InUseError:
        remedy = "Wait until that command has ended, or name another folder."
        raise InputRefused("out-in-use", str(out), "one command at a time", "", remedy) from None
    except OSError as error:
        if error.errno not in UNWRITABLE:
            raise
        too_long = error.errno == errno.ENAMETOOLONG
        remedy = "Name it shorter." if too_long else "Is there room on the disk, and may you write there?"
        raise InputRefused("out-not-writable", f"{out}: {error.strerror or error}", None, "", remedy) from error


@contextmanager
def _parents(place: Path) -> Iterator[None]:
    """Folders above that are missing now are gone again in the end, unless something lies in them."""
    missing = [folder for folder in place.parents if not folder.exists()]
    try:
        yield
    finally:
        for folder in missing:
            with suppress(OSError):
                folder.rmdir()


@contextmanager
def _emptied(place: Path) -> Iterator[None]:
    """Sweep what a killed command left in a folder that is locked for us; remove it in the end, the lock last."""
    with _undisturbed():
        _sweep(place)
    try:
        yield
    finally:
        with _undisturbed():
            _sweep(place)
            (place / LOCK).unlink(missing_ok=True)
            with suppress(OSError):
                place.rmdir()


@contextmanager
def _temporary(place: Path) -> Iterator[None]:
    """Temporary files go to `place`, so that they are swept with it."""
    work, before = place / "work", tempfile.tempdir
    work.mkdir(mode=0o700)
    tempfile.tempdir = str(work)
    try:
        yield
    finally:
        tempfile.tempdir = before


def _sweep(place: Path) -> None:
    for entry in place.iterdir():
        if entry.is_dir() and not entry.is_symlink():
            shutil.rmtree(entry, ignore_errors=True)
        elif entry.name != LOCK:
            entry.unlink(missing_ok=True)


@contextmanager
def _undisturbed() -> Iterator[None]:
    """A second Ctrl-C does not leave half of what is removed."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = {number: signal.signal(number, signal.SIG_IGN) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
