"""A drawing of any size cut into the tiles of a paper: what falls on each, and where its neighbors meet it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
import shapely
from shapely import LineString

from moldwright.sheets.labels import Label, SetLabel, set_labels

Place = tuple[float, float]
Line = tuple[Place, ...]

CROSS_MM = 3.0
OVERLAP_MM = 10.0
"""How much of two neighbors shows the same: our choice."""


class Pen(StrEnum):
    """What a line of a template means; the form decides how it looks."""

    GRID = "grid"
    PLUMB = "plumb"
    TICK = "tick"
    FRAME = "frame"
    FOOT = "foot"
    FLANGE = "flange"
    KEY = "key"
    LIP = "lip"
    SEAM = "seam"
    OUTLINE = "outline"
    HOLE = "hole"
    DRAW = "draw"
    STATION = "station"


UNDER = frozenset((Pen.GRID, Pen.PLUMB, Pen.TICK, Pen.STATION))
"""Lines that a text may lie on."""
DRAWN = frozenset(Pen) - {Pen.GRID, Pen.PLUMB, Pen.TICK}
"""What a sheet is printed for, where a drawing says nothing else."""


@dataclass(frozen=True, slots=True)
class Stroke:
    pen: Pen
    points: Line


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing in millimeters, to the right and up, what of it is printed, and what it says over it; `about`: lines of
    which a sheet has to hold some, or it is not printed."""

    name: str
    low: Place
    high: Place
    strokes: tuple[Stroke, ...]
    labels: tuple[Label, ...]
    says: str = ""
    about: frozenset[Pen] = DRAWN

    def smaller(self, scale: float) -> Drawing:
        """The drawing at 1 : `scale`."""

        def shrunk(place: Place) -> Place:
            return (place[0] / scale, place[1] / scale)

        strokes = tuple(Stroke(s.pen, tuple(shrunk(p) for p in s.points)) for s in self.strokes)
        labels = tuple(replace(label, at=shrunk(label.at)) for label in self.labels)
        return replace(self, low=shrunk(self.low), high=shrunk(self.high), strokes=strokes, labels=labels)


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet of a drawing: its column from the left and row from the top, of how many; places from its upper left
    corner, down [mm]. crosses : where it meets its neighbors."""

    column: int
    row: int
    columns: int
    rows: int
    strokes: tuple[Stroke, ...]
    labels: tuple[SetLabel, ...]
    crosses: tuple[Place, ...]


def tiles(drawing: Drawing, wide_mm: float, tall_mm: float) -> list[Tile]:
    """The tiles of a drawing, row by row from the top; those with nothing of what it is about are left out.

    Parameters
    ----------
    drawing : at the size that it is printed in.
    wide_mm, tall_mm : what a sheet holds [mm].
    """
    columns, rows = grid_of(drawing, wide_mm, tall_mm)
    return [
        tile
        for row in range(rows)
        for column in range(columns)
        if (tile := _tile(drawing, (column, row), (columns, rows), wide_mm, tall_mm)) is not None
    ]


def grid_of(drawing: Drawing, wide_mm: float, tall_mm: float) -> tuple[int, int]:
    """Columns and rows of tiles.

    Parameters
    ----------
    drawing : at the size that it is printed in.
    wide_mm, tall_mm : what a sheet holds [mm].
    """
    wide, tall = drawing.high[0] - drawing.low[0], drawing.high[1] - drawing.low[1]
    return (_count(wide, wide_mm), _count(tall, tall_mm))


def _count(whole_mm: float, tile_mm: float) -> int:
    return max(1, math.ceil((whole_mm - OVERLAP_MM) / (tile_mm - OVERLAP_MM) - 1e-9))


def _tile(drawing: Drawing, at: tuple[int, int], of: tuple[int, int], wide_mm: float, tall_mm: float) -> Tile | None:
    left = drawing.low[0] + at[0] * (wide_mm - OVERLAP_MM)
    top = drawing.high[1] - at[1] * (tall_mm - OVERLAP_MM)
    right = min(left + wide_mm, drawing.high[0])
    bottom = max(top - tall_mm, drawing.low[1])
    window = shapely.box(left, bottom, right, top)
    strokes = [s for stroke in drawing.strokes for s in _clipped(stroke, window, left, top)]
    if not any(stroke.pen in drawing.about for stroke in strokes):
        return None
    inside = [
        replace(label, at=_down(label.at, left, top))
        for label in drawing.labels
        if left <= label.at[0] <= right and bottom <= label.at[1] <= top
    ]
    half = OVERLAP_MM / 2
    crosses = [
        (x, y)
        for x in (half, wide_mm - half)
        for y in (half, tall_mm - half)
        if of != (1, 1) and x <= right - left and y <= top - bottom
    ]
    lines = [stroke.points for stroke in strokes if stroke.pen not in UNDER]
    bare = [((x - CROSS_MM, y - CROSS_MM), (x + CROSS_MM, y + CROSS_MM)) for x, y in crosses]
    labels = set_labels(inside, right - left, top - bottom, lines, bare)
    return Tile(*at, *of, tuple(strokes), labels, tuple(crosses))


def _down(place: Place, left: float, top: float) -> Place:
    return (round(place[0] - left, 2), round(top - place[1], 2))


def _clipped(stroke: Stroke, window: shapely.Polygon, left: float, top: float) -> list[Stroke]:
    found = shapely.intersection(LineString(stroke.points), window)
    parts: Sequence[shapely.Geometry] = list(getattr(found, "geoms", [found]))
    lines = [np.asarray(part.coords) for part in parts if isinstance(part, LineString) and not part.is_empty]
    return [Stroke(stroke.pen, tuple(_down((float(x), float(y)), left, top) for x, y in line)) for line in lines]
