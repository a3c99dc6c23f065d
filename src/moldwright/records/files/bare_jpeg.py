"""A JPEG without what a camera writes beside its pixels; not one of these is changed.

Source: ITU-T T.81, B.1.1 (markers, byte stuffing), B.2; JFIF (T.871); ICC.1, B.4; Adobe's APP14 from memory; Exif in
APP1: JEITA CP-3451, 4.7.2.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from moldwright.records.files.camera import TornPhoto, camera_exif, camera_told

SOI, EOI, SOS, APP0, APP1, COM, TEM = 0xD8, 0xD9, 0xDA, 0xE0, 0xE1, 0xFE, 0x01
RESTARTS = range(0xD0, 0xD8)
APPS = range(APP0, 0xF0)
KEPT_APPS = ((APP0, b"JFIF\0"), (0xE2, b"ICC_PROFILE\0"), (0xEE, b"Adobe"))
"""What decides how the pixels look."""
EXIF = b"Exif\0\0"
NEXT_MARKER = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]")


def bare_jpeg(data: bytes) -> bytes:
    """The same picture: its pixels' bytes, how they are to be shown, which way is up, the zoom, and nothing else.

    Parameters
    ----------
    data : the file; `TornPhoto` where it has no end.
    """
    parts = [b"\xff\xd8"]
    told = b""
    for marker, part, body in _parts(data):
        if marker == APP1 and body.startswith(EXIF):
            told += body[len(EXIF) :]
        elif (marker not in APPS and marker != COM) or any(marker == m and body.startswith(b) for m, b in KEPT_APPS):
            parts.append(part)
    kept = camera_exif(camera_told(told))
    if kept:
        exif = EXIF + kept
        after_jfif = 2 if len(parts) > 1 and parts[1].startswith(b"\xff\xe0") else 1
        parts.insert(after_jfif, b"\xff\xe1" + (len(exif) + 2).to_bytes(2, "big") + exif)
    return b"".join(parts)


def _parts(data: bytes) -> Iterator[tuple[int, bytes, bytes]]:
    """Marker, all bytes and contents of each segment up to the picture's end; a scan's segment holds its pixels."""
    at = 2
    while True:
        if data[at : at + 1] != b"\xff" or at + 2 > len(data):
            raise TornPhoto("no segment where one should begin")
        while data[at + 1 : at + 2] == b"\xff":
            at += 1
        marker = int.from_bytes(data[at + 1 : at + 2], "big")
        if marker == EOI:
            yield marker, b"\xff\xd9", b""
            return
        end = _end(data, at, marker)
        yield marker, data[at:end], data[at + 4 : end]
        at = end


def _end(data: bytes, at: int, marker: int) -> int:
    if marker == TEM or marker in RESTARTS:
        return at + 2
    length = int.from_bytes(data[at + 2 : at + 4], "big")
    end = at + 2 + length
    if length < 2 or end > len(data):
        raise TornPhoto("a segment runs past the file's end")
    if marker != SOS:
        return end
    found = NEXT_MARKER.search(data, end)
    if found is None:
        raise TornPhoto("the pixels have no end")
    return found.start()
