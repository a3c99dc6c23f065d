"""Files that are sent: raw bodies, streamed into a file of the data folder that is called by chance and not by anybody.

What was not sent to its end goes at once; what a killed desk left behind goes when it starts.
"""

from __future__ import annotations

import asyncio
import os
import secrets
import shutil
import time
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import ClientDisconnect, Request

from moldwright.errors import InputRefused
from moldwright.web.doors.body import MB, allow, too_large

FOLDER = "incoming"
STALL_S = 60.0
"""A sender that is silent for so long has gone: our own."""
LEFT_S = 24 * 3600.0
"""What lies there for so long is of a desk that was killed: our own."""
SPARE_BYTES = 200 * MB
"""So much stays free on the disk for the records themselves: our own."""


@asynccontextmanager
async def receiving(request: Request, data: Path, most: int) -> AsyncIterator[Path]:
    """A call's body as a file, which is gone when the body of this ends unless it was moved.

    Parameters
    ----------
    request : the call, nothing of whose body is read yet.
    data : the desk's data folder.
    most : bytes that are taken.

    Raises InputRefused ("file-too-large", "file-broken-off", "disk-full").
    """
    allow(request, most)
    place = await run_in_threadpool(new_place, data)
    try:
        await _streamed(request, place, most)
        yield place
    finally:
        await run_in_threadpool(place.unlink, True)


async def _streamed(request: Request, place: Path, most: int) -> None:
    parts, got = request.stream(), 0
    number = os.open(place, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        while (part := await _next(parts)) is not None:
            got += len(part)
            if got > most:
                raise too_large(got, most)
            await run_in_threadpool(_write, number, part)
    except ClientDisconnect:
        raise _broken_off() from None
    finally:
        os.close(number)


async def _next(parts: AsyncIterator[bytes]) -> bytes | None:
    try:
        return await asyncio.wait_for(anext(parts, None), STALL_S)
    except TimeoutError:
        raise _broken_off() from None


def _write(number: int, part: bytes) -> None:
    view = memoryview(part)
    try:
        while view:
            view = view[os.write(number, view) :]
    except OSError as error:
        raise InputRefused("disk-full", error.strerror or "not written", None, "", _ROOM) from None


def _broken_off() -> InputRefused:
    remedy = "Send it again; nothing of the first half is kept."
    return InputRefused("file-broken-off", "half a file", "a whole one", "", remedy)


_ROOM = "Make room on the disk of the machine that the desk runs on. Nothing was kept."


def new_place(data: Path) -> Path:
    """A name in the folder of what is coming in, taken by nobody.

    Parameters
    ----------
    data : the desk's data folder.

    Raises InputRefused ("disk-full").
    """
    folder = data / FOLDER
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    free = shutil.disk_usage(folder).free
    if free < SPARE_BYTES:
        raise InputRefused("disk-full", free / MB, SPARE_BYTES / MB, "MB", _ROOM)
    return folder / secrets.token_hex(16)


def sweep(data: Path, older_s: float = LEFT_S) -> int:
    """Remove what was half sent to a desk that was killed; tells how many.

    Parameters
    ----------
    data : the desk's data folder.
    older_s : than which it goes [s].
    """
    gone = 0
    folder, now = data / FOLDER, time.time()
    for path in sorted(folder.iterdir()) if folder.is_dir() else ():
        if path.is_file() and now - path.lstat().st_mtime >= older_s:
            path.unlink(missing_ok=True)
            gone += 1
    return gone
