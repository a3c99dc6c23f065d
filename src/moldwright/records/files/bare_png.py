"""A PNG without what a camera or a program writes beside its pixels; not one of these is changed.

Source: W3C PNG specification (third edition), 5 (chunks, CRC), 11 (which chunk holds what).
"""

from __future__ import annotations

import zlib
from collections.abc import Iterator

from moldwright.records.files.camera import CameraTold, TornPhoto, camera_exif, camera_told

HEAD = b"\x89PNG\r\n\x1a\n"
END, EXIF, HEADER = b"IEND", b"eXIf", b"IHDR"
KEPT_CHUNKS = {
    HEADER, b"PLTE", b"IDAT", END, b"tRNS", b"cHRM", b"gAMA", b"iCCP", b"sBIT", b"sRGB", b"cICP", b"bKGD", b"pHYs",
}  # fmt: skip
"""The pixels, and what decides how they look."""


def bare_png(data: bytes) -> bytes:
    """The same picture: its pixels' bytes, how they are to be shown, which way is up, the zoom, and nothing else.

    Parameters
    ----------
    data : the file; `TornPhoto` where it has no end.
    """
    parts = [HEAD]
    told = CameraTold()
    for kind, part in _chunks(data):
        if kind == EXIF:
            told = camera_told(part[8:-4])
        elif kind in KEPT_CHUNKS:
            parts.append(part)
    if kept := camera_exif(told):
        parts.insert(2, _chunk(EXIF, kept))
    return b"".join(parts)


def _chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    at, kind = len(HEAD), b""
    while kind != END:
        length, kind = int.from_bytes(data[at : at + 4], "big"), data[at + 4 : at + 8]
        end = at + 12 + length
        if len(kind) < 4 or end > len(data):
            raise TornPhoto("a chunk runs past the file's end")
        yield kind, data[at:end]
        at = end


def _chunk(kind: bytes, content: bytes) -> bytes:
    return len(content).to_bytes(4, "big") + kind + content + zlib.crc32(kind + content).to_bytes(4, "big")
