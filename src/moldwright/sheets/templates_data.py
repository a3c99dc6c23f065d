"""What the templates' form prints: the board and four sides in tiles at full size, each with its bar and its place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import asdict
from math import ceil, floor
from types import MappingProxyType
from typing import Any

from moldwright.plan.plan import Plan
from moldwright.plan.seam import SeamPlan, SeamStation, ViewSide
from moldwright.sheets.board_drawing import board_drawing, legend
from moldwright.sheets.heading import FRAME_MM, heading
from moldwright.sheets.labels import Hold, Label, size_of
from moldwright.sheets.level_drawing import cell_mm, cell_text, level_drawing, unrolled_drawing
from moldwright.sheets.mold_words import instead_of_slit
from moldwright.sheets.picture import Pictures, placed
from moldwright.sheets.seam_page import seam_page
from moldwright.sheets.seam_words import UNIT, numbered, set_off
from moldwright.sheets.side_drawing import Drawings, SideDrawing
from moldwright.sheets.stand_drawing import stand_drawings
from moldwright.sheets.tiles import Drawing, Pen, Place, Stroke, grid_of, tiles
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem

ROOM_MM = {"a4": (186.0, 240.0), "us-letter": (191.0, 222.0)}
"""What of a sheet holds a tile, by the paper's name in the form [mm]."""
LEGEND_MM = 20.0
"""What the board's legend takes of it [mm]."""
BARS_MM = 84.0
"""What bars and titles of the seam's page take, and what is left there for its table [mm]."""
SEAM = MappingProxyType(
    {
        "intro": "Four sides of the gloved piece. Heavy line: the seam; numbers: the shell's pieces, 1 off first.",
        "name": "The seam: four sides and its stations",
        "title": "The seam, for the hand",
        "stations": "Stations of the seam",
    }
)
SLIT = MappingProxyType(
    {
        "intro": "The gloved piece from where its slit is seen. Heavy line: the slit, cut only once the shell is off.",
        "name": "The slit: its sides and stations",
        "title": "The slit, for the hand",
        "stations": "Stations of the slit",
    }
)
NOT_UNROLLED = " Not unrolled: round most of it a tape would bridge hollows, or several parts."
MOST_SHEETS = 40
"""More sheets than this are too many to join: the drawing is halved until it fits. Our choice."""
DOT_MM = 0.05
"""Half the length of the line that stands for a station's dot [mm]."""
TICK_MM = 1.2
"""How long the line at a text of the rules is [mm]."""
BESIDE_MM, UNDER_MM, OVER_MM, STANDS_MM = 14.0, 5.0, 2.0, 8.0
"""Room beside a view, under and over it; what rises less over the flange does not widen it [mm]."""


def templates_data(
    plan: Plan, drawings: Drawings, pictures: Pictures, paper: str, paper_mm: float
) -> tuple[dict[str, Any], dict[str, bytes]]:
    """The form's data and its pictures by file name.

    Parameters
    ----------
    plan : the plan.
    drawings : the gloved piece from four sides.
    pictures : the piece from four sides at a scale.
    paper : the paper's name in the form.
    paper_mm : its height [mm].
    """
    us = plan.units == UnitSystem.US
    board = board_drawing(plan)
    views = [view_drawing(plan, side) for side in drawings.sides if plan.shell.joined]
    levels = [level_drawing(plan, level) for level in drawings.levels]
    unrolled = [unrolled_drawing(plan, drawings.unrolled)] if plan.shell.joined and drawings.unrolled.edge else []
    parts = [board], views, levels, unrolled, stand_drawings(plan)
    pages = [page for each in parts for page in _pages(each, _scale(each, paper), paper)]
    files: dict[str, bytes] = {}
    data = heading(plan, "templates", paper) | {
        "marked": list(_marked_pages(plan, pictures, paper_mm, files, bool(unrolled))),
        "bar": {
            "mm": 4 * INCH_MM if us else 100.0,
            "cells": 4 if us else 10,
            "text": f"{'4 in' if us else '100 mm'} by your rule? If not, print again at 100 %, not fitted to the page.",
        },
        "pages": pages,
        "legend": legend(plan),
    }
    return data, files


def _marked_pages(
    plan: Plan, pictures: Pictures, paper_mm: float, files: dict[str, bytes], unrolled: bool
) -> Iterator[dict[str, Any]]:
    """The pages from which seam and slit are marked; their views go among the files."""
    tall_mm = (paper_mm - FRAME_MM - BARS_MM) / 2
    if plan.shell.joined:
        sides = [placed(p, f"seam-{k}", files) for k, p in enumerate(pictures.seam)]
        told = dict(SEAM) | {"intro": SEAM["intro"] if unrolled else SEAM["intro"] + NOT_UNROLLED}
        yield seam_page(plan, plan.shell.seam_line, pictures.seam, tall_mm) | {"views": sides, **told}
    if plan.glove.slit is not None and pictures.slit:
        sides = [placed(p, f"slit-{k}", files) for k, p in enumerate(pictures.slit)]
        told = dict(SLIT) | {"intro": f"{SLIT['intro']} {instead_of_slit(plan)}"}
        yield seam_page(plan, plan.glove.slit.line, pictures.slit, tall_mm) | {"views": sides, **told}


def view_drawing(plan: Plan, seen: SideDrawing) -> Drawing:
    """One side of the gloved piece with its seam, its stations, and a grid from the plumb line and the board.

    Parameters
    ----------
    plan : the plan.
    seen : what is drawn of it.
    """
    points = [p for line in (*seen.outline, *seen.seam) for p in line]
    floor_mm = min((line.stations[0].height_mm for line in plan.shell.seam_line.lines), default=0.0)
    high = [x for x, z in points if z > floor_mm + STANDS_MM] or [x for x, _ in points]
    low, top = (min(high) - BESIDE_MM, -UNDER_MM), (max(high) + BESIDE_MM, max(z for _, z in points) + OVER_MM)
    marked = _marked(plan.shell.seam_line, seen.side)
    strokes = [
        *_grid(low, top, plan.units),
        *_ticks(low, top, plan.units),
        *(Stroke(Pen.OUTLINE, line) for line in seen.outline),
        *(Stroke(Pen.SEAM, line) for line in seen.seam),
        *(Stroke(Pen.STATION, _dot(station)) for _, station in marked),
    ]
    numbers = (Label((station.aside_mm, station.height_mm), str(number)) for number, station in marked)
    labels = (*_rule(low, top, plan.units), *numbers)
    return Drawing(f"Seen from the {seen.side.value}", low, top, tuple(strokes), labels, _grid_text(plan))


def _grid(low: Place, top: Place, units: UnitSystem) -> Iterator[Stroke]:
    cell = cell_mm(units)
    for k in range(ceil(low[0] / cell), floor(top[0] / cell) + 1):
        yield Stroke(Pen.GRID if k else Pen.PLUMB, ((k * cell, 0.0), (k * cell, top[1])))
    for k in range(floor(top[1] / cell) + 1):
        yield Stroke(Pen.GRID if k else Pen.FRAME, ((low[0], k * cell), (top[0], k * cell)))


def _ticks(low: Place, top: Place, units: UnitSystem) -> Iterator[Stroke]:
    """A short line at each text of the rules, where it is read."""
    for label in _rule(low, top, units):
        x, z = label.at
        end = (x, z - TICK_MM) if label.hold is Hold.UNDER else (x + TICK_MM, z)
        yield Stroke(Pen.TICK, (label.at, end))


def _rule(low: Place, top: Place, units: UnitSystem) -> Iterator[Label]:
    """Heights along the left edge and the plumb line, offsets along the board, at every second line of the grid.

    Each stands at its line, offsets with their middle under it; those that the drawing's edges would cut are left out.
    """
    cell = 2 * cell_mm(units)
    for k in range(ceil(low[0] / cell), floor(top[0] / cell) + 1):
        side = "plumb" if k == 0 else f"{set_off(abs(k) * cell, units)} {'right' if k > 0 else 'left'}"
        label = Label((k * cell, 0.0), side, hold=Hold.UNDER)
        half = size_of(label)[0] / 2
        if low[0] + half <= k * cell <= top[0] - half:
            yield label
    for k in range(1, floor(top[1] / cell) + 1):
        text = set_off(k * cell, units) + (f" {UNIT[units]}" if k == 1 else "")
        for x in (low[0], 0.0):
            label = Label((x, k * cell), text, hold=Hold.ABREAST)
            if k * cell + size_of(label)[1] / 2 <= top[1]:
                yield label


def _marked(seam: SeamPlan, side: ViewSide) -> list[tuple[int, SeamStation]]:
    """The stations that are marked from this side, with their numbers."""
    every = ((number, station) for _, stations in numbered(seam) for number, station in stations)
    return [(number, station) for number, station in every if station.side is side and station.seen]


def _dot(station: SeamStation) -> tuple[tuple[float, float], tuple[float, float]]:
    """A short upright line, which the form draws as a dot."""
    x, z = station.aside_mm, station.height_mm
    return ((x, z - DOT_MM), (x, z + DOT_MM))


def _scale(drawings: Sequence[Drawing], paper: str) -> int:
    """1, or the smallest power of two at which all drawings together fit on few enough sheets."""
    scale = 1
    while sum(_sheets(drawing.smaller(scale), paper) for drawing in drawings) > MOST_SHEETS:
        scale *= 2
    return scale


def _sheets(drawing: Drawing, paper: str) -> int:
    columns, rows = grid_of(drawing, *room_for(drawing, paper))
    return columns * rows


def room_for(drawing: Drawing, paper: str) -> Place:
    """What of a sheet holds a tile of a drawing, over the legend where it is the board's [mm].

    Parameters
    ----------
    drawing : whose tiles they are.
    paper : the paper's name in the form.
    """
    wide, tall = ROOM_MM[paper]
    return (wide, tall - LEGEND_MM) if _is_board(drawing) else (wide, tall)


def _is_board(drawing: Drawing) -> bool:
    return any(stroke.pen is Pen.FLANGE for stroke in drawing.strokes)


def _pages(drawings: Sequence[Drawing], scale: int, paper: str) -> Iterator[dict[str, Any]]:
    for drawing in drawings:
        wide, tall = room_for(drawing, paper)
        found = tiles(drawing.smaller(scale), wide, tall)
        drawn = [[tile.column, tile.row] for tile in found]
        for number, tile in enumerate(found, start=1):
            joining = f"Part {number} of {len(found)}: join cross on cross."
            sayings = [
                "Full size." if scale == 1 else f"1 : {scale}: at full size it were too many sheets to join.",
                *([joining] if len(found) > 1 else []),
                drawing.says,
            ]
            yield {
                "name": drawing.name,
                "say": " ".join(sayings),
                **asdict(tile),
                "drawn": drawn,
                "tile": {"wide": wide, "tall": tall},
                "board": _is_board(drawing),
            }


def _grid_text(plan: Plan) -> str:
    return f"Grid {cell_text(plan.units)}; numbers: stations."
