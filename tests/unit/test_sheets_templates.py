"""Templates: tiles that join again, a bar of 100 mm on each page, and the board's places as the plan has them."""

from __future__ import annotations

import io
from dataclasses import replace
from functools import cache

import numpy as np
import pypdf
import pytest
import shapely
from shapely import LineString
from sheets_fixture import mold_meshes, pictures, plan

from moldwright.geometry.grid import Grid
from moldwright.mold.seam_line import SeamCurve, seam_curve
from moldwright.sheets.board_drawing import board_drawing
from moldwright.sheets.level_drawing import level_drawing
from moldwright.sheets.seam_words import place_text, station_row
from moldwright.sheets.side_drawing import Drawings, LevelDrawing
from moldwright.sheets.templates_data import LEGEND_MM, MOST_SHEETS, ROOM_MM, templates_data
from moldwright.sheets.templates_drawn import side_drawings
from moldwright.sheets.tiles import OVERLAP_MM, Drawing, Pen, Stroke, tiles
from moldwright.sheets.typesetting import typeset
from moldwright.units.system import UnitSystem

MM = 72 / 25.4
PAPERS = tuple(ROOM_MM)
TALL_MM = {"a4": 297.0, "us-letter": 279.4}


@cache
def curve() -> SeamCurve:
    """The seam of the made-up piece in the plane x = 0.5 mm."""
    grid = Grid((-90.0, -80.0, 0.0), 2.0, (91, 81, 91))
    first = np.ascontiguousarray(np.broadcast_to(grid.axis(0)[:, None, None] - 0.5, grid.shape), dtype=np.float32)
    return seam_curve(mold_meshes().gloved, (first, -first), grid, 6.0)


@cache
def drawings() -> Drawings:
    return side_drawings(mold_meshes().gloved, curve(), plan().flange.frame)


def form(units: UnitSystem, paper: str) -> tuple[dict, dict[str, bytes]]:  # type: ignore[type-arg]
    return templates_data(plan(units), drawings(), pictures(), paper, TALL_MM[paper])


def data(units: UnitSystem = UnitSystem.METRIC, paper: str = "a4") -> dict:  # type: ignore[type-arg]
    return form(units, paper)[0]


@pytest.mark.parametrize("size", [(90.0, 80.0), (400.0, 300.0)])
def test_tiles_laid_cross_on_cross_are_the_drawing_again(size: tuple[float, float]) -> None:
    """A line across all of it, put together from its tiles, is as long as it was (Shapely), and neighbors overlap."""
    whole = ((-10.0, -20.0), (0.3 * size[0], size[1] - 21.0), (size[0] - 11.0, 5.0))
    drawing = Drawing("x", (-10.0, -20.0), (size[0] - 10, size[1] - 20), (Stroke(Pen.SEAM, whole),), ())
    found = tiles(drawing, 186.0, 216.0)
    parts = []
    for tile in found:
        left, top = -10.0 + tile.column * 176.0, size[1] - 20 - tile.row * 206.0
        parts += [LineString([(left + x, top - y) for x, y in stroke.points]) for stroke in tile.strokes]
        assert all(0 <= x <= 186 and 0 <= y <= 216 for stroke in tile.strokes for x, y in stroke.points)
    joined = shapely.union_all([part.buffer(0.02) for part in parts])
    assert LineString(whole).difference(joined).length < 0.1
    assert sum(part.length for part in parts) >= LineString(whole).length - 0.1
    assert OVERLAP_MM == 10.0
    assert {tile.columns for tile in found} == {1 if size[0] < 100 else 3}


def test_a_sheet_with_nothing_of_what_a_drawing_is_about_is_not_printed() -> None:
    """A seam over the first of three sheets, an outline over all: printed for both three, for the seam alone one."""
    seam, outline = (Stroke(Pen.SEAM, ((5.0, 5.0), (90.0, 90.0))), Stroke(Pen.OUTLINE, ((5.0, 5.0), (495.0, 95.0))))
    both = Drawing("x", (0.0, 0.0), (500.0, 100.0), (seam, outline), ())
    assert [tile.column for tile in tiles(both, 186.0, 216.0)] == [0, 1, 2]
    (one,) = tiles(replace(both, about=frozenset((Pen.SEAM,))), 186.0, 216.0)
    assert {stroke.pen for stroke in one.strokes} == {Pen.SEAM, Pen.OUTLINE}


def test_the_views_show_the_seam_where_it_is() -> None:
    """The plane x = 0.5 mm is an upright line, from the front 0.5 mm right of the plumb line, from the back left."""
    front, _, back, _ = drawings().sides
    for side, at in ((front, 0.5), (back, -0.5)):
        assert len(side.seam) >= 1
        assert max(abs(x - at) for line in side.seam for x, _ in line) < 0.6
        top = max(z for line in side.seam for _, z in line)
        assert top == pytest.approx(164.0, abs=2.0)


def test_the_outline_is_as_wide_and_as_tall_as_the_piece() -> None:
    low, high = mold_meshes().gloved.bounds_mm
    front, right, _, _ = drawings().sides
    for side, axis in ((front, 0), (right, 1)):
        points = np.array([p for line in side.outline for p in line])
        assert np.ptp(points[:, 0]) == pytest.approx(high[axis] - low[axis], abs=0.5)
        assert points[:, 1].max() == pytest.approx(high[2], abs=0.5)


def test_the_board_has_the_flange_its_keys_and_the_places_of_the_seam() -> None:
    drawing = board_drawing(plan())
    by_pen = {pen: [s.points for s in drawing.strokes if s.pen is pen] for pen in Pen}
    assert by_pen[Pen.KEY] == [(key.start, key.end) for key in plan().flange.keys]
    assert by_pen[Pen.SEAM] == [crossing.places for crossing in plan().shell.seam_line.crossings]
    assert by_pen[Pen.FLANGE][0][:-1] == plan().flange.outline
    assert by_pen[Pen.FOOT][0][:-1] == plan().flange.foot
    texts = [label.text for label in drawing.labels]
    assert "FRONT" in texts
    assert {"plumb F", "plumb R", "plumb B", "plumb L"} <= set(texts)
    assert "S1: 66 right, 0 back" in texts  # (1.2, -60) from the corner (-65, -60)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("units", UnitSystem)
def test_every_page_has_its_bar_its_hash_and_its_number(paper: str, units: UnitSystem) -> None:
    """The bar measures 100 mm, or 4 in, on the paper: black and white rectangles 1.8 mm tall (pypdf)."""
    reader = pypdf.PdfReader(io.BytesIO(typeset("templates", *form(units, paper))))
    tiles = len(data(units, paper)["pages"])
    assert len(reader.pages) > tiles >= 5
    assert "The seam, for the hand" in reader.pages[tiles].extract_text()
    for number, page in enumerate(reader.pages[:tiles], start=1):
        text = page.extract_text()
        assert f"Sheet {number} of {len(reader.pages)}" in " ".join(text.split())
        assert plan().plan_hash in text
        assert bar_mm(page) == pytest.approx(101.6 if units is UnitSystem.US else 100.0, abs=0.05)


def test_the_stations_and_crossings_of_the_seam_are_printed_behind_the_tiles() -> None:
    reader = pypdf.PdfReader(io.BytesIO(typeset("templates", *form(UnitSystem.METRIC, "us-letter"))))
    whole = " ".join(" ".join(page.extract_text().split()) for page in reader.pages)
    number = 0
    for line in plan().shell.seam_line.lines:
        for station in line.stations:
            number += 1
            assert " ".join(station_row(number, station, UnitSystem.METRIC)) in whole
    for crossing in plan().shell.seam_line.crossings:
        assert place_text(crossing.edge, plan().flange.frame, UnitSystem.METRIC) in whole


def bar_mm(page: pypdf.PageObject) -> float:
    """Width of all rectangles that are 1.8 mm tall [mm]."""
    corner: list[tuple[float, float]] = []
    spans: list[float] = []

    def see(operator: bytes, operands: list[object], matrix: list[float], _text: list[float]) -> None:
        if operator in (b"l", b"m"):
            corner.append((float(operands[0]) * matrix[0] + matrix[4], float(operands[1]) * matrix[3] + matrix[5]))  # type: ignore[arg-type]
        elif operator in (b"h", b"f", b"B", b"S"):
            y = [c[1] for c in corner[:5]]
            if len(corner) >= 4 and abs((max(y) - min(y)) / MM - 1.8) < 0.01:
                spans.extend(c[0] for c in corner[:5])
            corner.clear()
        elif operator in (b"q", b"Q", b"n"):
            corner.clear()

    page.extract_text(visitor_operand_before=see)
    return (max(spans) - min(spans)) / MM


def test_what_is_too_large_to_join_is_drawn_smaller_and_says_so() -> None:
    flange = plan().flange
    grown = replace(flange.frame, right_mm=flange.frame.right_mm + 1500, back_mm=flange.frame.back_mm + 1500)
    large = replace(plan(), flange=replace(flange, frame=grown))
    pages = templates_data(large, drawings(), pictures(), "a4", TALL_MM["a4"])[0]["pages"]
    board = [page for page in pages if page["name"] == "The board"]
    assert len(board) <= MOST_SHEETS
    assert "1 : 2" in board[0]["say"]
    assert all(page["say"].startswith("Full size.") for page in pages if page["name"] != "The board")


@pytest.mark.parametrize(("units", "unit"), [(UnitSystem.METRIC, "mm"), (UnitSystem.US, "inches")])
def test_the_tables_unit_is_no_word_of_the_sentence(units: UnitSystem, unit: str) -> None:
    """In inches it read *All in in.*, and *in in from the frame's corner*."""
    (page, *_) = data(units)["marked"]
    assert page["say"]["table"].startswith(f"All in {unit}. ")
    assert page["say"]["crossings"].startswith(f"Over the flange, in {unit} from")


def test_a_place_at_the_frames_edge_is_told_as_0() -> None:
    """A flange touches its frame; by an edge of triangles it was told as 0.03 right."""
    frame = plan().flange.frame
    for units in UnitSystem:
        assert place_text((frame.left_mm + 0.03, frame.front_mm - 0.02), frame, units) == "0 right, 0 back"


@pytest.mark.parametrize("paper", PAPERS)
def test_only_the_board_leaves_room_for_its_legend(paper: str) -> None:
    pages = data(paper=paper)["pages"]
    talls = {page["board"]: page["tile"]["tall"] for page in pages}
    assert talls[False] == ROOM_MM[paper][1]
    assert talls[True] == ROOM_MM[paper][1] - LEGEND_MM


def test_level_cuts_tell_their_grid() -> None:
    for units, cell in ((UnitSystem.METRIC, "10 mm"), (UnitSystem.US, "1/2 in")):
        drawing = level_drawing(plan(units), LevelDrawing(40.0, (((0.0, 0.0), (10.0, 0.0), (0.0, 10.0)),), (), ()))
        assert f"Grid {cell} from the plumb lines." in drawing.says
