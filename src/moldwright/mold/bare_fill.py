"""The undercut fill of a bare core for given draws: what a rigid shell of one or two pieces needs packed."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.field import Sampled, standing_grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.resample import resampled
from moldwright.geometry.solid import solid_of
from moldwright.mold.split import SplitSettings, space_distance, split_in_two
from moldwright.mold.undercut import InTheWay, fill_solid, filled_core, look_along, seam_border

MARGIN_MM = 12.0


def undercut_fill_ml(core: Mesh, draws: NDArray[np.float64], step_mm: float = 1.0, coarse_mm: float = 3.0) -> float:
    """Rubber [ml] that lets a shell in one or two pieces draw off a core along given directions.

    Parameters
    ----------
    core : closed solid standing on z = 0 [mm]; nothing is added to it.
    draws : (1, 3) or (2, 3) unit vectors.
    step_mm : sampling step of the fill [mm].
    coarse_mm : step of the seam's search [mm].

    Source: our own.
    """
    fill, _ = fill_solid(_hidden(core, draws, step_mm, coarse_mm), 0.0)
    return float(filled_core(core, fill).volume() - solid_of(core).volume()) / 1000


def _hidden(core: Mesh, draws: NDArray[np.float64], step_mm: float, coarse_mm: float) -> InTheWay:
    grid = standing_grid(core, step_mm, MARGIN_MM)
    outside = resampled(Sampled(space_distance(core, grid.coarser(3)), grid.coarser(3)), grid)
    if len(draws) == 1:
        return look_along(core, grid, draws, None, outside)
    split = split_in_two(core, MARGIN_MM, 0.0, coarse_mm, SplitSettings(), directions=draws)
    return look_along(core, grid, draws, seam_border(split, grid), outside)
