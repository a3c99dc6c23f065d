"""Texts of the templates: inside their sheet, none over another, as wide as they are printed (Pillow, by the face)."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import fontpkg_atkinson_hyperlegible as font
import numpy as np
import pytest
from PIL import ImageFont
from sheets_fixture import plan
from test_sheets_templates import drawings

from moldwright.plan.seam import SeamLine, SeamStation, ViewSide
from moldwright.sheets.board_drawing import board_drawing, legend
from moldwright.sheets.labels import EM_MM, FAST, STRONG_EM_MM, Label, SetLabel, set_labels, size_of
from moldwright.sheets.seam_words import mark_of
from moldwright.sheets.templates_data import ROOM_MM, room_for, view_drawing
from moldwright.sheets.tiles import CROSS_MM, OVERLAP_MM, Drawing, Pen, Stroke, Tile, tiles
from moldwright.units.system import UnitSystem

RING = SeamLine(
    tuple(
        SeamStation(ViewSide.FRONT, 40.0 + 5 * np.sin(a), 30.0 + 6 * np.cos(a), 20.0, True)
        for a in np.linspace(0, 2 * np.pi, 24, endpoint=False)
    ),
    closed=True,
    piece=2,
)
"""24 stations about a ring of 12 mm: at their points their numbers would lie over each other."""


def drawings_of(units: UnitSystem) -> list[Drawing]:
    its = plan(units)
    seam = replace(its.shell.seam_line, lines=(*its.shell.seam_line.lines, RING))
    crowded = replace(its, shell=replace(its.shell, seam_line=seam))
    return [board_drawing(its), *(view_drawing(crowded, side) for side in drawings().sides)]


def clear(labels: tuple[SetLabel, ...], wide_mm: float, tall_mm: float) -> None:
    for label in labels:
        assert min(label.low) >= 0, label
        assert label.high[0] <= wide_mm + 0.01, label
        assert label.high[1] <= tall_mm + 0.01, label
    for a, b in combinations(labels, 2):
        beside = a.low[0] >= b.high[0] - 0.02 or b.low[0] >= a.high[0] - 0.02
        assert beside or a.low[1] >= b.high[1] - 0.02 or b.low[1] >= a.high[1] - 0.02, (a, b)


@pytest.mark.parametrize("paper", ROOM_MM)
@pytest.mark.parametrize("units", UnitSystem)
def test_no_text_lies_over_another_or_is_cut_at_an_edge(paper: str, units: UnitSystem) -> None:
    for drawing in drawings_of(units):
        room = room_for(drawing, paper)
        found = tiles(drawing, *room)
        for tile in found:
            clear(tile.labels, *room)
            for x, y in tile.crosses:
                for label in (each for each in tile.labels if each.text not in fast_texts(drawing)):
                    beside = label.low[0] >= x + CROSS_MM - 0.02 or label.high[0] <= x - CROSS_MM + 0.02
                    assert beside or label.low[1] >= y + CROSS_MM - 0.02 or label.high[1] <= y - CROSS_MM + 0.02, label
        assert {label.text for tile in found for label in tile.labels} >= {
            label.text for label in drawing.labels if label.hold not in FAST
        }


def fast_texts(drawing: Drawing) -> set[str]:
    return {label.text for label in drawing.labels if label.hold in FAST}


def test_a_text_whose_point_is_under_a_cross_is_moved_off_it() -> None:
    """A part's crosses are laid on its neighbor's: a figure under one is read wrong ("3/16" as "3/15")."""
    drawing = Drawing("wide", (0.0, 0.0), (300.0, 100.0), (), (Label((5.0, 95.0), "3/16 right, 1 11/16 back"),))
    drawing = replace(drawing, strokes=(Stroke(Pen.FOOT, ((0.0, 50.0), (300.0, 50.0))),))
    (first, *_) = tiles(drawing, 190.0, 200.0)
    ((x, y), *_) = first.crosses
    assert (x, y) == (5.0, 5.0)
    (label,) = first.labels
    assert label.low[0] >= x + CROSS_MM or label.low[1] >= y + CROSS_MM or label.high[1] <= y - CROSS_MM


def upper_left(drawing: Drawing, tile: Tile, paper: str) -> tuple[float, float]:
    wide_mm, tall_mm = room_for(drawing, paper)
    return (
        drawing.low[0] + tile.column * (wide_mm - OVERLAP_MM),
        drawing.high[1] - tile.row * (tall_mm - OVERLAP_MM),
    )


@pytest.mark.parametrize("paper", ROOM_MM)
def test_the_texts_of_the_grid_stand_at_their_lines_with_a_tick(paper: str) -> None:
    """ "20 left" has its middle under the line 20 mm left of the plumb line, "40" at the line 40 mm over the board."""
    seen = set()
    for view in drawings_of(UnitSystem.METRIC)[1:]:
        for tile in tiles(view, *room_for(view, paper)):
            left, top = upper_left(view, tile, paper)
            ticks = [stroke.points for stroke in tile.strokes if stroke.pen is Pen.TICK]
            for label in tile.labels:
                middle = ((label.low[0] + label.high[0]) / 2 + left, top - (label.low[1] + label.high[1]) / 2)
                number, _, sense = label.text.partition(" ")
                if label.text == "plumb" or sense in ("left", "right"):
                    x = 0.0 if label.text == "plumb" else float(number) * (-1 if sense == "left" else 1)
                    assert abs(middle[0] - x) <= 0.5, label
                    assert any(abs(a[0] + left - x) < 0.02 and abs(b[0] + left - x) < 0.02 for a, b in ticks)
                    seen.add(label.text)
            heights = {t.low[1] + t.high[1] for t in tile.labels if t.text == "20 mm"}
            assert all(abs(top - twice / 2 - 20.0) <= 0.5 for twice in heights)
            seen |= {"20 mm"} if heights else set()
    assert seen >= {"plumb", "20 left", "20 right", "20 mm"}


@pytest.mark.parametrize("paper", ROOM_MM)
def test_the_corner_of_the_frame_is_ringed_and_its_text_clear_of_it(paper: str) -> None:
    """Places are measured from there: nothing is printed within 5 mm of it, and a line leads from the 0 to it."""
    board = board_drawing(plan())
    frame = plan().flange.frame
    (tile,) = (t for t in tiles(board, *room_for(board, paper)) if any(label.text == "0" for label in t.labels))
    left, top = upper_left(board, tile, paper)
    corner = (frame.left_mm - left, top - frame.front_mm)
    for label in tile.labels:
        assert np.linalg.norm(np.clip(corner, label.low, label.high) - corner) >= 5.0, label
    (zero,) = (label for label in tile.labels if label.text == "0")
    assert zero.leader is not None
    assert zero.leader[0] == pytest.approx(corner, abs=0.02)
    rings = [np.linalg.norm(np.array(s.points) - corner, axis=1) for s in tile.strokes if s.pen is Pen.FRAME]
    assert any(np.ptp(ring) < 0.05 and len(ring) > 12 for ring in rings)


def test_every_number_of_a_small_ring_is_near_its_station_or_led_to_it() -> None:
    front = drawings_of(UnitSystem.METRIC)[1]
    (tile,) = (t for t in tiles(front, *room_for(front, "a4")) if any(label.text == "30" for label in t.labels))
    first = 1 + sum(len(line.stations) for line in plan().shell.seam_line.lines)
    for number, station in enumerate(RING.stations, start=first):
        (label,) = (each for each in tile.labels if each.text == str(number))
        at = (station.aside_mm - front.low[0], front.high[1] - station.height_mm)
        near = np.clip(at, label.low, label.high)
        if label.leader is None:
            assert np.linalg.norm(near - at) <= 3.6
        else:
            assert label.leader[0] == pytest.approx(at, abs=0.02)
            assert np.linalg.norm(near - label.leader[1]) < 0.02


def test_boxes_are_no_smaller_than_the_printed_texts() -> None:
    """Widths by Pillow from the sheets' own face, regular and bold."""
    faces = {
        bold: ImageFont.truetype(next(Path(font.__file__).parent.rglob(f"AtkinsonHyperlegible-{name}.ttf")), 1000)
        for bold, name in ((False, "Regular"), (True, "Bold"))
    }
    for drawing in (*drawings_of(UnitSystem.METRIC), *drawings_of(UnitSystem.US)):
        for label in drawing.labels:
            em = STRONG_EM_MM if label.strong else EM_MM
            assert size_of(label)[0] >= faces[label.strong].getlength(label.text) / 1000 * em, label.text


def test_texts_keep_off_the_lines_where_there_is_room() -> None:
    """Beside an upright line at its foot a text of 10 mm is set to one side of it, not over it."""
    (found,) = set_labels([Label((50.0, 50.0), "station")], 100.0, 100.0, [((55.0, 0.0), (55.0, 100.0))])
    assert found.high[0] <= 55.0 or found.low[0] >= 55.0


def test_every_kind_of_line_on_the_board_is_explained() -> None:
    rows = legend(plan())
    assert {row["pen"] for row in rows} == {stroke.pen for stroke in board_drawing(plan()).strokes}
    assert all(row["text"] for row in rows)
    texts = [label.text for label in board_drawing(plan()).labels]
    for number in range(len(plan().shell.seam_line.crossings)):
        assert any(text.startswith(f"{mark_of(number)}: ") for text in texts)
    assert Pen.HOLE in {stroke.pen for stroke in board_drawing(plan()).strokes}
