"""The picture of a refusal: a file beside the folder that was not written, gone again once it is."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from moldwright.disk.whole_file import write_file
from moldwright.errors import MoldwrightError
from moldwright.making.places import real_path
from moldwright.units.system import UnitSystem

ENDING = "-refused.png"
OURS = b"Comment\0why there is no mold plan"
"""A text within the file (PNG, chunk tEXt), by which one of ours is known: no other is written over or taken away."""
HEADER = 33
"""Bytes of a PNG before its second chunk: the signature, and IHDR."""


def refused_file(out: Path) -> Path:
    """Where the picture of what is refused lies.

    Parameters
    ----------
    out : the folder that would have been written.
    """
    real = real_path(out)
    return real.with_name(real.name + ENDING)


@contextmanager
def shown_where_refused(out: Path, units: UnitSystem) -> Iterator[None]:
    """Show the place of a refusal beside the folder that it kept from being written; where all goes well, take away the
    one that an earlier try left.

    Parameters
    ----------
    out : the folder.
    units : in which heights are written.
    """
    try:
        yield
    except MoldwrightError as refused:
        draw_refused(refused, refused_file(out), units)
        raise
    with suppress(OSError):
        if _ours(refused_file(out)):
            refused_file(out).unlink()


def draw_refused(refused: MoldwrightError, file: Path, units: UnitSystem) -> None:
    """Draw the place of a refusal into a file, and name that in it. It goes without where that cannot be written.

    Parameters
    ----------
    refused : what was refused; one without a place is left as it is.
    file : where; another's file stays as it is.
    units : in which heights are written.
    """
    png = refused_png(refused, units)
    with suppress(OSError):
        if png is None or (file.exists() and not _ours(file)):
            return
        file.parent.mkdir(parents=True, exist_ok=True)
        write_file(file, png)
        refused.picture = str(file)


def refused_png(refused: MoldwrightError, units: UnitSystem) -> bytes | None:
    """The picture of a refusal's place; None where there is none.

    Parameters
    ----------
    refused : what was refused.
    units : in which heights are written.
    """
    if refused.place is None or refused.place.body is None:
        return None
    from moldwright.sheets.place_picture import place_picture  # noqa: PLC0415

    png = place_picture(refused.place, units)
    return None if png is None else _marked(png)


def _marked(png: bytes) -> bytes:
    """A PNG with our text in it."""
    body = b"tEXt" + OURS
    chunk = struct.pack(">I", len(OURS)) + body + struct.pack(">I", zlib.crc32(body))
    return png[:HEADER] + chunk + png[HEADER:]


def _ours(file: Path) -> bool:
    with file.open("rb") as opened:
        return OURS in opened.read(HEADER + len(OURS) + 12)
