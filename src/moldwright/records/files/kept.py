"""Where kept files lie: one folder beside the store, each under the SHA-256 of its bytes."""

from __future__ import annotations

import re
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from moldwright.disk.whole_file import new_file
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.ids import FileHash

HASH = re.compile(r"[0-9a-f]{64}")


def is_hash(text: str) -> bool:
    """Whether a text is a SHA-256 in lower-case hexadecimal.

    Parameters
    ----------
    text : anything.
    """
    return HASH.fullmatch(text) is not None


def hash_of_file(data: bytes) -> FileHash:
    """The SHA-256 of bytes, in hexadecimal.

    Parameters
    ----------
    data : a file's.
    """
    return FileHash(sha256(data).hexdigest())


def place_of(files: Path, file: FileHash) -> Path:
    """Where a file lies, or would.

    Parameters
    ----------
    files : the folder.
    file : its hash; what is none is refused as one that is not kept.
    """
    if not is_hash(file):
        raise _missing(file)
    return files / file[:2] / file


def bytes_of(files: Path, file: FileHash) -> bytes:
    """A kept file's bytes, which are those of its hash.

    Parameters
    ----------
    files : the folder.
    file : its hash.

    Raises RecordConflict ("file-missing", "file-damaged").
    """
    try:
        data = place_of(files, file).read_bytes()
    except OSError:
        raise _missing(file) from None
    if hash_of_file(data) != file:
        remedy = "Attach the same file again, or put it back from a backup; all else goes on without it."
        raise RecordConflict("file-damaged", file[:12], "the bytes that were kept", "", remedy)
    return data


def put(files: Path, data: bytes) -> tuple[FileHash, bool]:
    """Lay a file into the folder; it is on the disk when this returns. One that is there and whole stays as it is.

    Parameters
    ----------
    files : the folder, made where it is missing.
    data : the file.

    Returns its hash, and whether it is new there.
    """
    file = hash_of_file(data)
    with suppress(RecordConflict):
        bytes_of(files, file)
        return file, False
    place = place_of(files, file)
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        with new_file(place) as out:
            out.write(data)
    except OSError as error:
        told = f"{files}: {error.strerror or 'it cannot be written'}"
        remedy = "Is there room on the disk, and may you write there? Nothing was kept."
        raise InputRefused("files-unwritable", told, None, "", remedy) from None
    return file, True


def _missing(file: str) -> RecordConflict:
    remedy = "Attach the same file again, or put it back from a backup; all else goes on without it."
    return RecordConflict("file-missing", file[:12], "a file that is kept", "", remedy)
