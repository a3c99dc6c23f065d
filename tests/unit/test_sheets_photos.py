"""The contact sheet and what is told of photos: every reason has its words, every photo its place and outline.

The PDF is read back by pypdf and the PNG by Pillow, which have no part in setting them.
"""

from __future__ import annotations

import io
import math
from dataclasses import replace

import numpy as np
import pypdf
import pytest
from PIL import Image

from moldwright.commission.reading import commission_from_toml
from moldwright.photos.ask import Ask, AskKind, AskName
from moldwright.photos.photographed import HullWarning, SeenPhoto
from moldwright.photos.poses import PoseWarning
from moldwright.photos.tally import MissingArc, Ring, RingFault, Tally
from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.sheets.contact_sheet import (
    ContactFacts,
    _row,
    contact_files,
    contact_picture,
    contact_sheet,
)
from moldwright.sheets.photo_told import ask_line, reason_text, side_of, tally_lines, warning_line

FACTS = ContactFacts("Bear", (("Volume", "812 ml (780–850)"), ("Sheet", "A4")), ("Low ring: 24 photos, at 20°",))
SEEN_RGB = (214, 0, 108)


def photo(name: str, reason: PhotoReason | None = None, wide: int = 400, tall: int = 300) -> SeenPhoto:
    ring = np.array([(0.25, 0.2), (0.5, 0.2), (0.5, 0.8), (0.25, 0.8)])
    rgb = np.full((tall, wide, 3), (190, 230, 185), np.uint8)
    corner = int("0" + "".join(filter(str.isdigit, name)))
    rgb[:60, : 4 * corner] = 90, 110, 80  # pictures that are the same are kept once in a PDF
    told = PhotoTold(name, reason is None, reason, 0.42, 0.55)
    return SeenPhoto(told, None if reason is PhotoReason.UNREADABLE else rgb, () if reason else (ring,))


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


def test_the_usual_49_are_one_page_of_a4_and_two_where_some_are_dropped_or_on_letter() -> None:
    facts = replace(FACTS, lines=("Low ring", "High ring", "From above", "Nothing is missing"))
    good = [photo(f"{k}.jpg") for k in range(49)]
    some = [photo(f"{k}.jpg", PhotoReason.SOFT if k in (3, 9) else None) for k in range(49)]
    counts = {
        (paper, name): len(pypdf.PdfReader(io.BytesIO(contact_sheet(photos, facts, paper))).pages)
        for paper in ("a4", "letter")
        for name, photos in (("good", good), ("some", some))
    }
    assert counts == {("a4", "good"): 1, ("a4", "some"): 2, ("letter", "good"): 2, ("letter", "some"): 2}


@pytest.mark.parametrize(("wide", "tall"), [(400, 300), (400, 200), (300, 400)])
def test_an_outline_is_drawn_where_it_was_seen(wide: int, tall: int) -> None:
    """In closed form: six photos abreast on 190 mm with 3 mm between, a photo no taller than it is wide."""
    png = contact_picture([photo("a.jpg", None, wide, tall)], FACTS)
    picture = np.asarray(Image.open(io.BytesIO(png)).convert("RGB"))
    rows, columns = np.nonzero(np.abs(picture.astype(int) - SEEN_RGB).max(axis=2) < 12)
    across = (190 - 5 * 3) / 6 * min(1.0, wide / tall)
    pen = 0.25
    assert (np.ptp(columns) + 1) / 6 == pytest.approx(0.25 * across + pen, abs=0.3)
    assert (np.ptp(rows) + 1) / 6 == pytest.approx(0.6 * across * tall / wide + pen, abs=0.3)
    left = 10 + ((190 - 15) / 6 - across) / 2
    assert columns.min() / 6 == pytest.approx(left + 0.25 * across - pen / 2, abs=0.35)


def test_a_dropped_photo_is_marked_and_the_same_input_gives_the_same_bytes() -> None:
    dropped = contact_picture([photo("a.jpg", PhotoReason.SOFT)], FACTS)
    assert dropped == contact_picture([photo("a.jpg", PhotoReason.SOFT)], FACTS)
    picture = np.asarray(Image.open(io.BytesIO(dropped)).convert("RGB")).astype(int)
    assert np.abs(picture - SEEN_RGB).max(axis=2).min() > 12, "no outline in it"


def test_an_outline_of_many_points_is_drawn_by_few_and_a_speck_is_left_out() -> None:
    """A circle in closed form: what is kept lies on it within half a pixel of the small copy."""
    turns = np.linspace(0, 2 * math.pi, 4000, endpoint=False)
    circle = np.array([0.5, 0.5]) + np.column_stack([100 / 400 * np.cos(turns), 100 / 300 * np.sin(turns)])
    speck = np.array([(0.1, 0.1), (0.1001, 0.1), (0.1, 0.1001)])
    pictures: dict[str, bytes] = {}
    row = _row("a.jpg", replace(photo("a.jpg"), rings=(circle, speck)), pictures)
    (ring,) = row["rings"]
    assert 20 < len(ring) < 200
    assert np.hypot(*((np.array(ring) - 0.5) * (400, 300)).T) == pytest.approx(100.0, abs=0.5)


def test_the_files_of_a_plan_are_two_papers_and_a_picture() -> None:
    files = contact_files([photo("a.jpg")], FACTS)
    assert list(files) == ["sheets/photos-a4.pdf", "sheets/photos-letter.pdf", "sheets/photos.png"]
    sides = [pypdf.PdfReader(io.BytesIO(files[name])).pages[0].mediabox.height for name in list(files)[:2]]
    assert [float(side) for side in sides] == pytest.approx([297 * 72 / 25.4, 792.0], abs=0.1)
    assert Image.open(io.BytesIO(files["sheets/photos.png"])).format == "PNG"


@pytest.mark.parametrize("reason", list(PhotoReason))
def test_every_reason_has_words_of_its_own(reason: PhotoReason) -> None:
    texts = {other: reason_text(PhotoTold("a.jpg", False, other, 1.5, 1.0)) for other in PhotoReason}
    assert texts[reason]
    assert list(texts.values()).count(texts[reason]) == 1
    assert "{" not in texts[reason]


WARNINGS = [*PoseWarning, *HullWarning]


@pytest.mark.parametrize("warning", WARNINGS)
def test_every_warning_has_words_with_its_figure(warning: PoseWarning | HullWarning) -> None:
    assert warning_line(warning, 0.25) != warning_line(warning, 0.75)
    assert len({warning_line(other, 0.25) for other in WARNINGS}) == len(WARNINGS)


@pytest.mark.parametrize("kind", list(AskKind))
def test_what_is_asked_tells_where_and_how_much(kind: AskKind) -> None:
    told = ask_line(Ask(AskName.A, kind, (-30.0, 12.0, 140.0), 44.0, 31.5))
    assert [
        part
        for part in ("30 mm to the left", "12 mm behind", "140 mm up", "44 mm across", "31.5 ml")
        if part not in told
    ] == []


def test_a_question_tells_how_both_answers_are_written_and_the_told_answer_is_read() -> None:
    told = ask_line(Ask(AskName.B, AskKind.BOWL, (0.0, 0.0, 140.0), 44.0, 31.5))
    assert "every range counts both" in told
    assert 'depth = "0 mm"' in told
    written = told[told.index("bowls = ") : told.index(", or depth")].replace("…", "30 mm")
    (bowl,) = commission_from_toml(f'[original]\nphotos = "p"\n{written}').original.bowls
    assert (bowl.name, bowl.depth_mm, bowl.width_mm) == (AskName.B, 30.0, 30.0)


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
