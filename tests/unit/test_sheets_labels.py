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
from moldwright.sheets.labels import EM_MM, STRONG_EM_MM, Label, SetLabel, set_labels, size_of
from moldwright.sheets.seam_words import mark_of
from moldwright.sheets.templates_data import ROOM_MM, view_drawing
from moldwright.sheets.tiles import Drawing, Pen, tiles
from moldwright.units.system import UnitSystem

RING = SeamLine(
    tuple(
        SeamStation(ViewSide.FRONT, 40.0 + 5 * np.sin(a), 30.0 + 6 * np.cos(a), 20.0, True)
        for a in np.linspace(0, 2 * np.pi, 24, endpoint=False)
    ),
    closed=True,
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
        found = tiles(drawing, *ROOM_MM[paper])
        for tile in found:
            clear(tile.labels, *ROOM_MM[paper])
        assert {label.text for tile in found for label in tile.labels} >= {label.text for label in drawing.labels}


def test_every_number_of_a_small_ring_is_near_its_station_or_led_to_it() -> None:
    front = drawings_of(UnitSystem.METRIC)[1]
    (tile,) = (t for t in tiles(front, *ROOM_MM["a4"]) if any(label.text == "30" for label in t.labels))
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
