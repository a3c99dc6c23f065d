"""The boards of the stand at full size, each with its slots, its heights and the edges that bear the flange."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from moldwright.plan.plan import Plan
from moldwright.plan.seam import ViewSide
from moldwright.plan.stand import StandBoard
from moldwright.sheets.labels import Label
from moldwright.sheets.level_drawing import MARGIN_MM, cell_mm
from moldwright.sheets.tiles import Drawing, Pen, Place, Stroke
from moldwright.units import show_length
from moldwright.units.system import UnitSystem

LETTERS = {ViewSide.FRONT: "F", ViewSide.RIGHT: "R", ViewSide.BACK: "B", ViewSide.LEFT: "L"}
"""Letters of the sides, as at the plumb lines."""
APART_MM = 24.0
"""Heights are told so far apart: our choice."""
SAYS = "Saw the line; heavy: it bears the flange; dashes: slot, as wide as the board is thick."


def stand_drawings(plan: Plan) -> list[Drawing]:
    """A drawing of each board; none where there is no stand to saw.

    Parameters
    ----------
    plan : the plan.
    """
    stand = plan.stand
    return [_drawing(board, stand.thick_mm, plan.units) for board in stand.boards] if stand is not None else []


def _drawing(board: StandBoard, thick_mm: float, units: UnitSystem) -> Drawing:
    (first, _), (last, _) = board.edge[0], board.edge[-1]
    low, high = (first - MARGIN_MM, -MARGIN_MM), (last + MARGIN_MM, board.high_mm + MARGIN_MM)
    outline = ((first, 0.0), *board.edge, (last, 0.0), (first, 0.0))
    strokes = (
        *_grid(low, high, (first, last, board.high_mm), cell_mm(units)),
        Stroke(Pen.OUTLINE, outline),
        *(Stroke(Pen.KEY, line) for line in _bearing(board)),
        *(Stroke(Pen.LIP, line) for line in _slots(board, thick_mm)),
    )
    return Drawing(f"Stand, board {LETTERS[board.side]}", low, high, strokes, tuple(_labels(board, units)), SAYS)


def _grid(low: Place, high: Place, box: tuple[float, float, float], cell: float) -> Iterator[Stroke]:
    first, last, top = box
    for k in range(ceil((last - first) / cell)):
        yield Stroke(Pen.GRID, ((first + k * cell, 0.0), (first + k * cell, top)))
    for k in range(1, ceil(top / cell)):
        yield Stroke(Pen.GRID, ((first, k * cell), (last, k * cell)))


def _bearing(board: StandBoard) -> Iterator[tuple[Place, Place]]:
    """The level parts of the edge that bear the flange."""
    for a, b in zip(board.edge, board.edge[1:], strict=False):
        if any(a[0] <= at <= b[0] for at in board.bears):
            yield a, b


def _slots(board: StandBoard, thick_mm: float) -> Iterator[tuple[Place, ...]]:
    for slot in board.slots:
        left, right = slot.at_mm - thick_mm / 2, slot.at_mm + thick_mm / 2
        corners = ((left, slot.low_mm), (right, slot.low_mm), (right, slot.high_mm), (left, slot.high_mm))
        yield (*corners, corners[0])


def _labels(board: StandBoard, units: UnitSystem) -> Iterator[Label]:
    (first, _), (last, _) = board.edge[0], board.edge[-1]
    begin, end = (LETTERS[side] for side in board.ends)
    lowest = min(board.edge, key=lambda place: place[1])
    yield Label(((first + last) / 2, 0.0), LETTERS[board.side], strong=True)
    yield Label((first, 0.0), begin, strong=True)
    yield Label((last, 0.0), end, strong=True)
    for at in board.bears:
        yield Label((at, board.high_mm), "flange")
    told = first - APART_MM
    for x, z in board.edge:
        if x - told >= APART_MM or (x, z) == lowest:
            yield Label((x, z), show_length(z, units))
            told = x
