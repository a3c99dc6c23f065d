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
from contextlib import contextmanager
from pathlib import Path

from moldwright.errors import InputRefused

UNWRITABLE = {
    errno.EACCES,
    errno.EEXIST, errno.EPERM, errno.EROFS, errno.ENOSPC, errno.EDQUOT, errno.ENAMETOOLONG, errno.ENOTDIR,
}  # fmt: skip


def holds_plan(folder: Path) -> bool:
    """Whether the folder is a plan's: its plan.json has a schema version."""
    try:
        tree = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
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
    real = out.expanduser().resolve()
    if real.exists() and not real.is_dir():
        raise InputRefused(
            "out-no-folder", str(out), "a folder", "", "Name a folder that is new, empty or holds a plan."
        )
    if real.is_dir() and any(real.iterdir()) and not own(real):
        remedy = "Name a new or empty folder, or one that holds a plan: it would be replaced whole."
        raise InputRefused("out-not-empty", str(out), "a new folder, an empty one or a plan's", "", remedy)
    for path in inputs:
        if path.resolve().is_relative_to(real):
            remedy = "Name a folder of its own: it is replaced whole each time."
            raise InputRefused("out-holds-input", str(path), "a folder without the commission and the scan", "", remedy)
    return real


@contextmanager
def whole_folder(out: Path, inputs: Sequence[Path] = (), own: Callable[[Path], bool] = holds_plan) -> Iterator[Path]:
    """A fresh folder to write in, which takes the place of `out` when the body ends well and vanishes when not.

    Parameters
    ----------
    out : where the folder shall be.
    inputs : files that are read and must not lie in it.
    own : tells whether an existing folder may be replaced.
    """
    real = check_out(out, inputs, own)
    made: Path | None = None
    try:
        real.parent.mkdir(parents=True, exist_ok=True)
        made = Path(tempfile.mkdtemp(prefix=f".{real.name}.", suffix=".part", dir=real.parent))
        yield made
        made.chmod(0o777 & ~_umask())
        check_out(out, inputs, own)
        _swap(made, real)
    except OSError as error:
        if error.errno not in UNWRITABLE:
            raise
        remedy = "Is there room on the disk, and may you write there?"
        raise InputRefused("out-not-writable", f"{out}: {error.strerror or error}", None, "", remedy) from error
    finally:
        if made is not None:
            _remove(made)


def _swap(made: Path, real: Path) -> None:
    if not real.exists():
        made.rename(real)
        return
    aside = made.with_suffix(".old")
    try:
        real.rename(aside)
        made.rename(real)
    finally:
        if aside.exists() and not real.exists():
            aside.rename(real)
        shutil.rmtree(aside, ignore_errors=True)


def write_file(path: Path, text: str) -> None:
    """A text file that is there whole or not at all.

    Parameters
    ----------
    path : where.
    text : its content.
    """
    number, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent or Path())
    try:
        with os.fdopen(number, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        Path(name).chmod(0o666 & ~_umask())
        Path(name).replace(path)
    finally:
        Path(name).unlink(missing_ok=True)


def _remove(folder: Path) -> None:
    """Remove a folder; a second Ctrl-C does not leave half of it."""
    if threading.current_thread() is not threading.main_thread():
        shutil.rmtree(folder, ignore_errors=True)
        return
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        shutil.rmtree(folder, ignore_errors=True)
    finally:
        signal.signal(signal.SIGINT, before)


def _umask() -> int:
    mask = os.umask(0o077)
    os.umask(mask)
    return mask
