"""Files that are handed out: what they are is told by their bytes, and none is ever a page.

What a browser shows itself is a picture of pixels, a PDF or plain text; all else is for saving. Either way it may run
nothing: text is told to be text, whatever tags stand in it.
Source: RFC 6266, 4 (Content-Disposition), RFC 8187, 3.2 (its file name), Fetch (WHATWG), 3.6 (nosniff), CSP Level 3.
"""

from __future__ import annotations

import unicodedata
from pathlib import Path
from urllib.parse import quote

from starlette.background import BackgroundTask
from starlette.responses import FileResponse, Response

from moldwright.errors import InputRefused
from moldwright.log.ids import FileHash
from moldwright.photos.reading.sniff import kind_of
from moldwright.records.files.keep import LONGEST_LABEL, label_of
from moldwright.records.files.kept import bytes_of
from moldwright.records.files.kinds import LARGEST, PHOTOS, FileType, type_of
from moldwright.records.shop import Shop

LOCKED = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox"
AS_PDF = "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'none'"
"""A browser's own reader of PDFs is a page of its own with a style inside; in a sandbox it does not open."""
PDF, ZIP, UNKNOWN = "application/pdf", "application/zip", "application/octet-stream"
AS_TEXT, END = "text/plain; charset=utf-8", ".txt"
"""A kept text is UTF-8 (`records/files/kinds.py`)."""
HEAD_BYTES = 64
LASTING = "private, max-age=31536000, immutable"
"""The same hash always holds the same bytes (RFC 8246)."""


def kept_answer(shop: Shop, file: FileHash, name: str = "") -> Response:
    """A kept file of the records, as it was when it was kept.

    Parameters
    ----------
    shop : the store.
    file : its hash; nothing else ever becomes part of a path.
    name : under which it is saved; it decides nothing.

    Raises RecordConflict ("file-missing", "file-damaged").
    """
    data, called = bytes_of(shop.files, file), name or file[:12]
    headers = text_headers(called) if is_text(data) else headers_of(data[:HEAD_BYTES], called)
    return Response(data, headers=headers | {"Cache-Control": LASTING, "ETag": f'"{file}"'})


def made_answer(path: Path, name: str, after: BackgroundTask | None = None) -> Response:
    """A file that the desk made itself, streamed.

    Parameters
    ----------
    path : where it lies; never from what somebody wrote.
    name : under which it is saved.
    after : what is done when it is sent.
    """
    with path.open("rb") as file:
        head = file.read(HEAD_BYTES)
    headers = headers_of(head, name)
    kind = headers.pop("Content-Type")
    return FileResponse(path, headers=headers | {"Cache-Control": "no-store"}, media_type=kind, background=after)


def headers_of(head: bytes, name: str) -> dict[str, str]:
    """The headers of a file.

    Parameters
    ----------
    head : its first bytes.
    name : under which it is saved.
    """
    kind = media_type_of(head)
    return {
        "Content-Type": kind,
        "Content-Disposition": disposition(name, inline=kind not in (ZIP, UNKNOWN)),
        "X-Content-Type-Options": "nosniff",
        "Content-Security-Policy": AS_PDF if kind == PDF else LOCKED,
    }


def text_headers(name: str) -> dict[str, str]:
    """The headers of a text; saved, it is one to every system, whatever it was called.

    Parameters
    ----------
    name : under which it is saved.
    """
    called = label_of(name)
    called = called if called.lower().endswith(END) else f"{called[: LONGEST_LABEL - len(END)]}{END}"
    return {
        "Content-Type": AS_TEXT,
        "Content-Disposition": disposition(called, inline=True),
        "X-Content-Type-Options": "nosniff",
        "Content-Security-Policy": LOCKED,
    }


def is_text(data: bytes) -> bool:
    """Whether a kept file is a text, all of it.

    Parameters
    ----------
    data : its bytes.
    """
    try:
        return len(data) <= LARGEST[FileType.TEXT] and type_of(data, "") is FileType.TEXT
    except InputRefused:
        return False


def media_type_of(head: bytes) -> str:
    """What a browser may show, or need not pack again, told by how it begins; anything else is only bytes.

    Parameters
    ----------
    head : the first bytes.
    """
    photo = kind_of(head)
    if photo is not None:
        return PHOTOS[photo].value
    starts = ((b"%PDF-", PDF), (b"PK\3\4", ZIP))
    return next((kind for start, kind in starts if head.startswith(start)), UNKNOWN)


def disposition(name: str, inline: bool) -> str:
    """What is done with a file, and its name: plain letters, and beside them all that it has.

    Parameters
    ----------
    name : any.
    inline : whether a browser shows it.

    >>> disposition('Größe "1".pdf', inline=True)
    'inline; filename="Grosse _1_.pdf"; filename*=UTF-8\\'\\'Gr%C3%B6%C3%9Fe%20%221%22.pdf'
    """
    label = label_of(name)
    folded = unicodedata.normalize("NFKD", label.replace("ß", "ss")).encode("ascii", "ignore").decode()
    plain = "".join(letter if letter.isalnum() or letter in " .-_()" else "_" for letter in folded).strip() or "file"
    whole = quote(label.encode(errors="replace"), safe="")
    return f"{'inline' if inline else 'attachment'}; filename=\"{plain}\"; filename*=UTF-8''{whole}"
