"""Two folders change places in one step, so that whoever looks sees the one or the other."""

from __future__ import annotations

import ctypes
import errno
import os
import sys
from pathlib import Path
from typing import Any

AT_FDCWD = -100
RENAME_EXCHANGE = 2
RENAME_SWAP = 2
CANNOT = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP}
"""What a system or a disk says that knows no such step."""


def put_in_place(made: Path, real: Path) -> None:
    """Move a folder to its place; what was there is at the other place afterwards.

    Linux: renameat2 with RENAME_EXCHANGE (its manual page); macOS: renamex_np with RENAME_SWAP. Where neither is known,
    two steps, between which the folder is missing for a moment.

    Parameters
    ----------
    made : the new folder, on the same disk.
    real : its place; nothing, or a folder.
    """
    if not real.exists():
        made.rename(real)
        return
    try:
        _exchange(os.fsencode(made), os.fsencode(real))
    except OSError as error:
        if error.errno not in CANNOT:
            raise
        _in_two_steps(made, real)


def _exchange(one: bytes, other: bytes) -> None:
    library: Any = ctypes.CDLL(None, use_errno=True) if os.name == "posix" else None
    if sys.platform == "darwin" and hasattr(library, "renamex_np"):
        failed = library.renamex_np(one, other, ctypes.c_uint(RENAME_SWAP))
    elif sys.platform == "linux" and hasattr(library, "renameat2"):
        failed = library.renameat2(AT_FDCWD, one, AT_FDCWD, other, ctypes.c_uint(RENAME_EXCHANGE))
    else:
        raise OSError(errno.ENOSYS, "no exchange")
    if failed:
        number = ctypes.get_errno()
        raise OSError(number, os.strerror(number), os.fsdecode(other))


def _in_two_steps(made: Path, real: Path) -> None:
    aside = made.with_suffix(".old")
    real.rename(aside)
    try:
        made.rename(real)
    except BaseException:
        aside.rename(real)
        raise
    aside.rename(made)
