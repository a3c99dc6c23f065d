"""Labels as a camera and a reader of PDFs see them: pages as pixels, codes read, texts with their places."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from typing import Any

import cv2
import numpy as np
import pypdf
from numpy.typing import NDArray

from moldwright.sheets.typesetting import typeset_png

MM = 72 / 25.4
DOTS = 12.0
"""Dots per millimeter, about a printer's 300 to the inch."""
Pixels = NDArray[np.uint8]


def shots(form: str, data: dict[str, Any], pictures: dict[str, bytes] | None = None) -> list[Pixels]:
    """Every page in grays."""
    pages = typeset_png(form, data, pictures or {}, DOTS)
    return [cv2.imdecode(np.frombuffer(page, np.uint8), cv2.IMREAD_GRAYSCALE) for page in pages]


def part(page: Pixels, left: float, top: float, wide: float, tall: float) -> Pixels:
    """A rectangle of a page [mm]."""
    rows = slice(round(top * DOTS), round((top + tall) * DOTS))
    return page[rows, round(left * DOTS) : round((left + wide) * DOTS)]


def scanned(picture: Pixels) -> str:
    """What OpenCV's two detectors read of the one code in a picture, "" for nothing.

    Each misses about one code in fifty at a given size, of bare codes too, so they look more than once, as a telephone
    does thirty times a second.
    """
    for scale in (1.0, 0.75, 0.5):
        seen = cv2.resize(picture, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
        for detector in (cv2.QRCodeDetector(), cv2.QRCodeDetectorAruco()):
            if found := detector.detectAndDecode(seen)[0]:
                return str(found)
    return ""


def texts(pdf: bytes) -> list[str]:
    """The text of each page, its white space as single spaces."""
    return [re.sub(r"\s+", " ", page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


def runs(pdf: bytes, page: int = 0) -> list[tuple[str, float, float, float]]:
    """Every run of text of a page: text, left and base line from the upper left corner [mm], size [pt]."""
    found: list[tuple[str, float, float, float]] = []
    its = pypdf.PdfReader(io.BytesIO(pdf)).pages[page]
    tall = float(its.mediabox.height)

    def see(text: str, matrix: Sequence[float], place: Sequence[float], _font: object, size: float) -> None:
        if text.strip():
            x = place[4] * matrix[0] + place[5] * matrix[2] + matrix[4]
            y = place[4] * matrix[1] + place[5] * matrix[3] + matrix[5]
            found.append((text.strip(), x / MM, (tall - y) / MM, size * abs(place[3])))

    its.extract_text(visitor_text=see)
    return found
