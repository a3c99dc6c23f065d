"""What a block of rubber would have to give way for: what locks it straight up, and how high up it must be cut."""

from __future__ import annotations

import numpy as np
from scipy import ndimage

from moldwright.mold.kinds import Locked
from moldwright.mold.space import Space, hidden_share

UP = np.array([0.0, 0.0, 1.0])
LEAST_SHARE = 0.5
"""Of a point's cell so much is hidden where the place counts: our own."""


def locked_upward(space: Space, hook_mm: float) -> Locked:
    """What of the rubber about a body hooks under it.

    Parameters
    ----------
    space : about the bare body.
    hook_mm : so far rubber gives way [mm].

    Source: our own; the shadow of `mold.space`.
    """
    grid = space.grid
    hidden = np.where(space.free, hidden_share(space.field, UP, grid.step_mm), 0.0)
    over_mm = ndimage.distance_transform_edt(~space.body, grid.step_mm)
    deep = np.where(over_mm > hook_mm + grid.step_mm / 2, hidden, 0.0)
    heights = grid.axis(2)[np.any(deep > LEAST_SHARE, axis=(0, 1))]
    volume_ml = float(deep.sum(dtype=np.float64)) * grid.step_mm**3 / 1000
    return Locked(volume_ml, float(heights.max()) if len(heights) else 0.0)
