"""Labels: every code read back from the page, every text within its label, every label where the sheet has it."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import replace
from itertools import product

import pypdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.label_shots import MM, Pixels, part, runs, scanned, shots, texts

from moldwright.errors import InputRefused
from moldwright.sheets.label_pages import LabelPrint, label_data, label_pdf
from moldwright.sheets.label_sheets import LabelSheet, label_sheets, measured_sheet, named_sheet, single_label
from moldwright.sheets.label_text import LabelKind, LabelLine, LabelText

INCH = 25.4


def id_of(number: int) -> str:
    return f"019a0000-0000-7000-8000-{number:012x}"


LOT = LabelText(
    LabelKind.LOT,
    "Silicone, addition-cure",
    (LabelLine("Expires", "2027-03-01"), LabelLine("No. 4711-23/B"), LabelLine("Opened", "2026-10-02")),
    id_of(0xABCD4F2A91BC),
    "Part A",
)
CAST = LabelText(
    LabelKind.CAST, "Otter on a stone", (LabelLine("Cast", "2026-11-27"),), id_of(2), "artist's proof 2 of 3"
)
CUP_LINES = tuple(LabelLine(name, f"{mass} g") for name, mass in (("B to", 41.4), ("thixotropic agent to", 42.2)))
CUP = LabelText(LabelKind.CUP, "Coat 2, brushed", CUP_LINES, id_of(3), "Cup 1 of 2", kept=2)
LONG = LabelText(
    LabelKind.MOLD,
    "A name that goes on and on " * 8,
    tuple(LabelLine(f"line {n} " * 20, "9" * 60) for n in range(12)),
    id_of(4),
)
SMALL = single_label("38x21")
SINGLES = ("62x29", "50x25", "102x51", "29x62", "60x60", "4 in x 2 in")
EVERY = [*label_sheets().values(), *map(single_label, SINGLES)]
SOME = ("a4-38x21", "letter-2.6x1", "29x62")
"""The smallest of each paper at every run, all of them in `make test-all`, where a code is read back by a library."""
READ_BACK = [pytest.param(each, id=each.name, marks=() if each.name in SOME else pytest.mark.slow) for each in EVERY]


def name_of(sheet: LabelSheet) -> str:
    return sheet.name


@pytest.mark.parametrize("sheet", READ_BACK)
def test_every_code_is_read_back_from_its_own_label(sheet: LabelSheet) -> None:
    """All labels of a sheet and one of the next; of single labels three."""
    count = sheet.count + 1 if sheet.count > 1 else 3
    labels = [replace((LOT, CAST, LONG)[n % 3], id=id_of(n)) for n in range(count)]
    pages = shots("label", label_data(labels, LabelPrint(sheet)))
    assert len(pages) == (2 if sheet.count > 1 else 3)
    for n in range(count):
        left, top = sheet.corner_mm(n % sheet.count)
        own = part(pages[n // sheet.count], left, top, sheet.label_wide_mm, sheet.label_tall_mm)
        assert scanned(own) == f"urn:uuid:{id_of(n)}"


SYMMETRIC = {
    "a4-70x37": (210.0, 297.0, 3, 8, 70.0, 37.0, 0.0, 0.0),
    "a4-63x38": (210.0, 297.0, 3, 7, 63.5, 38.1, 2.5, 0.0),
    "a4-99x38": (210.0, 297.0, 2, 7, 99.1, 38.1, 2.5, 0.0),
    "a4-99x68": (210.0, 297.0, 2, 4, 99.1, 67.7, 2.5, 0.0),
    "a4-46x21": (210.0, 297.0, 4, 12, 45.7, 21.2, 2.5, 0.0),
    "a4-38x21": (210.0, 297.0, 5, 13, 38.1, 21.2, 2.5, 0.0),
    "letter-2.6x1": (8.5 * INCH, 11 * INCH, 3, 10, 2.625 * INCH, INCH, 0.125 * INCH, 0.0),
    "letter-4x2": (8.5 * INCH, 11 * INCH, 2, 5, 4 * INCH, 2 * INCH, 0.1875 * INCH, 0.0),
    "letter-4x3.3": (8.5 * INCH, 11 * INCH, 2, 3, 4 * INCH, 10 / 3 * INCH, 0.1875 * INCH, 0.0),
}
"""Paper, labels across and down, their size, and the gaps between two: from memory. They lie in the paper's middle."""


@pytest.mark.parametrize("name", label_sheets())
def test_labels_lie_in_the_middle_of_their_paper(name: str) -> None:
    wide, tall, across, down, label_wide, label_tall, gap_x, gap_y = SYMMETRIC[name]
    left = (wide - across * label_wide - (across - 1) * gap_x) / 2
    top = (tall - down * label_tall - (down - 1) * gap_y) / 2
    sheet = named_sheet(name)
    assert sheet.count == across * down
    for row, column in product(range(down), range(across)):
        at = (left + column * (label_wide + gap_x), top + row * (label_tall + gap_y))
        assert sheet.corner_mm(row * across + column) == pytest.approx(at, abs=0.01)


@pytest.mark.parametrize("sheet", label_sheets().values(), ids=name_of)
def test_a_trial_shows_every_label_of_the_sheet(sheet: LabelSheet) -> None:
    """A line at the middle of each side, white within: the only label that says something is the last."""
    page = shots("label", label_data([LOT], LabelPrint(sheet, start=sheet.count, outlines=True)))[0]
    for place in range(sheet.count - 1):
        left, top = sheet.corner_mm(place)
        wide, tall = sheet.label_wide_mm, sheet.label_tall_mm
        for x, y in (
            (left, top + tall / 2),
            (left + wide, top + tall / 2),
            (left + wide / 2, top),
            (left + wide / 2, top + tall),
        ):
            inside = min(x, y, sheet.wide_mm - x, sheet.tall_mm - y) > 0.2
            assert not inside or part(page, x - 0.15, y - 0.15, 0.3, 0.3).min() < 128
        assert part(page, left + 0.3, top + 0.3, wide - 0.6, tall - 0.6).min() == 255


@pytest.mark.parametrize("sheet", EVERY, ids=name_of)
def test_pages_have_the_papers_size(sheet: LabelSheet) -> None:
    box = pypdf.PdfReader(io.BytesIO(label_pdf([LOT], LabelPrint(sheet)))).pages[0].mediabox
    assert (float(box.width) / MM, float(box.height) / MM) == pytest.approx((sheet.wide_mm, sheet.tall_mm), abs=0.02)


def test_single_labels_have_the_size_that_is_written() -> None:
    for written, size in (
        ("62x29", (62.0, 29.0)),
        ("50 × 25", (50.0, 25.0)),
        ("4 in x 2 in", (101.6, 50.8)),
        ("4x2 in", (101.6, 50.8)),
    ):
        box = pypdf.PdfReader(io.BytesIO(label_pdf([LOT], LabelPrint(single_label(written))))).pages[0].mediabox
        assert (float(box.width) / MM, float(box.height) / MM) == pytest.approx(size, abs=0.02)


def inked(page: Pixels, left: float, top: float, wide: float, tall: float) -> bool:
    return bool(part(page, left, top, wide, tall).min(initial=255) < 200)


def check_clear(labels: list[LabelText], how: LabelPrint, edge: float = 1.0) -> None:
    """No ink off the labels or within `edge` [mm] of their edges; none on the light modules around the codes."""
    sheet = how.sheet
    data = label_data(labels, how)
    for page, told in zip(shots("label", data), data["pages"], strict=True):
        rest = page.copy()
        for label in told["labels"]:
            left, top = label["left"], label["top"]
            part(rest, left + edge, top + edge, sheet.label_wide_mm - 2 * edge, sheet.label_tall_mm - 2 * edge)[:] = 255
            side = label["code"]["side"]
            module = side / 33
            x, y = (corner + at for corner, at in zip((left, top), label["code"]["at"], strict=True))
            quiet = part(page, x - 4 * module, y - 4 * module, side + 8 * module, side + 8 * module).copy()
            part(quiet, 4 * module - 0.1, 4 * module - 0.1, side + 0.2, side + 0.2)[:] = 255
            assert quiet.min() == 255
            assert module >= 0.33
            assert min(x - left, y - top) >= 4 * module - 1e-6
            assert max(x + side - left - sheet.label_wide_mm, y + side - top - sheet.label_tall_mm) <= 1e-6 - 4 * module
        assert rest.min() == 255


@pytest.mark.parametrize("sheet", EVERY, ids=name_of)
def test_long_texts_stay_on_their_label_and_off_its_code(sheet: LabelSheet) -> None:
    check_clear([LONG, LOT, CAST] * (sheet.count // 3 + 1), LabelPrint(sheet))


ANYTHING = st.text(st.characters(exclude_categories=["Cs"]), max_size=60)


@settings(max_examples=15, deadline=None, derandomize=True)
@given(
    ANYTHING,
    ANYTHING,
    st.lists(st.builds(LabelLine, ANYTHING, ANYTHING), max_size=8),
    st.sampled_from(["50x25", "29x62"]),
)
def test_whatever_is_written_stays_on_its_label(title: str, mark: str, lines: list[LabelLine], size: str) -> None:
    check_clear([LabelText(LabelKind.LOT, title, tuple(lines), id_of(9), mark)], LabelPrint(single_label(size)), 0.2)


def test_towers_of_marks_are_cut_off_before_they_reach_code_or_neighbor() -> None:
    tower = "O" + "\u0301\u0323" * 40
    label = LabelText(LabelKind.MOLD, f"{tower} {tower}", (LabelLine(tower, tower),), id_of(5), tower)
    for size in ("29x62", "62x29"):
        check_clear([label], LabelPrint(single_label(size)), 0.2)


def test_every_text_stands_on_the_label_and_what_is_cut_says_so() -> None:
    text = texts(label_pdf([LOT, CAST, CUP, LONG], LabelPrint(named_sheet("a4-99x68"))))[0]
    for label in (LOT, CAST, CUP):
        for told in (
            label.title,
            label.mark,
            label.kind.value,
            *(t for line in label.lines for t in (line.text, line.figure)),
        ):
            assert told in text
    for code in ("4F2A-91BC", "0000-0002", "0000-0003", "0000-0004"):
        assert code in text
    assert re.search(r"A name that goes on and on( A name| that| goes| on| and)* ?\S*…", text)


def test_a_label_tells_less_where_there_is_less_room_and_says_so() -> None:
    lines = tuple(LabelLine(f"line {n}") for n in range(12))
    text = texts(label_pdf([replace(LOT, lines=lines)], LabelPrint(single_label("50x25"))))[0]
    shown = [n for n in range(12) if f"line {n}" in text]
    assert shown == list(range(len(shown)))
    assert 0 < len(shown) < 12
    assert f"line {shown[-1]} …" in text


def test_words_are_large_where_there_is_room() -> None:
    """Capitals are 0.668 em, says the face (OS/2); 16 minutes of arc at 0.6 m are 2.8 mm: 11.9 pt (arithmetic)."""
    for size in ("62x29", "102x51"):
        sizes = {
            text: pt for text, _, _, pt in runs(label_pdf([replace(LOT, lines=())], LabelPrint(single_label(size))))
        }
        assert max(pt for text, pt in sizes.items() if text.startswith("Silicone")) >= 11.9
        assert next(pt for text, pt in sizes.items() if "91BC" in text) >= 11.9


def test_a_day_is_whole_on_the_smallest_label() -> None:
    """Ten digits of a date go before the word beside it."""
    told = texts(label_pdf([replace(LOT, mark="")], LabelPrint(named_sheet("a4-38x21"))))[0]
    assert "2027-03-01" in told


MARKUP = "#set page(fill: red) *bold* $x^2$ <lbl> @ref \\u{41} // `raw`"


def test_what_is_written_comes_out_as_it_is_written() -> None:
    """Markup of the typesetter is text; a character that no face has stands as its escape, as on all sheets."""
    named = [replace(LOT, title=title) for title in (MARKUP, "🦦 otter", "Выдра на камне", "לוטרה", "a\u202eb")]
    text = texts(label_pdf(named, LabelPrint(named_sheet("a4-99x68"))))[0]
    assert MARKUP in text
    assert "\\U0001f9a6 otter" in text
    assert "Выдра на камне" in text
    assert "לוטרה" in text or "הרטול" in text
    assert "a\\u202eb" in text


def test_labels_start_where_a_sheet_was_begun() -> None:
    """The fifth label of three across is the second of the second row (arithmetic)."""
    sheet = named_sheet("a4-70x37")
    page = shots("label", label_data([LOT], LabelPrint(sheet, start=5)))[0]
    assert scanned(part(page, 70.0, 37.5, 70.0, 37.0)) == f"urn:uuid:{LOT.id}"
    assert not inked(page, 0.0, 0.0, 210.0, 37.0)
    assert len(label_data([LOT] * 21, LabelPrint(sheet, start=5))["pages"]) == 2


def test_all_is_moved_for_a_printer_that_is_off() -> None:
    sheet = named_sheet("a4-70x37")
    plain, moved = (runs(label_pdf([LOT], LabelPrint(sheet, 2, x, y))) for x, y in ((0.0, 0.0), (1.5, -0.8)))
    assert plain
    for (text, x, y, size), (same, x_moved, y_moved, size_moved) in zip(plain, moved, strict=True):
        assert (same, size_moved) == (text, size)
        assert (x_moved - x, y_moved - y) == pytest.approx((1.5, -0.8), abs=0.01)


def test_a_code_is_drawn_and_no_picture() -> None:
    page = pypdf.PdfReader(io.BytesIO(label_pdf([LOT], LabelPrint(single_label("62x29"))))).pages[0]
    assert not page.images
    assert "/XObject" not in page["/Resources"]


def test_the_pdf_says_what_it_is_and_what_its_codes_hold() -> None:
    pdf = label_pdf([LOT], LabelPrint(single_label("62x29")))
    read = pypdf.PdfReader(io.BytesIO(pdf))
    assert read.metadata is not None
    assert read.metadata.title == "Labels"
    assert read.trailer["/Root"]["/Lang"] == "en-US"
    assert read.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert f"Code to scan: urn:uuid:{LOT.id}" in alts(read)
    assert pdf == label_pdf([LOT], LabelPrint(single_label("62x29")))


def alts(read: pypdf.PdfReader) -> list[str]:
    found, todo = [], [read.trailer["/Root"]["/StructTreeRoot"]]
    while todo:
        node = todo.pop().get_object()
        if isinstance(node, list):
            todo += node
        elif isinstance(node, dict):
            found += [str(node["/Alt"])] if "/Alt" in node else []
            todo += [node["/K"]] if "/K" in node else []
    return found


@pytest.mark.parametrize(
    ("call", "code"),
    [
        (lambda: label_pdf([LOT], LabelPrint(named_sheet("a4-70x37"), 0)), "label-start"),
        (lambda: label_pdf([LOT], LabelPrint(named_sheet("a4-70x37"), 25)), "label-start"),
        (lambda: label_pdf([LOT], LabelPrint(named_sheet("a4-70x37"), 1, 9.0)), "label-shift"),
        (lambda: label_pdf([LOT], LabelPrint(named_sheet("a4-70x37"), 1, 0.0, float("nan"))), "label-shift"),
        (lambda: label_pdf([LOT], LabelPrint(single_label("30x13"))), "label-too-small"),
        (lambda: label_pdf([LOT], LabelPrint(single_label("15x60"))), "label-too-small"),
        (lambda: label_pdf([replace(CUP, lines=CUP_LINES * 6, kept=12)], LabelPrint(SMALL)), "label-too-small"),
        (lambda: single_label("62"), "label-size-unclear"),
        (lambda: single_label("62x29x3"), "label-size-unclear"),
        (lambda: single_label("9x29"), "value-out-of-range"),
        (lambda: named_sheet("a5"), "unknown-choice"),
        (lambda: measured_sheet("a5", "3x8", "70x37"), "unknown-choice"),
        (lambda: measured_sheet("a4", "3xmany", "70x37"), "labels-none"),
        (lambda: measured_sheet("a4", "0x8", "70x37"), "labels-none"),
        (lambda: measured_sheet("a4", "3x9", "70x37"), "labels-off-paper"),
        (lambda: measured_sheet("a4", "3x8", "70x37", "-5x0"), "labels-overlap"),
    ],
)  # fmt: skip
def test_what_cannot_be_printed_is_refused(call: Callable[[], object], code: str) -> None:
    with pytest.raises(InputRefused) as refused:
        call()
    assert refused.value.code == code
    assert refused.value.remedy


@pytest.mark.parametrize("size", ["50x25", "62x29", "29x62", "102x51"])
def test_no_line_of_a_cup_is_ever_left_out(size: str) -> None:
    """As many lines as a label takes all stand there; one more is refused."""
    cups = [replace(CUP, lines=_parts(count), kept=count) for count in range(1, 40)]
    fits = [cup for cup in cups if _fits(cup, size)]
    assert 2 < len(fits) < 39
    for cup in fits[-3:]:
        text = texts(label_pdf([cup], LabelPrint(single_label(size))))[0]
        assert all(line.text in text and line.figure in text for line in cup.lines)


def _parts(count: int) -> tuple[LabelLine, ...]:
    return tuple(LabelLine(f"part {n} to", f"{n}.0 g") for n in range(100, 100 + count))


def _fits(cup: LabelText, size: str) -> bool:
    try:
        label_data([cup], LabelPrint(single_label(size)))
    except InputRefused as refused:
        return refused.code != "label-too-small"
    return True


def test_a_sheet_is_told_by_its_measures() -> None:
    """In the paper's middle: (210 - 3 x 63.5 - 2 x 2.5) / 2 = 7.25 and (297 - 7 x 38.1) / 2 = 15.15 (arithmetic)."""
    for sheet in (
        measured_sheet("a4", "3x7", "63.5x38.1", "2.5x0"),
        measured_sheet("A4", "3 x 7", "63.5 x 38.1 mm", "2.5x0", "7.25x15.15"),
    ):
        for place, at in ((0, (7.25, 15.15)), (4, (7.25 + 66.0, 15.15 + 38.1)), (20, (7.25 + 132.0, 15.15 + 6 * 38.1))):
            assert sheet.corner_mm(place) == pytest.approx(at)
    inches = measured_sheet("letter", "2x5", "4 x 2 in", "3/16 x 0 in")
    assert inches.corner_mm(9) == pytest.approx(((5 / 32 + 4 + 3 / 16) * INCH, 8.5 * INCH), abs=0.01)
