"""Where on a body a point lies, as somebody finds it who stands before it."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from moldwright.found_at import FoundAt
from moldwright.geometry.mesh import Mesh

MIDDLE_SHARE = 0.08
"""What lies so near the upright line through the middle of a body, by its width, is on no side: our choice."""
SIDES = ("front", "right", "back", "left")


def found_on(body: Mesh, at_mm: NDArray[np.float64], across_mm: float) -> FoundAt:
    """A place of a body that stands on the board.

    Parameters
    ----------
    body : what it is on, z up from the board [mm].
    at_mm : (3,) its middle [mm].
    across_mm : how large it is [mm].

    Source: our own.

    >>> cube = Mesh(np.array([[-9.0, -9, 0], [9, 9, 0], [9, -9, 40]]), np.array([[0, 1, 2]], np.int32))
    >>> found_on(cube, np.array([8.0, 1.0, 12.04]), 6.0).side
    'right'
    """
    x, y, z = (round(float(value), 1) + 0.0 for value in at_mm)
    return FoundAt((x, y, z), round(float(across_mm), 1), _side(body, at_mm), body)


def _side(body: Mesh, at_mm: NDArray[np.float64]) -> str:
    """The side from which one looks at it; "" in the middle."""
    low, high = body.bounds_mm
    x, y = at_mm[:2] - (low[:2] + high[:2]) / 2
    if math.hypot(x, y) < MIDDLE_SHARE * float((high - low)[:2].max()):
        return ""
    return SIDES[round(math.degrees(math.atan2(x, -y)) / 90.0) % 4]
