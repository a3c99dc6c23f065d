"""The contact sheet and what is told of photos: every reason has its words, every photo its place and outline.

The PDF is read back by pypdf and the PNG by Pillow, which have no part in setting them.
"""

from __future__ import annotations

import io
import math

import numpy as np
import pypdf
import pytest
from PIL import Image

from moldwright.photos.poses import PoseWarning
from moldwright.photos.tally import MissingArc, Ring, RingFault, Tally
from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.sheets.contact_sheet import (
    ContactFacts,
    ContactPhoto,
    contact_files,
    contact_picture,
    contact_sheet,
    rings_of,
)
from moldwright.sheets.contact_sheet import thumbnail as small_copy
from moldwright.sheets.photo_told import reason_text, side_of, tally_lines, warning_line

FACTS = ContactFacts("Bear", (("Volume", "812 ml (780–850)"), ("Sheet", "A4")), ("Low ring: 24 photos, at 20°",))
SEEN_RGB = (214, 0, 108)


def photo(name: str, reason: PhotoReason | None = None, wide: int = 400, tall: int = 300) -> ContactPhoto:
    ring = np.array([(0.25, 0.2), (0.5, 0.2), (0.5, 0.8), (0.25, 0.8)])
    rgb = np.full((tall, wide, 3), (190, 230, 185), np.uint8)
    corner = int("0" + "".join(filter(str.isdigit, name)))
    rgb[:60, : 4 * corner] = 90, 110, 80  # pictures that are the same are kept once in a PDF
    told = PhotoTold(name, reason is None, reason, 0.42, 0.55)
    return ContactPhoto(told, None if reason is PhotoReason.UNREADABLE else rgb, () if reason else (ring,))


def text_of(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages).split())


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_photo_stands_on_the_sheet_once_and_a_dropped_one_with_its_reason(paper: str) -> None:
    reasons = list(PhotoReason)
    photos = [photo(f"IMG_{k:03}.jpg", reasons[k] if k < len(reasons) else None) for k in range(49)]
    pdf = contact_sheet(photos, FACTS, paper)
    text = text_of(pdf)
    assert all(text.count(each.told.file) == 1 for each in photos)
    for each in photos:
        assert reason_text(each.told) in text
    assert f"{49 - len(reasons)} used, {len(reasons)} dropped" in text
    assert "What the photos showed: Bear" in text
    assert "812 ml (780–850)" in text
    assert "Low ring: 24 photos" in text
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    assert len(pages) <= 3
    assert sum(len(page.images) for page in pages) == sum(each.rgb is not None for each in photos)
    assert f"Sheet 1 of {len(pages)}" in text


def test_the_usual_48_with_two_dropped_are_two_pages() -> None:
    photos = [photo(f"{k}.jpg", PhotoReason.SOFT if k in (3, 9) else None) for k in range(49)]
    for paper in ("a4", "letter"):
        assert len(pypdf.PdfReader(io.BytesIO(contact_sheet(photos, FACTS, paper))).pages) == 2


@pytest.mark.parametrize(("wide", "tall"), [(400, 300), (400, 200), (300, 400)])
def test_an_outline_is_drawn_where_it_was_seen(wide: int, tall: int) -> None:
    """In closed form: six photos abreast on 190 mm with 3 mm between, a photo no taller than it is wide."""
    png = contact_picture([photo("a.jpg", None, wide, tall)], FACTS)
    picture = np.asarray(Image.open(io.BytesIO(png)).convert("RGB"))
    rows, columns = np.nonzero(np.abs(picture.astype(int) - SEEN_RGB).max(axis=2) < 12)
    across = (190 - 5 * 3) / 6 * min(1.0, wide / tall)
    pen = 0.3
    assert (np.ptp(columns) + 1) / 6 == pytest.approx(0.25 * across + pen, abs=0.3)
    assert (np.ptp(rows) + 1) / 6 == pytest.approx(0.6 * across * tall / wide + pen, abs=0.3)
    left = 10 + ((190 - 15) / 6 - across) / 2
    assert columns.min() / 6 == pytest.approx(left + 0.25 * across - pen / 2, abs=0.35)


def test_a_dropped_photo_is_marked_and_the_same_input_gives_the_same_bytes() -> None:
    dropped = contact_picture([photo("a.jpg", PhotoReason.SOFT)], FACTS)
    assert dropped == contact_picture([photo("a.jpg", PhotoReason.SOFT)], FACTS)
    picture = np.asarray(Image.open(io.BytesIO(dropped)).convert("RGB")).astype(int)
    assert np.abs(picture - SEEN_RGB).max(axis=2).min() > 12, "no outline in it"


def test_rings_keep_what_they_enclose_in_few_points() -> None:
    """Circles in closed form, on pixels as a contour has them."""
    turns = np.linspace(0, 2 * math.pi, 1000, endpoint=False)
    circles = [np.rint([400, 300] + r * np.column_stack([np.cos(turns), np.sin(turns)])) for r in (200.0, 50.0)]
    rings = rings_of([circle.astype(np.int32) for circle in circles], 800, 600)
    assert [area(ring * (800, 600)) for ring in rings] == pytest.approx([math.pi * 200**2, math.pi * 50**2], rel=0.03)
    assert max(map(len, rings)) < 100
    assert np.mean(rings[0], axis=0) * (800, 600) == pytest.approx((400.5, 300.5), abs=8)
    assert rings_of([np.array([[1, 1], [2, 2]], np.int32)], 80, 60) == (), "a line encloses nothing"


def test_the_files_of_a_plan_are_two_papers_and_a_picture() -> None:
    files = contact_files([photo("a.jpg")], FACTS)
    assert list(files) == ["sheets/photos-a4.pdf", "sheets/photos-letter.pdf", "sheets/photos.png"]
    sides = [pypdf.PdfReader(io.BytesIO(files[name])).pages[0].mediabox.height for name in list(files)[:2]]
    assert [float(side) for side in sides] == pytest.approx([297 * 72 / 25.4, 792.0], abs=0.1)
    assert Image.open(io.BytesIO(files["sheets/photos.png"])).format == "PNG"


def area(ring: np.ndarray) -> float:
    """The shoelace formula."""
    x, y = ring.T
    return abs(float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))) / 2


def test_a_thumbnail_keeps_its_form_and_is_small() -> None:
    made = small_copy(np.zeros((3000, 4000, 3), np.uint8))
    assert made.shape == (300, 400, 3)
    assert small_copy(np.zeros((30, 40, 3), np.uint8)).shape == (30, 40, 3)


@pytest.mark.parametrize("reason", list(PhotoReason))
def test_every_reason_has_words_of_its_own(reason: PhotoReason) -> None:
    texts = {other: reason_text(PhotoTold("a.jpg", False, other, 1.5, 1.0)) for other in PhotoReason}
    assert texts[reason]
    assert list(texts.values()).count(texts[reason]) == 1
    assert "{" not in texts[reason]


@pytest.mark.parametrize("warning", list(PoseWarning))
def test_every_warning_has_words_with_its_figure(warning: PoseWarning) -> None:
    told = [warning_line(warning, figure) for figure in (0.25, 0.75)]
    assert told[0] != told[1]
    assert len({warning_line(other, 0.25) for other in PoseWarning}) == len(PoseWarning)


def test_a_photo_in_use_has_no_reason_and_figures_stand_only_where_there_are_some() -> None:
    assert reason_text(PhotoTold("a.jpg", True)) == ""
    soft = PhotoTold("a.jpg", False, PhotoReason.SOFT, 0.42, 0.55)
    assert reason_text(soft) == "soft or shaken: edges 42 % as sharp as most, at least 55 %"
    assert reason_text(PhotoTold("a.jpg", False, PhotoReason.SOFT)) == "soft or shaken"
    assert "3.4 px, at most 1" in reason_text(PhotoTold("a.jpg", False, PhotoReason.MOVED, 3.4, 1.0))


def test_the_tally_says_what_is_missing_from_which_side() -> None:
    """Degrees run clockwise from the front as seen from above: 90 is the left (photos/tally.py)."""
    low = Ring(22, 20.4, (MissingArc(140.0, 215.0, 4), MissingArc(340.0, 20.0, 1)), None)
    lines = tally_lines(Tally(low, Ring(23, 38.0, (), RingFault.TOO_LOW), 1, 5))
    assert lines == [
        "Low ring: 22 photos, at 20°",
        "  none from the back between 140° and 215°: 4 photos more",
        "  none from the front between 340° and 20°: 1 photo more",
        "High ring: 23 photos, at 38°",
        "  too low: raise the phone",
        "From above: 1 photo",
        "5 photos more would make it whole",
    ]


def test_a_whole_tally_and_a_missing_ring() -> None:
    whole = Ring(24, 21.0, (), None)
    assert tally_lines(Tally(whole, whole, 1, 0))[-1] == "Nothing is missing"
    none = Ring(0, 0.0, (MissingArc(0.0, 0.0, 24),), RingFault.MISSING)
    lines = tally_lines(Tally(whole, none, 0, 25))
    assert lines[1] == "High ring: missing, no photo of it"
    assert lines[2].startswith("From above: none")


SIDES = {0: "the front", 90: "the left", 180: "the back", 270: "the right", -45: "the front right", 361: "the front"}


@pytest.mark.parametrize(("deg", "side"), SIDES.items())
def test_sides_are_named_clockwise_from_the_front(deg: float, side: str) -> None:
    assert side_of(deg) == side
