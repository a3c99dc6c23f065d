"""Tunnels that outlines leave by chance: so narrow that no photo tells them from the noise of its edge."""

from __future__ import annotations

import numpy as np
from scipy import ndimage

from moldwright.geometry.field import Sampled

NARROW_MM, NARROW_STEPS = 3.0, 3.0
"""A gap is closed that is narrower than this, or than so many steps of the field: our own."""


def without_tunnels(sampled: Sampled) -> Sampled:
    """The field with its narrow gaps filled, elsewhere as it was: the morphological closing by a ball, where it fills.

    A gap so narrow is stopped before the rubber anyway.

    Parameters
    ----------
    sampled : a field about as steep as a distance [mm].

    Source: closing, Serra 1982, "Image analysis and mathematical morphology" (from memory); the distance that it needs
    is counted from points, so that it is taken one step short.
    """
    step = sampled.grid.step_mm
    radius = max(NARROW_MM, NARROW_STEPS * step) / 2.0
    depth = ndimage.distance_transform_edt(sampled.field < radius).astype(np.float32) * np.float32(step)
    return Sampled(np.minimum(sampled.field, np.float32(radius + step) - depth), sampled.grid)
