"""What no draw frees: the largest undercut that is packed however a shell is split."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.found_at import Point3
from moldwright.geometry.grid import Field
from moldwright.mold.space import HALF_CELL, Space

LEAST_ML = 0.5
"""A smaller one stops nobody: our own."""


@dataclass(frozen=True, slots=True)
class Undrawn:
    """An undercut that no draw frees.

    Parameters
    ----------
    at : its middle [mm].
    across_mm : of the ball about all of it, at most so large [mm].
    volume_ml : what is packed there [ml].
    """

    at: Point3
    across_mm: float
    volume_ml: float


def largest_undrawn(space: Space, hidden: NDArray[np.floating]) -> Undrawn | None:
    """The largest connected undercut that is hidden along every draw; None where there is none worth telling.

    Parameters
    ----------
    space : about the core.
    hidden : (d, n) share of each free point's cell that is hidden along each of the draws, 0 to 1.

    Source: our own.
    """
    share: Field = np.zeros(space.grid.shape, np.float32)
    share[space.free] = hidden.min(axis=0)
    labels, count = ndimage.label(share >= HALF_CELL)
    if count == 0:
        return None
    volumes = ndimage.sum_labels(share, labels, np.arange(1, count + 1)) * space.grid.step_mm**3 / 1000
    largest = int(np.argmax(volumes))
    if volumes[largest] < LEAST_ML:
        return None
    places = space.grid.origin + space.grid.step_mm * np.argwhere(labels == largest + 1)
    middle = places.mean(axis=0)
    reach_mm = float(np.linalg.norm(places - middle, axis=1).max()) + space.grid.step_mm / 2
    x, y, z = (float(value) for value in middle)
    return Undrawn((x, y, z), 2 * reach_mm, float(volumes[largest]))
