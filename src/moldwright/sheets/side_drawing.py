"""The gloved piece as lines from one side, for the full-size templates."""

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
class Drawings:
    """The four sides."""

    sides: tuple[SideDrawing, ...]
