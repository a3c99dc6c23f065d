"""A file as it arrives, block by block, beside its place; in its place only when it is whole and what it should be."""

from __future__ import annotations

import secrets
from collections.abc import AsyncIterator, Callable
from pathlib import Path, PurePosixPath

from fastapi import Request
from starlette.concurrency import run_in_threadpool
from starlette.requests import ClientDisconnect
from starlette.responses import Response

from moldwright.errors import InputRefused
from moldwright.photos.reading.sniff import HEAD_BYTES, kind_of
from moldwright.records.files.scans import ScanLook
from moldwright.records.pieces.names import is_harmless
from moldwright.web.doors.body import too_large

BLOCK = 1 << 20
GONE = Response(status_code=499)
"""What is answered to who has hung up: nobody reads it."""


async def arrived(request: Request, folder: Path, name: str, most: int, check: Callable[[Path, str], None]) -> bool:
    """Take in a file; False where the sender broke off, and then nothing of it is left.

    Parameters
    ----------
    request : whose body it is.
    folder : where it belongs; made where it is missing.
    name : what it is called there, made harmless before.
    most : bytes at most.
    check : refuses it; given the file and its name, once all of it is there.

    Raises InputRefused ("file-too-large" and what `check` raises).
    """
    folder.mkdir(parents=True, exist_ok=True)
    part = folder.parent / f".{secrets.token_hex(8)}.part"
    try:
        await _written(request.stream(), part, most)
        await run_in_threadpool(check, part, name)
        part.replace(folder / name)
    except ClientDisconnect:
        return False
    finally:
        part.unlink(missing_ok=True)
    return True


async def _written(blocks: AsyncIterator[bytes], part: Path, most: int) -> None:
    got = 0
    with part.open("xb") as out:
        async for block in blocks:
            got += len(block)
            if got > most:
                raise too_large(got, most)
            out.write(block)


def check_scan(part: Path, name: str) -> None:
    """Refuse what is no scan by its bytes.

    Parameters
    ----------
    part : the file.
    name : what it is called.
    """
    with part.open("rb") as file:
        for _ in ScanLook(name).passing(iter(lambda: file.read(BLOCK), b"")):
            pass


def check_photo(part: Path, name: str) -> None:
    """Refuse what is no photo by its first bytes; whether it can be used, the look tells.

    Parameters
    ----------
    part : the file.
    name : what it is called.
    """
    with part.open("rb") as file:
        kind = kind_of(file.read(HEAD_BYTES))
    if kind is None:
        remedy = "Send the photos as the phone took them: JPEG, PNG or HEIC."
        raise InputRefused("format-unknown", name, "a photo", "", remedy)


def harmless_name(written: str, otherwise: str) -> str:
    """A file's own name where that is harmless, else another with its ending.

    Parameters
    ----------
    written : what the sender calls it.
    otherwise : what it is called where that cannot be.

    >>> harmless_name("otter.stl", "scan"), harmless_name("../a.stl", "scan"), harmless_name("CON.stl", "scan")
    ('otter.stl', 'a.stl', 'scan.stl')
    """
    name = written.replace("\\", "/").rpartition("/")[2]
    if is_harmless(name):
        return name
    suffix = PurePosixPath(name).suffix.lower()
    made = f"{otherwise}{suffix}"
    if is_harmless(made):
        return made
    raise InputRefused("file-name-unusable", name[:80], "a name with an ending", "", "Rename the file.")
