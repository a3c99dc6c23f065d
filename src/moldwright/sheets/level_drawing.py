"""A level cut at full size, and the seam unrolled by height and girth."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor

from moldwright.plan.plan import Plan
from moldwright.sheets.board_drawing import plumb_feet
from moldwright.sheets.labels import Hold, Label
from moldwright.sheets.seam_words import UNIT, place_text, set_off
from moldwright.sheets.side_drawing import LevelDrawing, Line, Unrolled
from moldwright.sheets.tiles import Drawing, Pen, Place, Stroke
from moldwright.units import show_length
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem

MARGIN_MM, TICK_MM, UNDER_MM = 10.0, 3.0, 6.0
LEVEL = "Grid {cell} from the plumb lines. From above: line rubber, dashes shell, dots seam (from the frame's corner)."
UNROLLED = "Up: height. Across: by tape round from plumb F, to your right."
LEFT_OUT = " No edge there: from the table."


def cell_mm(units: UnitSystem) -> float:
    """How far lines of a drawing's grid are apart [mm].

    Parameters
    ----------
    units : what the sheet is printed in.
    """
    return INCH_MM / 2 if units == UnitSystem.US else 10.0


def cell_text(units: UnitSystem) -> str:
    """The same in words.

    Parameters
    ----------
    units : what the sheet is printed in.

    >>> cell_text(UnitSystem.US), cell_text(UnitSystem.METRIC)
    ('1/2 in', '10 mm')
    """
    return show_length(cell_mm(units), units)


def level_drawing(plan: Plan, seen: LevelDrawing) -> Drawing:
    """A level cut, front at the lower edge, with a grid from the plumb lines.

    Parameters
    ----------
    plan : the plan.
    seen : what is drawn of it.
    """
    middle = plumb_feet(plan)[0][1][0], plumb_feet(plan)[1][1][1]
    lines = [*seen.rubber, *(line for piece in seen.shell for line in piece)]
    points = [place for line in lines for place in line] or [middle]
    low = min(x for x, _ in points) - MARGIN_MM, min(y for _, y in points) - MARGIN_MM
    high = max(x for x, _ in points) + MARGIN_MM, max(y for _, y in points) + MARGIN_MM
    strokes = (
        *_grid(low, high, middle, cell_mm(plan.units)),
        *(Stroke(Pen.LIP, line) for piece in seen.shell for line in piece),
        *(Stroke(Pen.FOOT, line) for line in seen.rubber),
        *(Stroke(Pen.STATION, ((x, y - 0.4), (x, y + 0.4))) for x, y in seen.seam),
    )
    frame, units = plan.flange.frame, plan.units
    labels = (
        Label((middle[0], low[1] + UNDER_MM), "FRONT", strong=True),
        *(Label(place, f"seam: {place_text(place, frame, units)}") for place in seen.seam),
    )
    return Drawing(
        f"Level at {show_length(seen.height_mm, units)}",
        low,
        high,
        strokes,
        labels,
        LEVEL.format(cell=cell_text(units)),
    )


def _grid(low: Place, high: Place, middle: Place, cell: float) -> Iterator[Stroke]:
    """Lines from both plumb planes on."""
    for k in range(ceil((low[0] - middle[0]) / cell), floor((high[0] - middle[0]) / cell) + 1):
        x = middle[0] + k * cell
        yield Stroke(Pen.GRID if k else Pen.PLUMB, ((x, low[1]), (x, high[1])))
    for k in range(ceil((low[1] - middle[1]) / cell), floor((high[1] - middle[1]) / cell) + 1):
        y = middle[1] + k * cell
        yield Stroke(Pen.GRID if k else Pen.PLUMB, ((low[0], y), (high[0], y)))


SEAM_ALONE = frozenset((Pen.SEAM, Pen.STATION))
"""A sheet of the unrolled seam with no more on it than how far round the rubber goes is not printed."""


def unrolled_drawing(plan: Plan, seen: Unrolled) -> Drawing:
    """The seam by height and girth, with its stations.

    Parameters
    ----------
    plan : the plan.
    seen : what is drawn of it, told at one level at least.
    """
    wide, top = max(girth for girth, _ in seen.edge), max(height for _, height in seen.edge)
    low, high = (-MARGIN_MM - TICK_MM, -MARGIN_MM), (wide + MARGIN_MM, top + MARGIN_MM)
    cell = cell_mm(plan.units)
    strokes = (
        *(Stroke(Pen.GRID, ((k * cell, 0.0), (k * cell, top))) for k in range(1, floor(wide / cell) + 1)),
        *(Stroke(Pen.GRID, ((0.0, k * cell), (wide, k * cell))) for k in range(1, floor(top / cell) + 1)),
        Stroke(Pen.PLUMB, ((0.0, 0.0), (0.0, top))),
        Stroke(Pen.FRAME, ((0.0, 0.0), (wide, 0.0))),
        *(Stroke(Pen.OUTLINE, line) for line in _edges(seen)),
        *(Stroke(Pen.SEAM, line) for line in seen.lines),
        *(Stroke(Pen.STATION, ((girth, up - 0.05), (girth, up + 0.05))) for _, girth, up in seen.stations),
    )
    labels = (
        *_rule(plan.units, wide, top),
        *(Label((girth, up), str(number)) for number, girth, up in seen.stations),
    )
    says = UNROLLED + (LEFT_OUT if len(_edges(seen)) > 1 or seen.share < 1.0 else "")
    return Drawing("The seam unrolled", low, high, strokes, labels, says, SEAM_ALONE)


def _edges(seen: Unrolled) -> list[Line]:
    """Once round at each height, in runs of levels that follow each other."""
    apart = min((b[1] - a[1] for a, b in zip(seen.edge, seen.edge[1:], strict=False)), default=0.0)
    runs: list[list[Place]] = [[]]
    for place in seen.edge:
        if runs[-1] and place[1] - runs[-1][-1][1] > 1.5 * apart:
            runs.append([])
        runs[-1].append(place)
    return [tuple(run) for run in runs if len(run) > 1]


def _rule(units: UnitSystem, wide: float, top: float) -> Iterator[Label]:
    cell = 2 * cell_mm(units)
    for k in range(1, floor(top / cell) + 1):
        text = set_off(k * cell, units) + (f" {UNIT[units]}" if k == 1 else "")
        yield Label((-MARGIN_MM, k * cell), text, hold=Hold.ABREAST)
    for k in range(1, floor(wide / cell) + 1):
        yield Label((k * cell, 0.0), set_off(k * cell, units), hold=Hold.UNDER)
