"""The certificate of a numbered piece: one page, in black, with a square code that holds the piece's id."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import Any

from PIL import Image, ImageOps

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code, urn_of
from moldwright.sheets.label_pages import one_line
from moldwright.sheets.qr import qr_code, qr_data
from moldwright.sheets.typesetting import PAPERS, typeset

MODULE_MM = 0.6
"""Side of a module of the code [mm]: 25 mm in all, read at arm's length; our own."""
PHOTO_FORMATS = ("JPEG", "PNG")
MOST_PIXELS = 100_000_000
"""More than any camera's photo: our own."""
MOST_ACROSS = 1890
"""Pixels along a photo's longer side: 160 mm at 300 to the inch."""
QUALITY = 92
PHOTO_NAME = "piece.jpg"


@dataclass(frozen=True, slots=True)
class CertificateText:
    """What a certificate says; "" where nobody knows, and the line is left out.

    Parameters
    ----------
    id : the piece's UUID.
    edition : the edition's name.
    number : "17 of 50", "artist's proof 2 of 3".
    title : of the work, where it is not the edition's name.
    maker : whose work it is.
    materials : of what it is.
    size, weight : as measured, in the reader's units.
    cast_on : a day.
    mold : of which it was drawn.
    whole : how large the whole edition is, in words.
    photo : JPEG or PNG bytes.
    """

    id: str
    edition: str
    number: str
    title: str = ""
    maker: str = ""
    materials: str = ""
    size: str = ""
    weight: str = ""
    cast_on: str = ""
    mold: str = ""
    whole: str = ""
    photo: bytes | None = None


def certificate_pdf(text: CertificateText, paper: str) -> bytes:
    """The PDF of a certificate.

    Parameters
    ----------
    text : what it says.
    paper : "a4" or "letter".

    Raises InputRefused ("photo-unreadable").
    """
    return typeset("certificate", *certificate_data(text, paper))


def certificate_data(text: CertificateText, paper: str) -> tuple[dict[str, Any], dict[str, bytes]]:
    """What the form prints, and the photo by its name in the form, upright and no finer than it is printed.

    Parameters
    ----------
    text : what it says.
    paper : "a4" or "letter".

    Raises InputRefused ("photo-unreadable").
    """
    photo = None if text.photo is None else _printable(text.photo)
    title = one_line(text.title or text.edition)
    rows = [
        ("Edition", text.edition if text.title else ""), ("Size of the edition", text.whole), ("Made by", text.maker),
        ("Material", text.materials), ("Size", text.size), ("Weight", text.weight), ("Cast on", text.cast_on),
        ("Mold", text.mold),
    ]  # fmt: skip
    data = {
        "paper": PAPERS[paper][0],
        "what": "Certificate",
        "name": title,
        "number": one_line(text.number),
        "rows": [[head, told] for head, value in rows if (told := one_line(value))],
        "photo": None if photo is None else {"file": PHOTO_NAME, "aspect": photo.aspect},
        "code": qr_data(qr_code(urn_of(text.id)), MODULE_MM),
        "short": short_code(text.id),
        "urn": urn_of(text.id),
        "says": "The square code holds this piece's own number in the shop's records:",
    }
    return data, {} if photo is None else {PHOTO_NAME: photo.jpeg}


@dataclass(frozen=True, slots=True)
class PrintedPhoto:
    """A photo as it is printed, and its width in heights."""

    jpeg: bytes
    aspect: float


def _printable(photo: bytes) -> PrintedPhoto:
    try:
        with Image.open(io.BytesIO(photo), formats=PHOTO_FORMATS) as opened:
            if opened.width * opened.height > MOST_PIXELS:
                raise ValueError(f"{opened.width} x {opened.height} pixels")
            upright = _on_white(ImageOps.exif_transpose(opened))
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
        remedy = "Take a photo as JPEG or PNG."
        raise InputRefused("photo-unreadable", str(error), " or ".join(PHOTO_FORMATS), "", remedy) from None
    upright.thumbnail((MOST_ACROSS, MOST_ACROSS))
    held = io.BytesIO()
    upright.save(held, "JPEG", quality=QUALITY)
    return PrintedPhoto(held.getvalue(), upright.width / upright.height)


def _on_white(picture: Image.Image) -> Image.Image:
    """Without transparency, which paper has none of."""
    layered = picture.convert("RGBA")
    return Image.alpha_composite(Image.new("RGBA", layered.size, "white"), layered).convert("RGB")
