"""The zip that holds an archive: the same parts always give the same bytes, and one that was changed is found out.

Source: APPNOTE 6.3, 4.3.6 (order of parts), 4.3.16 (end record and its comment); the standard library writes them.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from typing import IO, BinaryIO
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from moldwright.archive.layout import SEAL, SEAL_DIGITS, SUMS

START = (1980, 1, 1, 0, 0, 0)
"""The first time that a zip can tell; every part has it, so that no clock shows in the bytes."""
UNIX, PLAIN_FILE = 3, 0o100644 << 16
BLOCK = 1 << 20


class Hashed:
    """A part that is being written: its hash and length grow with it."""

    def __init__(self, out: IO[bytes]) -> None:
        self._out, self._hash = out, sha256()
        self.lines = 0

    def write(self, data: bytes) -> None:
        """Write.

        Parameters
        ----------
        data : some bytes.
        """
        self._hash.update(data)
        self._out.write(data)

    def line(self, text: str) -> None:
        """Write a line, which is counted.

        Parameters
        ----------
        text : the line, without its end.
        """
        self.write(text.encode() + b"\n")
        self.lines += 1

    @property
    def hexdigest(self) -> str:
        """The SHA-256 of what is written so far."""
        return self._hash.hexdigest()


class Parts:
    """An archive that is being written, part by part; the sums of all are its last part.

    Parameters
    ----------
    out : an empty file, open for writing and reading.
    """

    def __init__(self, out: BinaryIO) -> None:
        self._out = out
        self._zip = ZipFile(out, "w", allowZip64=True)
        self._sums: list[tuple[str, str]] = []

    @contextmanager
    def part(self, name: str, packed: bool = True) -> Iterator[Hashed]:
        """A part, open for writing; one at a time.

        Parameters
        ----------
        name : its name.
        packed : deflated; pictures are packed already.
        """
        info = ZipInfo(name, START)
        info.create_system, info.external_attr = UNIX, PLAIN_FILE
        info.compress_type = ZIP_DEFLATED if packed else ZIP_STORED
        with self._zip.open(info, "w", force_zip64=True) as out:
            hashed = Hashed(out)
            yield hashed
        self._sums.append((name, hashed.hexdigest))

    def finish(self) -> None:
        """Write the sums and the seal."""
        with self.part(SUMS) as out:
            for name, digest in sorted(self._sums):
                out.line(f"{digest}  {name}")
        self._zip.comment = SEAL + b"0" * SEAL_DIGITS
        self._zip.close()
        digest = sealed(self._out)
        self._out.seek(-SEAL_DIGITS, 2)
        self._out.write(digest.encode())


def sealed(file: BinaryIO) -> str:
    """The SHA-256 of all bytes of a file but for the digits of its own seal.

    Parameters
    ----------
    file : an archive, open for reading.
    """
    left = file.seek(0, 2) - SEAL_DIGITS
    file.seek(0)
    found = sha256()
    while left > 0:
        block = file.read(min(BLOCK, left))
        if not block:
            break
        found.update(block)
        left -= len(block)
    return found.hexdigest()
