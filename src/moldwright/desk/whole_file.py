"""A file that is written whole or not at all: made beside its place, then moved there in one step."""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from pathlib import Path

from moldwright.errors import InputRefused


def write_whole(path: Path, data: bytes) -> None:
    """Write a file in one step; one that is there is replaced, and stays as it is where that fails.

    Parameters
    ----------
    path : the file; its folder must be there.
    data : what it shall hold.
    """
    part = ""
    try:
        handle, part = tempfile.mkstemp(prefix=f".{path.name[:80]}.", suffix=".part", dir=path.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(part, 0o666 & ~_mask())
        os.replace(part, path)
    except OSError as error:
        told = error.strerror or "it cannot be written"
        remedy = "Name a file in a folder that is there and that you may write to."
        raise InputRefused("file-unwritable", f"{path}: {told}", None, "", remedy) from None
    finally:
        if part:
            with suppress(OSError):
                os.unlink(part)


def _mask() -> int:
    """The rights that this process leaves out of new files."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
