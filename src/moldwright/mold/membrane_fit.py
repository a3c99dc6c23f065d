"""Corners of a sheet spread evenly over a body."""

from __future__ import annotations

from typing import Any

import numba as nb
import numpy as np

from moldwright.mold.membrane_steps import away


@nb.njit(cache=True)
def fit(x: Any, edges: Any, rim: Any, rounds: int, field: Any, origin: Any, step: float) -> None:
    """Moves corners toward the middle of their neighbors and back onto the body, in turn; those of the rim along it.

    Parameters
    ----------
    x : (n, 3) places [mm], changed.
    edges : (e, 2) corners of each side.
    rim : (n,) which corners stay at their height.
    rounds : how often.
    field, origin, step : see `membrane_contact.Obstacle`.

    Source: Laplacian smoothing and Newton's step, textbook.
    """
    middle, times = np.zeros_like(x), np.zeros(x.shape[0])
    for _ in range(rounds):
        middle[:] = 0.0
        times[:] = 0.0
        for n in range(edges.shape[0]):
            i, j = edges[n, 0], edges[n, 1]
            if rim[j] or not rim[i]:
                middle[i] += x[j]
                times[i] += 1
            if rim[i] or not rim[j]:
                middle[j] += x[i]
                times[j] += 1
        for n in range(x.shape[0]):
            x[n] += 0.6 * (middle[n] / times[n] - x[n])
            for _ in range(2):
                far, gx, gy, gz = away(field, origin, step, x[n, 0], x[n, 1], x[n, 2])
                if rim[n]:
                    gz = 0.0
                square = gx * gx + gy * gy + gz * gz
                if square > 1e-2:
                    by = min(max(-far / square, -step), step)
                    x[n, 0] += by * gx
                    x[n, 1] += by * gy
                    x[n, 2] += by * gz
