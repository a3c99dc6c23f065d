"""The contact sheet: every photo with the outline that was seen in it, or why it is dropped, as PDF and as PNG."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt
from PIL import Image

from moldwright.photos.told import PhotoTold
from moldwright.sheets.photo_told import reason_text
from moldwright.sheets.photo_words import photo_words
from moldwright.sheets.typesetting import PAPERS, typeset, typeset_png
from moldwright.text.harmless import harmless

Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float64]

THUMB_PX = 400
"""Long side of a photo on the sheet: 12 dots a millimeter there."""
QUALITY = 82
COARSE_PX = 0.4
"""How far a drawn outline may be from the one that was seen, of a photo's thumbnail [px]."""
PICTURE_DOTS = 6.0
"""Dots per millimeter of the PNG."""
FACTS_MOST = 8
EMPTY_TALL = 0.75
"""Height over breadth of the frame of a photo that could not be read."""


@dataclass(frozen=True, slots=True, eq=False)
class ContactPhoto:
    """One photo on the sheet.

    `told` : used, or dropped and why; `rgb` : a small copy, (height, width, 3), None where it could not be read;
    `rings` : the outline seen in it, each ring (n, 2) as shares of its width and height, right and down.
    """

    told: PhotoTold
    rgb: Pixels | None
    rings: tuple[Floats, ...] = ()


@dataclass(frozen=True, slots=True)
class ContactFacts:
    """What stands over the photos: the piece's name, figures as name and text, and lines of the tally."""

    name: str
    figures: tuple[tuple[str, str], ...]
    lines: tuple[str, ...]


def thumbnail(rgb: Pixels) -> Pixels:
    """A small copy of a photo.

    Parameters
    ----------
    rgb : its pixels, (height, width, 3).
    """
    tall, wide = rgb.shape[:2]
    scale = THUMB_PX / max(tall, wide)
    if scale >= 1:
        return np.ascontiguousarray(rgb)
    size = max(1, round(wide * scale)), max(1, round(tall * scale))
    return np.asarray(cv2.resize(np.ascontiguousarray(rgb), size, interpolation=cv2.INTER_AREA), np.uint8)


def rings_of(lines_px: Iterable[npt.NDArray[np.int32]], width_px: int, height_px: int) -> tuple[Floats, ...]:
    """The closed lines of an outline as shares of its photo's width and height, as fine as the sheet shows them.

    Parameters
    ----------
    lines_px : (n, 2) each, by the middles of pixels on the photo [px].
    width_px, height_px : of the photo [px].
    """
    coarse = COARSE_PX * max(width_px, height_px) / THUMB_PX
    rings = (cv2.approxPolyDP(line.astype(np.int32).reshape(-1, 1, 2), coarse, True)[:, 0, :] for line in lines_px)
    return tuple((ring + 0.5) / (width_px, height_px) for ring in rings if len(ring) > 2)


def contact_files(photos: Sequence[ContactPhoto], facts: ContactFacts) -> dict[str, bytes]:
    """The sheet as the files of a plan's folder.

    Parameters
    ----------
    photos : all of them, in the order of their names.
    facts : what stands over them.
    """
    sheets = {f"sheets/photos-{paper}.pdf": contact_sheet(photos, facts, paper) for paper in PAPERS}
    return {**sheets, "sheets/photos.png": contact_picture(photos, facts)}


def contact_sheet(photos: Sequence[ContactPhoto], facts: ContactFacts, paper: str) -> bytes:
    """The sheet as a PDF.

    Parameters
    ----------
    photos : all of them, in the order of their names.
    facts : what stands over them.
    paper : "a4" or "letter".
    """
    data, pictures = _data(photos, facts)
    return typeset("contact", {**data, "paper": PAPERS[paper][0]}, pictures)


def contact_picture(photos: Sequence[ContactPhoto], facts: ContactFacts) -> bytes:
    """The sheet as one PNG, as tall as it takes.

    Parameters
    ----------
    photos : all of them, in the order of their names.
    facts : what stands over them.
    """
    data, pictures = _data(photos, facts)
    return typeset_png("contact", {**data, "paper": None}, pictures, PICTURE_DOTS)[0]


def _data(photos: Sequence[ContactPhoto], facts: ContactFacts) -> tuple[dict[str, Any], dict[str, bytes]]:
    words = photo_words()["contact"]
    pictures: dict[str, bytes] = {}
    rows = [_row(f"photo-{k}.jpg", photo, pictures) for k, photo in enumerate(photos)]
    used = [row for row in rows if row["used"]]
    dropped = [row for row in rows if not row["used"]]
    shown = "seen" if any(row["rings"] for row in used) else "used"
    groups = (("dropped", 4, dropped), (shown, 6, used))
    data = {
        "title": f"{words['title']}: {facts.name}",
        "counts": words["counts"].format(used=len(used), dropped=len(dropped)),
        "figures": [list(pair) for pair in facts.figures[:FACTS_MOST]],
        "lines": list(facts.lines),
        "groups": [{"title": words[name], "across": across, "photos": of} for name, across, of in groups if of],
        "tallest": max((row["tall"] for row in rows), default=EMPTY_TALL),
        "say": {key: words[key] for key in ("remedy", "unread", "page")},
    }
    return data, pictures


def _row(file: str, photo: ContactPhoto, pictures: dict[str, bytes]) -> dict[str, Any]:
    """One photo as the form draws it; its picture is encoded anew, so that nothing else of its file comes along."""
    name = harmless(photo.told.file)
    row = {"name": name, "reason": reason_text(photo.told), "used": photo.told.used, "alt": name}
    if photo.rgb is None:
        return {**row, "file": None, "tall": EMPTY_TALL, "rings": []}
    small = thumbnail(photo.rgb)
    held = io.BytesIO()
    Image.fromarray(small).save(held, "JPEG", quality=QUALITY)
    pictures[file] = held.getvalue()
    rings = [[[round(float(x), 4), round(float(y), 4)] for x, y in ring] for ring in photo.rings if len(ring) > 2]
    return {**row, "file": file, "tall": small.shape[0] / small.shape[1], "rings": rings}
