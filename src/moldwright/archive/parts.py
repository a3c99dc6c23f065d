"""The parts of an archive that anybody may have made: its seal, their names, and how far they swell."""

from __future__ import annotations

import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from typing import BinaryIO
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

from moldwright.archive import layout
from moldwright.archive.container import sealed
from moldwright.errors import InputRefused

ARCHIVE = "an archive as `moldwright shop backup` writes it"
ANOTHER = "Take another copy, or the backup before it. Nothing was written."


def damaged(told: str) -> InputRefused:
    """What is said of an archive that is not as it was written.

    Parameters
    ----------
    told : in what.
    """
    return InputRefused("archive-damaged", told, "an archive as it was written", "", ANOTHER)


def check_seal(file: BinaryIO) -> None:
    """Refuse a file whose bytes are not those that were sealed.

    Parameters
    ----------
    file : open for reading.
    """
    with breaking("the file"):
        _check_seal(file)


def _check_seal(file: BinaryIO) -> None:
    size = file.seek(0, 2)
    file.seek(max(0, size - layout.SEAL_DIGITS - len(layout.SEAL)))
    seal, digits = file.read(len(layout.SEAL)), file.read(layout.SEAL_DIGITS)
    file.seek(0)
    if seal != layout.SEAL:
        if file.read(4) != b"PK\3\4":
            raise InputRefused("archive-foreign", "another kind of file", ARCHIVE, "", "Give the backup's file.")
        raise damaged("it has no seal: cut off, or packed anew by another program")
    if sealed(file).encode() != digits:
        raise damaged("its bytes do not fit its seal")


def zip_in(file: BinaryIO) -> ZipFile:
    """The zip in an open file.

    Parameters
    ----------
    file : open for reading.
    """
    try:
        return ZipFile(file)
    except (BadZipFile, ValueError, OSError, NotImplementedError) as error:
        raise damaged(f"no whole zip: {error}") from None


def parts_of(archive: ZipFile) -> dict[str, ZipInfo]:
    """The parts by name: none twice, none of another name, none that swells beyond measure.

    Parameters
    ----------
    archive : the zip.
    """
    parts: dict[str, ZipInfo] = {}
    for info in archive.infolist():
        name = info.orig_filename
        if name in parts:
            raise damaged(f"two parts are called {name[:80]}")
        if name not in layout.FIXED and not layout.NAME.fullmatch(name):
            raise damaged(f"a part has a name that none has: {name[:80]}")
        _check_size(name, info)
        parts[name] = info
    lacking = layout.FIXED - set(parts)
    if lacking:
        raise damaged(f"{sorted(lacking)[0]} is not in it")
    return parts


def _check_size(name: str, info: ZipInfo) -> None:
    if info.flag_bits & 1 or info.compress_type not in (ZIP_STORED, ZIP_DEFLATED):
        raise damaged(f"{name} is locked or packed in another way")
    if name.startswith("files/") and info.compress_type != ZIP_STORED:
        raise damaged(f"{name[:18]} is packed, and no file is")
    if (
        name not in layout.LISTS
        and info.file_size > layout.FREE_BYTES
        and info.file_size > layout.MOST_SWELLING * info.compress_size
    ):
        remedy = "Nobody's records are packed like this: ask where the file comes from. Nothing was written."
        swells = info.file_size / max(1, info.compress_size)
        raise InputRefused("archive-bomb", swells, layout.MOST_SWELLING, f"times its size, {name}", remedy)


@contextmanager
def breaking(name: str) -> Iterator[None]:
    """What the zip's own checks and the disk find, told of an archive that is damaged.

    Parameters
    ----------
    name : the part that is read.
    """
    try:
        yield
    except (BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError) as error:
        raise damaged(f"{name}: {error}") from None
