"""What a file is, told from its bytes and never from its name; what is kept, how large it may be, what is refused."""

from __future__ import annotations

import re
from enum import StrEnum

from moldwright.errors import InputRefused
from moldwright.photos.reading.sniff import PhotoKind
from moldwright.photos.reading.sniff import kind_of as photo_kind_of
from moldwright.text.harmless import steers


class FileType(StrEnum):
    """The kinds of file that are kept, as media types (RFC 2046; image/heic: ISO/IEC 23008-12; PLY and OFF have none,
    so they stand in the tree of those that nobody registered, RFC 6838, 3.4)."""

    JPEG = "image/jpeg"
    PNG = "image/png"
    HEIC = "image/heic"
    PDF = "application/pdf"
    TEXT = "text/plain"
    STL = "model/stl"
    OBJ = "model/obj"
    GLB = "model/gltf-binary"
    THREEMF = "model/3mf"
    PLY = "model/x.ply"
    OFF = "model/x.off"


PHOTOS = {PhotoKind.JPEG: FileType.JPEG, PhotoKind.PNG: FileType.PNG, PhotoKind.HEIC: FileType.HEIC}
MB = 1_000_000
LARGEST = {
    FileType.JPEG: 40 * MB,
    FileType.PNG: 40 * MB,
    FileType.HEIC: 40 * MB,
    FileType.PDF: 20 * MB,
    FileType.TEXT: MB,
}
"""Bytes of a file of each kind at most (our own: a camera's largest JPEG, a scanned certificate of many pages)."""
LARGEST_OF_ALL = max(LARGEST.values())
LARGEST_SCAN = 100 * MB
"""Bytes of a scan at most: 2 million triangles as binary STL, far more than a mold shows (our own)."""
KEPT = "a photo (JPEG, PNG, HEIC), a PDF or plain text (UTF-8)"
AS_JPEG = "Save it as JPEG or PNG and attach that."
UNPACK = "Unpack it and attach the photos, PDFs or texts that are in it, one by one."
AS_PDF = "Print it to a PDF and attach that."
NEVER = "What can run is never kept here."
MARKUP = re.compile(r"<\s*(?:!doctype|\?|html|svg|script|iframe|object|embed)", re.IGNORECASE)
TAR_AT = 257
OTHERS: tuple[tuple[tuple[bytes, ...], str, str], ...] = (
    ((b"GIF8", b"II*\0", b"MM\0*", b"BM", b"8BPS", b"\xff\x0a", b"\0\0\0\x0cjP  "),
     "a picture of another kind", AS_JPEG),
    ((b"PK\3\4", b"PK\5\6", b"7z\xbc\xaf\x27\x1c", b"Rar!", b"\x1f\x8b", b"\xfd7zXZ", b"BZh", b"\x28\xb5\x2f\xfd"),
     "an archive or an office document", UNPACK),
    ((b"\xd0\xcf\x11\xe0",), "an office document", AS_PDF),
    ((b"{\\rtf", b"%!PS"), "a document of another kind", AS_PDF),
    ((b"MZ", b"\x7fELF", b"\xfe\xed\xfa", b"\xce\xfa\xed\xfe", b"\xcf\xfa\xed\xfe", b"\xca\xfe\xba\xbe", b"\0asm"),
     "a program", NEVER),
    ((b"#!", b"@echo", b"@ECHO"), "a script", NEVER),
)  # fmt: skip
"""How other files begin (their formats' own magic numbers, from memory), what they are called, and what to do."""
NOTHING_KNOWN = "Attach a photo, a PDF, or text saved as UTF-8."


def type_of(data: bytes, name: str) -> FileType:
    """What a file is, looked at whole but not read as such; InputRefused where it is nothing that is kept.

    Parameters
    ----------
    data : all its bytes.
    name : for the refusal.
    """
    found = _type_in(data, name)
    if len(data) > LARGEST[found]:
        most = LARGEST[found] / MB
        remedy = "Make it smaller, or attach the pages or the part that matters."
        raise InputRefused("file-too-large", len(data) / MB, most, "MB", remedy)
    return found


def _type_in(data: bytes, name: str) -> FileType:
    if not data:
        raise InputRefused("file-empty", name, KEPT, "", "Copy the file again: it holds nothing.")
    photo = photo_kind_of(data[:64])
    if photo is not None:
        return PHOTOS[photo]
    if data.startswith(b"%PDF-"):
        return _whole_pdf(data, name)
    told = _other(data)
    if told is not None:
        raise InputRefused("file-not-kept", f"{name}: {told[0]}", KEPT, "", told[1])
    return _harmless_text(data, name)


def _whole_pdf(data: bytes, name: str) -> FileType:
    """Header and end as ISO 32000-1, 7.5.2 and 7.5.5 have them; nothing between is looked at."""
    if not data.rstrip(b"\r\n\t \0").endswith(b"%%EOF"):
        remedy = "Copy or download the PDF again: its end is missing, or something else hangs on it."
        raise InputRefused("file-cut-off", f"{name}: no end of a PDF", KEPT, "", remedy)
    return FileType.PDF


def _other(data: bytes) -> tuple[str, str] | None:
    for starts, what, remedy in OTHERS:
        if data.startswith(starts):
            return what, remedy
    if data[TAR_AT : TAR_AT + 5] == b"ustar":
        return "an archive or an office document", UNPACK
    if data[4:8] == b"ftyp":
        return "a movie, or a picture of another kind", AS_JPEG
    if data[:4] == b"RIFF":
        return "a picture of another kind", AS_JPEG
    return None


def _harmless_text(data: bytes, name: str) -> FileType:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputRefused("file-not-kept", f"{name}: of no kind that is known", KEPT, "", NOTHING_KNOWN) from None
    if MARKUP.search(text):
        remedy = "Print it to a PDF and attach that, or attach a photo of it."
        raise InputRefused("file-not-kept", f"{name}: a web page, or a drawing that can hold code", KEPT, "", remedy)
    steering = next((each for each in set(text) if steers(each) and each not in "\n\r\t\f"), None)
    if steering is not None:
        told = f"{name}: text with the character U+{ord(steering):04X}, which is not for the eye"
        raise InputRefused("file-not-kept", told, KEPT, "", NOTHING_KNOWN)
    return FileType.TEXT
