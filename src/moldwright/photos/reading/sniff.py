"""What a picture file really is, told from its first bytes, never from its name."""

from __future__ import annotations

from enum import StrEnum


class PhotoKind(StrEnum):
    """The kinds of photo that are read."""

    JPEG = "jpeg"
    PNG = "png"
    HEIC = "heic"


HEIC_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"}
OTHER_PICTURES = (b"GIF8", b"II*\0", b"MM\0*", b"BM", b"\0\0\0\x0cjP  ", b"8BPS", b"\xff\x0a", b"\x76\x2f\x31\x01")
PICTURE_NAMES = (".jpg", ".jpeg", ".png", ".heic", ".heif")
HEAD_BYTES = 64


def kind_of(head: bytes) -> PhotoKind | None:
    """The kind of a photo, None for anything that is not read.

    Parameters
    ----------
    head : the first bytes of the file, 16 or more.

    >>> kind_of(b"%PDF-1.7 and so on") is None
    True
    """
    if head.startswith(b"\xff\xd8\xff"):
        return PhotoKind.JPEG
    if head.startswith(b"\x89PNG\r\n\x1a\n"):
        return PhotoKind.PNG
    if head[4:8] == b"ftyp" and head[8:12] in HEIC_BRANDS:
        return PhotoKind.HEIC
    return None


def meant_as_photo(name: str, head: bytes) -> bool:
    """Whether a file in the folder is a photo, or a picture that someone would miss if nothing were said of it.

    Parameters
    ----------
    name : of the file.
    head : its first bytes.
    """
    if name.lower().endswith(PICTURE_NAMES) or kind_of(head) is not None:
        return True
    return head.startswith(OTHER_PICTURES) or head[4:8] == b"ftyp" or (head[:4] == b"RIFF" and head[8:12] == b"WEBP")
