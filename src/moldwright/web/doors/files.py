"""Files that are handed out: what they are is told by their bytes, and none is ever a page.

What a browser shows itself is a picture of pixels or a PDF; all else is for saving. Either way it may run nothing.
Source: RFC 6266, 4 (Content-Disposition), RFC 8187, 3.2 (its file name), Fetch (WHATWG), 3.6 (nosniff), CSP Level 3.
"""

from __future__ import annotations

import unicodedata
from pathlib import Path
from urllib.parse import quote

from starlette.background import BackgroundTask
from starlette.responses import FileResponse, Response

from moldwright.log.ids import FileHash
from moldwright.photos.reading.sniff import kind_of
from moldwright.records.files.keep import label_of
from moldwright.records.files.kept import bytes_of
from moldwright.records.files.kinds import PHOTOS
from moldwright.records.shop import Shop

LOCKED = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox"
AS_PDF = "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'none'"
"""A browser's own reader of PDFs is a page of its own with a style inside; in a sandbox it does not open."""
PDF, ZIP, UNKNOWN = "application/pdf", "application/zip", "application/octet-stream"
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
    data = bytes_of(shop.files, file)
    headers = headers_of(data[:HEAD_BYTES], name or file[:12]) | {"Cache-Control": LASTING, "ETag": f'"{file}"'}
    return Response(data, headers=headers)


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
