"""A zip archive that nobody trusts: names, sizes and ratios are checked before anything is unpacked."""

from __future__ import annotations

import io
import posixpath
import re
import zipfile
import zlib
from collections.abc import Iterator

from moldwright.errors import InputRefused
from moldwright.scan.limits import Limits
from moldwright.scan.refuse import damaged, truncated

SMALL = 1 << 20
BLOCK = 1 << 18
MAKE_NEW = "Export the scan again; do not open this archive with other tools."


class Archive:
    """The entries of an archive by name, read in blocks and never past the limits."""

    def __init__(self, data: bytes, limits: Limits) -> None:
        self._limits = limits
        self._left = limits.archive_bytes
        if b"PK\x05\x06" not in data:
            raise truncated(len(data), len(data) + 1, "bytes")
        try:
            self._zip = zipfile.ZipFile(io.BytesIO(data))
        except (zipfile.BadZipFile, ValueError, NotImplementedError, EOFError, OSError, OverflowError):
            raise damaged("an archive without a readable list of its files") from None
        entries = self._zip.infolist()
        if len(entries) > limits.archive_entries:
            raise _bomb("archive-bomb", len(entries), limits.archive_entries, "files")
        for entry in entries:
            self._check(entry)
        total = sum(entry.file_size for entry in entries)
        if total > limits.archive_bytes:
            raise _bomb("archive-bomb", total, limits.archive_bytes, "bytes unpacked")
        self._entries = {entry.filename.lower(): entry for entry in entries}
        if len(self._entries) != len(entries):
            raise damaged("an archive with the same name twice")

    def _check(self, entry: zipfile.ZipInfo) -> None:
        inside(entry.filename)
        ratio = entry.file_size / max(entry.compress_size, 1)
        if entry.file_size > SMALL and ratio > self._limits.archive_ratio:
            raise _bomb("archive-bomb", round(ratio), self._limits.archive_ratio, "bytes for one packed byte")
        if entry.flag_bits & 1:
            raise damaged("an encrypted archive")
        if entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise damaged("an archive packed by a method that 3MF does not know")

    def __contains__(self, name: str) -> bool:
        return name.lower() in self._entries

    def blocks(self, name: str) -> Iterator[bytes]:
        """The unpacked bytes of one entry.

        Parameters
        ----------
        name : of the entry; letter case does not count.
        """
        if name not in self:
            raise damaged(f"an archive without {name[:80]}")
        try:
            with self._zip.open(self._entries[name.lower()]) as file:
                while block := file.read(BLOCK):
                    self._left -= len(block)
                    if self._left < 0:
                        raise _bomb("archive-bomb", "more", self._limits.archive_bytes, "bytes unpacked")
                    yield block
        except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, ValueError, RuntimeError, OSError):
            raise damaged(f"{name[:80]} cannot be unpacked: its bytes are changed or missing") from None


def inside(name: str) -> str:
    """The plain path inside the archive; refused where it leaves the archive.

    Parameters
    ----------
    name : as the archive writes it.

    >>> inside("/3D/3dmodel.model")
    '3D/3dmodel.model'
    """
    slashed = name.replace("\\", "/")
    if ".." in slashed.split("/") or slashed.startswith("//") or re.match(r"[A-Za-z][\w+.-]*:", slashed):
        raise _bomb("path-leaves-archive", name[:80], "a path inside the archive", "")
    return posixpath.normpath(slashed).lstrip("/")


def _bomb(code: str, actual: float | str, limit: float | str, unit: str) -> InputRefused:
    return InputRefused(code, actual, limit, unit, MAKE_NEW)
