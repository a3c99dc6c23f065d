"""The skin of a cast: what lies between the mold's wall and its inner offset."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.field import standing_band, standing_grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.slabs import standing_surfaces
from moldwright.mold.measures import Skin


def skin_of(body: Mesh, skin_mm: float, plinth_height_mm: float, step_mm: float) -> Skin:
    """Measure a skin as the body less its inner offset solid (nothing left inside: all of the body).

    Parameters
    ----------
    body : original and plinth as one closed solid on z = 0 [mm].
    skin_mm : thickness of the skin [mm].
    plinth_height_mm : where the plinth is cut off; 0 without one [mm].
    step_mm : sampling step [mm].

    Source: our own.
    """
    reach = skin_mm + 3 * step_mm
    grid = standing_grid(body, step_mm, 3 * step_mm)
    inner = standing_surfaces(grid, lambda part: [standing_band(body, part, reach) + np.float32(skin_mm)], reach)[0]
    return Skin(_between(body, inner, 0.0), _between(body, inner, plinth_height_mm))


def _between(whole: Mesh, inner: Mesh | None, height_mm: float) -> float:
    """Volume over a height between a body and what is inside it [ml]."""
    left = 0.0 if inner is None else inner.volume_over_mm3(height_mm)
    return (whole.volume_over_mm3(height_mm) - left) / 1000
