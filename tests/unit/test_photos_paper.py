"""The printed sheet on paper: its markers are found where the layout says, by a detector that has no part in printing.

The markers' patterns and the detector are OpenCV's; page sizes are ISO 216's and ANSI Y14.1's; a printed page is read
back as a picture, and as a PDF by pypdf, which has no part in making it.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from functools import cache

import cv2
import numpy as np
import pypdf
import pytest

from moldwright.photos.sheet.choice import PieceSize, holds, sheet_for
from moldwright.photos.sheet.layout import INK_RGB, MARGIN_MM, PAPER_RGB, TILE_MARGIN_MM, photo_sheet
from moldwright.photos.sheet.pages import SheetPage, sheet_pages
from moldwright.photos.sheet.sizes import METRIC, US, SheetSize
from moldwright.sheets.photo_paper import paper_data, photo_paper
from moldwright.sheets.photo_sheet import FINE_RGB
from moldwright.sheets.typesetting import typeset_png

MM = 72 / 25.4
FINE = 10.0
"""Dots per millimeter of the rasters."""
PRINTED = [
    *((size, size) for size in SheetSize),
    (SheetSize.A5, SheetSize.A4),
    (SheetSize.A3, SheetSize.A4),
    (SheetSize.A2, SheetSize.A4),
    (SheetSize.HALF_LETTER, SheetSize.LETTER),
    (SheetSize.TABLOID, SheetSize.LETTER),
    (SheetSize.ANSI_C, SheetSize.LETTER),
]
JOINED = [pair for pair in PRINTED if pair[0].length_mm > pair[1].length_mm]


@cache
def pdf(size: SheetSize, paper: SheetSize) -> bytes:
    return photo_paper(size, paper)


def found(size: SheetSize, paper: SheetSize) -> dict[int, np.ndarray]:
    """Corners of every marker on the sheet [mm], as the detector sees them on the rasters of the pages."""
    data = paper_data(size, paper)
    rasters = typeset_png("photos", {**data, "how": None}, {}, FINE)
    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    detector = cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_250), settings)
    seen: dict[int, np.ndarray] = {}
    for page, png in zip(sheet_pages(size, paper), rasters, strict=True):
        gray = cv2.imdecode(np.frombuffer(png, np.uint8), cv2.IMREAD_GRAYSCALE)
        corners, numbers, _ = detector.detectMarkers(gray)
        for number, corner in zip(numbers.ravel(), corners, strict=True):
            assert number not in seen, "a marker stands on one page"
            seen[int(number)] = on_sheet(corner[0], page)
    return seen


def on_sheet(pixels: np.ndarray, page: SheetPage) -> np.ndarray:
    """The first dot's middle is half a dot from the page's corner."""
    down = (pixels + 0.5) / FINE
    return np.column_stack([down[:, 0] - page.zero_mm[0], page.zero_mm[1] - down[:, 1]])


@pytest.mark.parametrize(("size", "paper"), PRINTED)
def test_every_marker_is_found_where_the_layout_has_it(size: SheetSize, paper: SheetSize) -> None:
    sheet, seen = photo_sheet(size), found(size, paper)
    assert sorted(seen) == list(sheet.numbers)
    off = [np.abs(seen[m.number] - np.array(m.corners_mm(sheet.side_mm))).max() for m in sheet.markers]
    assert max(off) <= 0.1


def boxes(page: pypdf.PageObject) -> Iterator[tuple[np.ndarray, np.ndarray]]:
    """The lowest and highest corner of each filled path of a page, from its upper left corner down [mm]."""
    path: list[np.ndarray] = []
    found_: list[tuple[np.ndarray, np.ndarray]] = []
    tall = float(page.mediabox.height)

    def operand(op: bytes, args: list[float], matrix: list[float], _text: list[float]) -> None:
        a, b, c, d, e, f = (float(value) for value in matrix)
        if op in (b"m", b"l"):
            x, y = (float(value) for value in args)
            path.append(np.array([a * x + c * y + e, tall - (b * x + d * y + f)]) / MM)
        elif op in (b"f", b"f*") and path:
            found_.append((np.min(path, axis=0), np.max(path, axis=0)))
        if op in (b"f", b"f*", b"S", b"n", b"B"):
            path.clear()

    page.extract_text(visitor_operand_before=operand)
    yield from found_


@pytest.mark.parametrize(("size", "paper"), PRINTED)
def test_the_bar_is_100_mm_between_its_outer_ends(size: SheetSize, paper: SheetSize) -> None:
    """Also where it is parted by a joint: what each page has of it is 100 mm together."""
    sheet = photo_sheet(size)
    x = sheet.bar_mm[0][0]
    reader = pypdf.PdfReader(io.BytesIO(pdf(size, paper)))
    ends = []
    for page, printed in zip(sheet_pages(size, paper), reader.pages, strict=False):
        for low, high in boxes(printed):
            right, top, bottom = high[0] - page.zero_mm[0], page.zero_mm[1] - low[1], page.zero_mm[1] - high[1]
            if x - 3.0 < right < x + 0.01 and top - bottom < 11.0 and page.has((x, top)):
                ends += [top, bottom]
    assert max(ends) - min(ends) == pytest.approx(100.0, abs=0.001)
    assert max(ends) == pytest.approx(sheet.bar_mm[1][1], abs=0.001)


@pytest.mark.parametrize(("size", "paper"), PRINTED)
def test_pages_are_as_large_as_their_paper_and_the_how_to_is_one_page(size: SheetSize, paper: SheetSize) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf(size, paper)))
    pages = sheet_pages(size, paper)
    sides = [sorted(float(side) / MM for side in page.mediabox[2:]) for page in reader.pages]
    for side in sides[:-1]:
        assert side == pytest.approx(sorted((paper.breadth_mm, paper.length_mm)), abs=0.01)
    desk = (215.9, 279.4) if paper in US else (210.0, 297.0)
    assert sides[-1] == pytest.approx(desk, abs=0.01)
    assert len(sides) == len(pages) + 1


@pytest.mark.parametrize(("size", "paper"), JOINED)
def test_joined_pages_meet_at_what_a_printer_reaches(size: SheetSize, paper: SheetSize) -> None:
    """Every marker is inside the printer's margin of its page, and the joints of neighbors lie on each other."""
    sheet, pages = photo_sheet(size), sheet_pages(size, paper)
    for page in pages:
        for marker in (m for m in sheet.markers if page.has((m.x_mm, m.y_mm))):
            places = np.array([page.down(corner) for corner in marker.corners_mm(sheet.side_mm)])
            low = TILE_MARGIN_MM - 1e-6
            assert (places >= low).all()
            assert (places <= np.array([page.wide_mm, page.tall_mm]) - low).all()
    reach = sum(page.tall_mm - 2 * TILE_MARGIN_MM for page in pages if page.column == 0)
    assert reach == pytest.approx(size.length_mm - 2 * MARGIN_MM, abs=1e-6)


@pytest.mark.parametrize(("size", "paper"), JOINED)
def test_each_joined_page_tells_its_name_and_what_to_do_with_its_edges(size: SheetSize, paper: SheetSize) -> None:
    texts = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf(size, paper))).pages][:-1]
    for number, text in enumerate(texts, start=1):
        assert f"Page {number} of {len(texts)}" in text
    cuts = [text.count("Cut its") for text in texts]
    lays = [text.count("goes on the line") for text in texts]
    assert cuts == ([1, 0] if len(texts) == 2 else [2, 1, 1, 0])
    assert lays == ([0, 1] if len(texts) == 2 else [0, 1, 1, 2])


@pytest.mark.parametrize("size", list(SheetSize))
def test_front_is_at_the_front_and_the_ground_is_the_paper_of_the_layout(size: SheetSize) -> None:
    (page,) = sheet_pages(size, size)
    told = {s["text"]: s["at"] for s in paper_data(size, size)["pages"][0]["shapes"] if s["kind"] == "note"}
    assert page.zero_mm[1] - told["FRONT"][1] == pytest.approx(-photo_sheet(size).middle_mm[1] / 2 + 13.0)
    assert told["LEFT"][0] < page.zero_mm[0] < told["RIGHT"][0]
    assert told["90°"][0] < page.zero_mm[0], "degrees run clockwise from the front, as the tally tells them"
    (png,) = typeset_png("photos", {**paper_data(size, size), "how": None}, {}, 1.0)
    first = cv2.imdecode(np.frombuffer(png, np.uint8), cv2.IMREAD_COLOR)[1, 1]
    assert tuple(int(value) for value in first[::-1]) == PAPER_RGB


def test_fine_lines_are_of_the_papers_color() -> None:
    """Log-chromaticity of linear light (METHODS 5 of the house), sRGB by IEC 61966-2-1 (from memory): within 0.15 of
    the paper, where the ink is more than 2 away."""

    def chroma(rgb: tuple[int, int, int]) -> np.ndarray:
        v = np.array(rgb) / 255
        red, green, blue = np.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)
        return np.log([red / green, blue / green])

    assert np.linalg.norm(chroma(FINE_RGB) - chroma(PAPER_RGB)) < 0.15
    assert np.linalg.norm(chroma(INK_RGB) - chroma(PAPER_RGB)) > 2


@pytest.mark.parametrize("paper", [SheetSize.A4, SheetSize.LETTER])
def test_the_how_to_says_it_all_in_type_of_11_points_or_more(paper: SheetSize) -> None:
    last = pypdf.PdfReader(io.BytesIO(pdf(paper, paper))).pages[-1]
    sizes: list[float] = []

    def text(words: str, _user: list[float], matrix: list[float], _font: object, size: float) -> None:
        if words.strip():
            sizes.append(size * math.hypot(matrix[0], matrix[1]))

    told = " ".join(last.extract_text(visitor_text=text).split())
    assert min(sizes) >= 11.0 - 1e-6
    needed = (
        "In color", "100 %", "white edge", "stiff board", "green", "both sides", "No flash", "Zoom left at 1",
        "about 20°", "about 50°", "from above", "turn the board", "at least four whole markers", "never moved",
        "moldwright look", "Bowls", "weight", "Lamps get hot", "local code", "safety data sheet",
    )  # fmt: skip
    assert [words for words in needed if words not in told] == []


@pytest.mark.parametrize(("family", "paper"), [(METRIC, SheetSize.A4), (US, SheetSize.LETTER)])
def test_the_smallest_sheet_that_holds_the_piece_is_chosen(family: tuple[SheetSize, ...], paper: SheetSize) -> None:
    for size in family:
        most = holds(size)
        assert sheet_for(most, paper) is size
        assert sheet_for(PieceSize(most.height_mm, most.depth_mm, most.width_mm), paper) is size, "laid along it"
    over = [sheet_for(PieceSize(holds(size).height_mm + 1, 50, 50), paper) for size in family[:-1]]
    assert over == list(family[1:])


def test_issue_limits_of_sizes() -> None:
    """60 to 400 mm tall on desk paper; A4 is joined above about 220 mm (METHODS 5 of the house)."""
    for paper in (SheetSize.A4, SheetSize.LETTER):
        sheet_for(PieceSize(400.0, 250.0, 250.0), paper)
    assert sheet_for(PieceSize(60.0, 50.0, 50.0), SheetSize.A4) is SheetSize.A5
    assert sheet_for(PieceSize(215.0, 100.0, 100.0), SheetSize.A4) is SheetSize.A4
    assert sheet_for(PieceSize(225.0, 100.0, 100.0), SheetSize.A4) is SheetSize.A3


@pytest.mark.parametrize("size", list(SheetSize))
def test_a_far_marker_has_ten_pixels_with_the_largest_piece_in_the_frame(size: SheetSize) -> None:
    """A pinhole in closed form: a wide phone lens (26 mm in film terms, common practice, no source), the piece over
    half of a frame of 2000 pixels, 15 degrees over the table: lower than the page asks for."""
    sheet, piece = photo_sheet(size), holds(size)
    focal, low = 2000 * 26 / 36, math.radians(15)
    far = focal * max(piece.height_mm / 1000, piece.width_mm / 750)
    eye_z, eye_y = piece.height_mm / 2 + far * math.sin(low), far * math.cos(low)
    reach = math.hypot(eye_z, eye_y + size.length_mm / 2 - MARGIN_MM)
    assert focal * sheet.side_mm * eye_z / reach**2 >= 10.0
