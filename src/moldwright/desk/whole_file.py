"""A file that is written whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

from moldwright.desk.lock import locked
from moldwright.errors import InputRefused

LONGEST_NAME = 200
"""Bytes of a name that are kept; file systems take 255."""


def write_file(path: Path, content: str | bytes) -> None:
    """Write a file beside its place and move it there; what a killed command left half written is written over.

    Parameters
    ----------
    path : the file; one that is there is replaced. Its folder must be there.
    content : what it shall hold; text as UTF-8.
    """
    part = path.with_name(f".{_cut(path.name)}.part")
    with locked(part, wait=True) as number:
        try:
            os.truncate(number, 0)
            with os.fdopen(os.dup(number), "wb") as file:
                file.write(content.encode() if isinstance(content, str) else content)
                file.flush()
                os.fsync(number)
            part.chmod(0o666 & ~_mask())
            part.replace(path)
        except BaseException:
            part.unlink(missing_ok=True)
            raise


def write_whole(path: Path, data: bytes) -> None:
    """Write a file that the maker named; refused where it cannot be written.

    Parameters
    ----------
    path : the file; its folder must be there.
    data : what it shall hold.
    """
    try:
        write_file(path, data)
    except OSError as error:
        told = error.strerror or "it cannot be written"
        remedy = "Name a file in a folder that is there and that you may write to."
        raise InputRefused("file-unwritable", f"{path}: {told}", None, "", remedy) from None


def _cut(name: str) -> str:
    """So much of a name that it fits a file system with a few letters more, which counts bytes."""
    return os.fsencode(name)[:LONGEST_NAME].decode(errors="ignore")


def _mask() -> int:
    mask = os.umask(0o077)
    os.umask(mask)
    return mask
