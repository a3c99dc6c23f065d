"""A file that comes piece by piece: never whole in memory, in its place when it is whole, gone where it is not."""

from __future__ import annotations

import os
import secrets
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path
from typing import BinaryIO

from moldwright.disk.whole_file import PART, settle
from moldwright.errors import RecordConflict
from moldwright.log.ids import FileHash
from moldwright.records.files.kept import place_of, size_of, unwritable

LEFT_S = 86_400.0
"""What a killed command left half written is taken away after a day; our own."""


def put_blocks(files: Path, blocks: Iterable[bytes]) -> tuple[FileHash, bool]:
    """Lay a file into the folder as it comes; it is on the disk when this returns.

    Parameters
    ----------
    files : the folder, made where it is missing.
    blocks : its bytes; what their source raises leaves nothing behind.

    Returns its hash, and whether it is new there. Raises InputRefused ("files-unwritable").
    """
    found = sha256()
    try:
        with _part(files) as (part, out):
            for block in blocks:
                found.update(block)
                out.write(block)
            out.flush()
            os.fsync(out.fileno())
            file = FileHash(found.hexdigest())
            return file, _placed(files, file, part)
    except OSError as error:
        raise unwritable(files, error) from None


@contextmanager
def _part(files: Path) -> Iterator[tuple[Path, BinaryIO]]:
    """A new file of the folder, which is gone when the body ends, unless it got another name."""
    made = not files.exists()
    files.mkdir(parents=True, exist_ok=True)
    _sweep(files)
    part = files / f".{secrets.token_hex(8)}{PART}"
    try:
        with part.open("xb") as out:
            yield part, out
    finally:
        part.unlink(missing_ok=True)
        if made:
            with suppress(OSError):
                files.rmdir()


def _placed(files: Path, file: FileHash, part: Path) -> bool:
    with suppress(RecordConflict):
        size_of(files, file)
        return False
    place = place_of(files, file)
    place.parent.mkdir(exist_ok=True)
    part.replace(place)
    settle(place.parent)
    return True


def _sweep(files: Path) -> None:
    for left in files.glob(f".*{PART}"):
        with suppress(OSError):
            if time.time() - left.stat().st_mtime > LEFT_S:
                left.unlink()
