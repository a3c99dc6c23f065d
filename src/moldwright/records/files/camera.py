"""What is kept of what a camera writes beside the pixels: which way is up, and the zoom. The photo way reads no more.

Source: TIFF 6.0, section 2 (header, directories of 12-byte entries, types); JEITA CP-3451, 4.6.3 (directory of
details), 4.6.4 (orientation), 4.6.5 (focal length in terms of 35 mm film, a SHORT).
"""

from __future__ import annotations

import struct
from dataclasses import dataclass

from moldwright.photos.reading.exif import DETAILS, FOCAL_35MM, ORIENTATION, exif_from, focal_in, orientation_in

SHORT, LONG, DOUBLE = 3, 4, 12
HEADER, ENTRY, FRAME = 8, 12, 6
"""Bytes of a header, of an entry, and of a directory besides its entries."""


class TornPhoto(Exception):
    """A photo whose parts do not hang together."""


@dataclass(frozen=True, slots=True)
class CameraTold:
    """`orientation`: 1 to 8; `focal_35mm`: focal length in terms of 36 x 24 mm film [mm], None where nothing tells."""

    orientation: int = 1
    focal_35mm: float | None = None


def camera_told(exif: bytes) -> CameraTold:
    """What is kept of an EXIF; upright and without a zoom for nonsense.

    Parameters
    ----------
    exif : as a file has it, with or without "Exif" before it.
    """
    return CameraTold(orientation_in(exif_from(exif)), focal_in(exif_from(exif)))


def camera_exif(told: CameraTold) -> bytes:
    """The shortest EXIF that tells so much and nothing else; none where there is nothing to tell.

    Parameters
    ----------
    told : what is kept.
    """
    count = (told.orientation != 1) + (told.focal_35mm is not None)
    after = HEADER + FRAME + ENTRY * count
    entries = _short(ORIENTATION, told.orientation) if told.orientation != 1 else b""
    if told.focal_35mm is None:
        return _header(count) + entries + bytes(4) if count else b""
    entries += struct.pack(">HHII", DETAILS, LONG, 1, after)
    return _header(count) + entries + bytes(4) + _details(told.focal_35mm, after)


def _header(count: int) -> bytes:
    return struct.pack(">2sHIH", b"MM", 42, HEADER, count)


def _short(tag: int, value: int) -> bytes:
    return struct.pack(">HHIHH", tag, SHORT, 1, value, 0)


def _details(focal_35mm: float, at: int) -> bytes:
    """A directory of one entry: a SHORT as the standard has it, and what is no whole number exactly as it was read."""
    if focal_35mm.is_integer():
        return struct.pack(">H", 1) + _short(FOCAL_35MM, int(focal_35mm)) + bytes(4)
    entry = struct.pack(">HHII", FOCAL_35MM, DOUBLE, 1, at + FRAME + ENTRY)
    return struct.pack(">H", 1) + entry + bytes(4) + struct.pack(">d", focal_35mm)
