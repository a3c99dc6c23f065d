"""Which way is up: the one thing that is kept of what a camera writes beside the pixels."""

from __future__ import annotations

import struct

from moldwright.photos.reading.exif import ORIENTATION, exif_from, orientation_in

SHORT = 3


class TornPhoto(Exception):
    """A photo whose parts do not hang together."""


def orientation_of(exif: bytes) -> int:
    """1 to 8; 1 for nonsense.

    Parameters
    ----------
    exif : as a file has it, with or without "Exif" before it.
    """
    return orientation_in(exif_from(exif))


def turned_exif(orientation: int) -> bytes:
    """The shortest EXIF that tells which way is up, and nothing else.

    Parameters
    ----------
    orientation : 1 to 8.

    Source: TIFF 6.0, section 2 (header, directory of one entry); JEITA CP-3451, 4.6.4.
    """
    return struct.pack(">2sHIHHHIHHI", b"MM", 42, 8, 1, ORIENTATION, SHORT, 1, orientation, 0, 0)
