"""What a liquid that stands over a surface presses it with."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray


def pressed_mm3(corners: NDArray[np.float64]) -> NDArray[np.float64]:
    """(3,) force of a liquid on triangles that it wets from inside, over its weight per volume [mm3]: `sum(d A n)`.

    The liquid's level is at z = 0 and its depth d is z, as in a mold that stands on the board and is poured the other
    way up. Depth is linear on a triangle, so that the depth at its middle makes the sum exact.

    Parameters
    ----------
    corners : (m, 3, 3) of triangles that are wound counterclockwise seen from outside the liquid [mm].

    Source: hydrostatics; the midpoint rule of a linear function.

    >>> pressed_mm3(np.array([[[0.0, 0, 10], [6, 0, 10], [0, 6, 10]]])).tolist()
    [0.0, 0.0, 180.0]
    """
    a, b, c = corners.transpose(1, 0, 2)
    depth_mm = corners[:, :, 2].mean(axis=1)
    force: NDArray[np.float64] = depth_mm @ np.cross(b - a, c - a) / 2
    return force
