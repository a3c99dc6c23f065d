"""A scan, kept as it comes: what it is told by its bytes, which are looked at but not read as a mesh.

Source: binary STL has no magic number, its length is 84 bytes and 50 for each triangle (the format's own, from
memory); GLB: glTF 2.0, 4.4.2 (version and length at bytes 4 and 8); 3MF: Open Packaging Conventions, whose list of
types every package has, and a model.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from moldwright.errors import InputRefused
from moldwright.log.ids import FileHash
from moldwright.records.clock import now_ms
from moldwright.records.files.incoming import put_blocks
from moldwright.records.files.keep import label_of, listed, opened_file
from moldwright.records.files.kept import BLOCK
from moldwright.records.files.kinds import LARGEST_SCAN, MARKUP, MB, NEVER, OTHERS, FileType
from moldwright.records.shop import Shop
from moldwright.scan.parse import format_of
from moldwright.scan.sniff import sniff

SCANS = {
    "stl": FileType.STL,
    "ply": FileType.PLY,
    "obj": FileType.OBJ,
    "off": FileType.OFF,
    "glb": FileType.GLB,
    "3mf": FileType.THREEMF,
}
SCAN = "a scan: STL, PLY, OBJ, OFF, GLB or 3MF"
AGAIN = "Export or copy the scan again: this one is cut off, or something hangs on it."
REDUCE = "Reduce the mesh in the scanning program to 2 million triangles or fewer; a mold shows no more."
HEAD, TAIL, SEAM, STL_HEAD = 1 << 16, 1 << 20, 64, 84
TAGS = re.compile(MARKUP.pattern.encode(), re.IGNORECASE)
RUNS = tuple(start for starts, _, remedy in OTHERS if remedy == NEVER for start in starts)


class ScanLook:
    """What is seen of a scan as it passes.

    Parameters
    ----------
    name : of its file; its ending must be that of what it is.
    """

    def __init__(self, name: str) -> None:
        self._name, self._size, self._head, self._tail = name, 0, b"", b""
        self._text, self._tags = True, False

    def passing(self, blocks: Iterator[bytes]) -> Iterator[bytes]:
        """The same bytes, looked at; refused where there are too many, and at their end where they are no scan.

        Parameters
        ----------
        blocks : the file.

        Raises InputRefused ("file-too-large", "file-empty", "format-unknown", "mislabelled", "file-cut-off",
        "file-not-kept").
        """
        for block in blocks:
            self._see(block)
            yield block
        self.kind()

    def _see(self, block: bytes) -> None:
        self._size += len(block)
        if self._size > LARGEST_SCAN:
            most = LARGEST_SCAN // MB
            raise InputRefused("file-too-large", f"{self._name}: more than {most}", most, "MB", REDUCE)
        self._head += block[: HEAD - len(self._head)]
        if self._text:
            self._text = b"\0" not in block
            seen = (self._tail[-SEAM:] + block).partition(b"\0")[0]
            self._tags = self._tags or TAGS.search(seen) is not None
        self._tail = (self._tail + block)[-TAIL:]

    @property
    def size(self) -> int:
        """How many bytes have passed."""
        return self._size

    def kind(self) -> FileType:
        """What it is, when all has passed."""
        kind = format_of(self._name, self._head, self._size)
        if self._tags or self._head.startswith(RUNS):
            raise InputRefused("file-not-kept", f"{self._name}: it holds code that runs", SCAN, "", NEVER)
        wrong = self._wrong(kind)
        if wrong:
            raise InputRefused("file-cut-off", f"{self._name}: {wrong}", SCAN, "", AGAIN)
        return SCANS[kind]

    def _wrong(self, kind: str) -> str:
        """What is amiss with the file as a whole, "" where nothing is."""
        if kind == "3mf":
            told = self._tail.lower()
            lacks = b"pk\5\6" not in told or b"[content_types].xml" not in told or b".model" not in told
            return "no end of a 3MF" if lacks else ""
        if kind == "stl" and not (self._text and sniff(self._head, self._size) == "stl"):
            return self._wrong_stl()
        if kind == "glb":
            length = int.from_bytes(self._head[8:12], "little")
            return f"{length} bytes announced, {self._size} are there" if length > self._size else ""
        if kind in ("obj", "off") and not self._text:
            return "a text with bytes in it that are none"
        return "" if sniff(self._head, self._size) == kind else f"no {kind.upper()} begins so"

    def _wrong_stl(self) -> str:
        """Fewer bytes than a triangle has may hang on it: some programs write such."""
        count = int.from_bytes(self._head[80:STL_HEAD], "little")
        whole = 0 <= self._size - STL_HEAD - 50 * count < 50
        return "" if count and whole else f"{count} triangles announced, {self._size} bytes are there"


def keep_scan(shop: Shop, source: Path | BinaryIO, name: str = "") -> FileHash:
    """Keep a scan beside the store as it comes, byte for byte; it is on the disk when this returns.

    Parameters
    ----------
    shop : the store.
    source : the file, or what it is read from, which needs not tell its length.
    name : what it is called; left out, the file's own.

    Raises InputRefused (those of `ScanLook.passing`, "file-missing", "file-unreadable", "files-unwritable").
    """
    label = label_of(name or (source.name if isinstance(source, Path) else ""))
    look = ScanLook(label)
    with opened_file(source, label, SCAN) as stream:
        file, _ = put_blocks(shop.files, look.passing(_blocks(stream, label)))
    listed(shop, file, look.size, look.kind(), label, now_ms())
    return file


def _blocks(stream: BinaryIO, label: str) -> Iterator[bytes]:
    try:
        while block := stream.read(BLOCK):
            yield block
    except OSError as error:
        told = f"{label}: {error.strerror or 'no answer'}"
        raise InputRefused("file-unreadable", told, SCAN, "", "Check its disk, or send it again.") from None
