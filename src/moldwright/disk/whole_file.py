"""A file that is written whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

from moldwright.disk.lock import locked
from moldwright.errors import InputRefused

PART = ".part"
"""How the name of a file ends that is not whole yet; it begins with a dot."""
LONGEST_NAME = 200
"""Bytes of a name that are kept; file systems take 255."""


@contextmanager
def new_file(path: Path) -> Iterator[BinaryIO]:
    """A file to write and read again, which takes the place of `path` when the body ends well and vanishes when not.

    It is on the disk, and its name too, when this returns; what a killed command left half written is written over.

    Parameters
    ----------
    path : the file; one that is there is replaced. Its folder must be there.
    """
    part = path.with_name(f".{_cut(path.name)}{PART}")
    with locked(part, wait=True) as number:
        try:
            os.truncate(number, 0)
            with os.fdopen(os.dup(number), "w+b") as file:
                yield file
                file.flush()
                os.fsync(number)
            part.chmod(0o666 & ~_mask())
            part.replace(path)
            settle(path.parent)
        except BaseException:
            part.unlink(missing_ok=True)
            raise


def write_file(path: Path, content: str | bytes) -> None:
    """Write a file beside its place and move it there.

    Parameters
    ----------
    path : the file; one that is there is replaced. Its folder must be there.
    content : what it shall hold; text as UTF-8.
    """
    with new_file(path) as file:
        file.write(content.encode() if isinstance(content, str) else content)


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


def settle(folder: Path) -> None:
    """A name that was given in a folder is on the disk too; systems that know no such thing are left alone.

    Parameters
    ----------
    folder : where the name was given.
    """
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)


def _mask() -> int:
    mask = os.umask(0o077)
    os.umask(mask)
    return mask
