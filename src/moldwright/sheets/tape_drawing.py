"""The solid that a tape was understood as, from the front and from the side, with its levels and limbs."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot
from string import ascii_uppercase
from typing import Any

from moldwright.sheets.shapes import BLACK, WHITE, Anchor, Area, Color, Disc, Note, Shape, Wire, shape_data
from moldwright.tape.drawn import Drawn, Facing, LevelDrawn, Outlined

WIDE_MM, TALL_MM = 92.0, 118.0
LABELS_MM, EDGE_MM, FOOT_MM = 9.0, 3.0, 7.0
"""Room left of the piece for the numbers of levels, round it, and under the board."""
APART_MM = 4.2
"""Numbers of levels stand at least so far apart."""
GROUND: Color = (222, 226, 224)
INK: Color = (60, 70, 66)
TEXT_PT, SMALL_PT = 10.0, 8.5
DISC_MM = 2.6


def limb_letter(number: int) -> str:
    """What a limb is marked with: A, B, ..., Z, then AA.

    Parameters
    ----------
    number : from 0.

    >>> limb_letter(1), limb_letter(26)
    ('B', 'AA')
    """
    turn, place = divmod(number, len(ascii_uppercase))
    return ascii_uppercase[place] * (turn + 1)


def tape_drawing(drawn: Drawn, facing: Facing, title: str) -> dict[str, Any]:
    """One view as the form draws it.

    Parameters
    ----------
    drawn : what was understood.
    facing : from where.
    title : what is written over it.
    """
    outlined = next(one for one in drawn.outlines if one.facing is facing)
    to_paper = _Paper(outlined)
    shapes: list[Shape] = [Area(tuple(to_paper.line(ring) for ring in outlined.rings), GROUND)]
    shapes += [Wire((*to_paper.line(ring), to_paper.at(*ring[0])), 0.45) for ring in outlined.rings]
    shapes += _board(to_paper)
    shapes += _levels(drawn.levels, facing, to_paper)
    shapes += _limbs(drawn, facing, to_paper)
    shapes.append(Note((WIDE_MM / 2.0, TALL_MM - 1.6), title, TEXT_PT, bold=True))
    return {"wide": WIDE_MM, "tall": TALL_MM, "shapes": [shape_data(shape) for shape in shapes]}


class _Paper:
    """From millimeters of the piece, right and up, to the paper's, right and down."""

    def __init__(self, outlined: Outlined) -> None:
        across = [x for ring in outlined.rings for x, _ in ring]
        up = [z for ring in outlined.rings for _, z in ring]
        self.left_mm, self.right_mm = min(across), max(across)
        wide, tall = WIDE_MM - LABELS_MM - 2 * EDGE_MM, TALL_MM - EDGE_MM - FOOT_MM
        self._scale = min(wide / max(self.right_mm - self.left_mm, 1e-6), tall / max(*up, 1e-6))
        room = wide - self._scale * (self.right_mm - self.left_mm)
        self._start = LABELS_MM + EDGE_MM + room / 2.0 - self._scale * self.left_mm

    def at(self, x_mm: float, z_mm: float) -> tuple[float, float]:
        """A place on the paper."""
        return self._start + self._scale * x_mm, TALL_MM - FOOT_MM - self._scale * z_mm

    def line(self, points: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
        """A line on the paper."""
        return tuple(self.at(x, z) for x, z in points)


def _board(paper: _Paper) -> list[Shape]:
    _, y = paper.at(0.0, 0.0)
    return [Wire(((LABELS_MM, y), (WIDE_MM - EDGE_MM, y)), 0.6)]


def _levels(levels: Sequence[LevelDrawn], facing: Facing, paper: _Paper) -> list[Shape]:
    """A line across the piece at each level, and its number at the left edge, none over another."""
    shapes: list[Shape] = []
    below = TALL_MM
    for number, level in enumerate(levels, start=1):
        half = (level.breadth_mm if facing is Facing.FRONT else level.depth_mm) / 2.0
        left, right = paper.at(-half, level.at_mm), paper.at(half, level.at_mm)
        y = min(left[1], below - APART_MM)
        below = y
        shapes.append(Wire((left, right), 0.3, INK))
        shapes.append(Wire(((LABELS_MM, y), left), 0.15, INK, dashed=True))
        shapes.append(Note((LABELS_MM - 1.2, y), str(number), TEXT_PT, Anchor.RIGHT))
    return shapes


def _limbs(drawn: Drawn, facing: Facing, paper: _Paper) -> list[Shape]:
    """Each limb's letter on its middle, beside those that stand there already."""
    shapes: list[Shape] = []
    stand: list[tuple[float, float]] = []
    for number, limb in enumerate(drawn.limbs):
        x, y, z = limb.middle_mm
        at = paper.at(x if facing is Facing.FRONT else y, z)
        while any(hypot(at[0] - a, at[1] - b) < 2.0 * DISC_MM for a, b in stand):
            at = at[0] + DISC_MM, at[1]
        stand.append(at)
        shapes.append(Disc(at, DISC_MM, 0.3, BLACK, WHITE))
        shapes.append(Note(at, limb_letter(number), SMALL_PT, bold=True))
    return shapes
