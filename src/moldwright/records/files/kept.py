"""Where kept files lie: one folder beside the store, each under the SHA-256 of its bytes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from moldwright.disk.whole_file import new_file
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.ids import FileHash

HASH = re.compile(r"[0-9a-f]{64}")
BLOCK = 1 << 20
AGAIN = "Give the same file again, or put it back from a backup; all else goes on without it."


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
    return b"".join(blocks_of(files, file))


def blocks_of(files: Path, file: FileHash) -> Iterator[bytes]:
    """A kept file's bytes, piece by piece; whether they are those of its hash is known at their end.

    Parameters
    ----------
    files : the folder.
    file : its hash.

    Raises RecordConflict ("file-missing", "file-damaged").
    """
    found = sha256()
    try:
        with place_of(files, file).open("rb") as source:
            while block := source.read(BLOCK):
                found.update(block)
                yield block
    except OSError:
        raise _missing(file) from None
    if found.hexdigest() != file:
        raise RecordConflict("file-damaged", file[:12], "the bytes that were kept", "", AGAIN)


def size_of(files: Path, file: FileHash) -> int:
    """How many bytes a kept file has, every one of which is read.

    Parameters
    ----------
    files : the folder.
    file : its hash.

    Raises RecordConflict ("file-missing", "file-damaged").
    """
    return sum(map(len, blocks_of(files, file)))


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
        size_of(files, file)
        return file, False
    place = place_of(files, file)
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        with new_file(place) as out:
            out.write(data)
    except OSError as error:
        raise unwritable(files, error) from None
    return file, True


def unwritable(files: Path, error: OSError) -> InputRefused:
    """What is said of a folder that takes no file.

    Parameters
    ----------
    files : the folder.
    error : what the system said.
    """
    told = f"{files}: {error.strerror or 'it cannot be written'}"
    remedy = "Is there room on the disk, and may you write there? Nothing was kept."
    return InputRefused("files-unwritable", told, None, "", remedy)


def _missing(file: str) -> RecordConflict:
    return RecordConflict("file-missing", file[:12], "a file that is kept", "", AGAIN)
