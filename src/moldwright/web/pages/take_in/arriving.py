"""A file of what is taken in: in its place only when it is whole and what it should be."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path, PurePosixPath

from fastapi import Request
from starlette.concurrency import run_in_threadpool

from moldwright.errors import InputRefused
from moldwright.photos.reading.sniff import HEAD_BYTES, kind_of
from moldwright.records.files.scans import ScanLook
from moldwright.records.pieces.names import is_harmless
from moldwright.web.doors.uploads import receiving

BLOCK = 1 << 20


async def arrived(request: Request, data: Path, place: Path, most: int, check: Callable[[Path, str], None]) -> None:
    """Take in a file; of one that is broken off or refused nothing is left.

    Parameters
    ----------
    request : whose body it is.
    data : the desk's data folder.
    place : where it belongs, under a name that was made harmless before; its folder is made where it is missing.
    most : bytes at most.
    check : refuses it; given the file and its name, once all of it is there.

    Raises as `receiving`, and what `check` raises.
    """
    async with receiving(request, data, most) as part:
        await run_in_threadpool(check, part, place.name)
        place.parent.mkdir(parents=True, exist_ok=True)
        part.replace(place)


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
