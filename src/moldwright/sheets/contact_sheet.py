"""The contact sheet: every photo with the outline that was seen in it, or why it is dropped, as PDF and as PNG."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
from PIL import Image

from moldwright.photos.photographed import Floats, SeenPhoto
from moldwright.sheets.photo_told import reason_text
from moldwright.sheets.photo_words import photo_words
from moldwright.sheets.typesetting import PAPERS, typeset, typeset_png
from moldwright.text.harmless import harmless

QUALITY = 82
COARSE_PX = 0.4
"""How far a drawn outline may be from the one that was seen, on a photo's small copy [px]."""
PICTURE_DOTS = 6.0
"""Dots per millimeter of the PNG."""
FACTS_MOST = 8
EMPTY_TALL = 0.75
"""Height over breadth of the frame of a photo that could not be read."""


@dataclass(frozen=True, slots=True)
class ContactFacts:
    """What stands over the photos: the piece's name, figures as name and text, and lines of the tally."""

    name: str
    figures: tuple[tuple[str, str], ...]
    lines: tuple[str, ...]


def contact_files(photos: Sequence[SeenPhoto], facts: ContactFacts) -> dict[str, bytes]:
    """The sheet as the files of a plan's folder.

    Parameters
    ----------
    photos : all of them, in the order of their names.
    facts : what stands over them.
    """
    sheets = {f"sheets/photos-{paper}.pdf": contact_sheet(photos, facts, paper) for paper in PAPERS}
    return {**sheets, "sheets/photos.png": contact_picture(photos, facts)}


def contact_sheet(photos: Sequence[SeenPhoto], facts: ContactFacts, paper: str) -> bytes:
    """The sheet as a PDF.

    Parameters
    ----------
    photos : all of them, in the order of their names.
    facts : what stands over them.
    paper : "a4" or "letter".
    """
    data, pictures = _data(photos, facts)
    return typeset("contact", {**data, "paper": PAPERS[paper][0]}, pictures)


def contact_picture(photos: Sequence[SeenPhoto], facts: ContactFacts) -> bytes:
    """The sheet as one PNG, as tall as it takes.

    Parameters
    ----------
    photos : all of them, in the order of their names.
    facts : what stands over them.
    """
    data, pictures = _data(photos, facts)
    return typeset_png("contact", {**data, "paper": None}, pictures, PICTURE_DOTS)[0]


def _data(photos: Sequence[SeenPhoto], facts: ContactFacts) -> tuple[dict[str, Any], dict[str, bytes]]:
    words = photo_words()["contact"]
    pictures: dict[str, bytes] = {}
    rows = [_row(f"photo-{k}.jpg", photo, pictures) for k, photo in enumerate(photos)]
    used = [row for row in rows if row["used"]]
    dropped = [row for row in rows if not row["used"]]
    groups = (("dropped", 4, dropped, ""), ("used", 6, used, words["remedy"]))
    data = {
        "title": f"{words['title']}: {facts.name}",
        "counts": words["counts"].format(used=len(used), dropped=len(dropped)),
        "figures": [list(pair) for pair in facts.figures[:FACTS_MOST]],
        "lines": list(facts.lines),
        "groups": [
            {"title": words[name], "across": across, "photos": of, "say": say} for name, across, of, say in groups if of
        ],
        "tallest": max((row["tall"] for row in rows), default=EMPTY_TALL),
        "say": {key: words[key] for key in ("unread", "page")},
    }
    return data, pictures


def _row(file: str, photo: SeenPhoto, pictures: dict[str, bytes]) -> dict[str, Any]:
    """One photo as the form draws it; its picture is encoded anew, so that nothing else of its file comes along."""
    name = harmless(photo.told.file)
    row = {"name": name, "reason": reason_text(photo.told), "used": photo.told.used, "alt": name}
    if photo.rgb is None:
        return {**row, "file": None, "tall": EMPTY_TALL, "rings": []}
    tall, wide = photo.rgb.shape[:2]
    held = io.BytesIO()
    Image.fromarray(photo.rgb).save(held, "JPEG", quality=QUALITY)
    pictures[file] = held.getvalue()
    rings = [ring for whole in photo.rings if len(ring := _coarse(whole, wide, tall)) > 2]
    return {**row, "file": file, "tall": tall / wide, "rings": rings}


def _coarse(ring: Floats, wide: int, tall: int) -> list[list[float]]:
    """A ring with no more points than the sheet shows, still as shares."""
    on_photo = (ring * (wide, tall)).astype(np.float32).reshape(-1, 1, 2)
    kept = cv2.approxPolyDP(on_photo, COARSE_PX, True)[:, 0, :] / (wide, tall)
    return [[round(float(x), 4), round(float(y), 4)] for x, y in kept]
