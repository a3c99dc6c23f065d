"""The mold drawn apart: how far each solid is moved, the original lowest, the glove over it, the shell off sideways."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Floats

Point = tuple[float, float, float]
NEARLY, GAP, GAP_UP = 0.85, 0.08, 0.2
"""A piece that draws off sideways is moved so much of the way past the glove; between solids that are drawn apart, and
between the original and the glove over it, there is so much of the mold's size: our own."""
LEVEL = 0.2
"""A draw whose level part is less is upward or downward: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class Apart:
    """How far solids are moved from their places [mm]; original and plinth stay.

    Parameters
    ----------
    glove : (3,) straight up.
    pieces : (3,) of each piece of the shell, along its draw, and up with the glove.
    size_mm : the gloved piece's, from corner to corner.
    """

    glove: Floats
    pieces: tuple[Floats, ...]
    size_mm: float


def drawn_apart(bare: Sequence[Mesh], glove: Mesh, pieces: Sequence[Mesh], draws: Sequence[Point]) -> Apart:
    """The way of each solid.

    Parameters
    ----------
    bare : original and plinth.
    glove : the rubber.
    pieces, draws : the shell's, in the order of removal.
    """
    corners = np.array([bound for mesh in (*bare, glove) for bound in mesh.bounds_mm])
    low, high = corners.min(axis=0), corners.max(axis=0)
    size_mm = float(np.linalg.norm(high - low))
    top_mm = max(float(mesh.vertices[:, 2].max()) for mesh in bare)
    up = np.array([0.0, 0.0, top_mm + GAP_UP * size_mm])
    ways = [_away_mm(glove, *each, size_mm) * np.array(each[1]) + up for each in zip(pieces, draws, strict=True)]
    return Apart(up, tuple(ways), size_mm)


def sideways(draw: Point) -> bool:
    """Whether a piece draws off more or less level.

    Parameters
    ----------
    draw : its unit vector.

    >>> sideways((0.0, 0.6, 0.8)), sideways((0.0, 0.0, 1.0))
    (True, False)
    """
    return math.hypot(draw[0], draw[1]) > LEVEL


def _away_mm(glove: Mesh, piece: Mesh, draw: Point, size_mm: float) -> float:
    """How far a piece is moved: nearly past the glove."""
    along, share = np.array(draw), NEARLY if sideways(draw) else 1.0
    return share * float((glove.vertices @ along).max() - (piece.vertices @ along).min()) + GAP * size_mm
