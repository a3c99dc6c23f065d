"""The gloved piece as lines: from one side, cut level, and its seam unrolled, for the full-size templates."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.seam import ViewSide

Line = tuple[tuple[float, float], ...]
"""Points of a line, right and up [mm]."""


@dataclass(frozen=True, slots=True)
class SideDrawing:
    """What is seen from one side, to the right of its plumb line and up from the board [mm]."""

    side: ViewSide
    outline: tuple[Line, ...]
    seam: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class LevelDrawing:
    """What a level cut through the mold shows, seen from above [mm].

    height_mm : over the board. rubber : the gloved piece's outlines. shell : each shell piece's, the first off first.
    seam : where the seam's lines pass that height.
    """

    height_mm: float
    rubber: tuple[Line, ...]
    shell: tuple[tuple[Line, ...], ...]
    seam: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Unrolled:
    """The seam by height and girth: how far round the rubber from the front plumb line, to the right as one looks at
    it from outside [mm].

    edge : girth all round and height, from the lowest level up; a level that no tape lies on is left out.
    lines : the seam's. stations : number, girth and height of each that is on a level that is told.
    share : of the seam's length, what is told.
    """

    edge: tuple[tuple[float, float], ...]
    lines: tuple[Line, ...]
    stations: tuple[tuple[int, float, float], ...]
    share: float


NOT_UNROLLED = Unrolled((), (), (), 0.0)


@dataclass(frozen=True, slots=True)
class Drawings:
    """The four sides, level cuts from the lowest up, and the seam unrolled."""

    sides: tuple[SideDrawing, ...]
    levels: tuple[LevelDrawing, ...] = ()
    unrolled: Unrolled = NOT_UNROLLED
