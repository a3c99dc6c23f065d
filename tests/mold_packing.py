"""What a bare core needs packed for given draws, as a plan packs it."""

from __future__ import annotations

import numpy as np
from mold_splits import outline_of, parted

from moldwright.geometry.mesh import Mesh
from moldwright.mold.blank import lay_out
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.split import SplitSettings, space_about, split_along

STEP_MM, SEARCH_MM = 1.0, 3.0
SHELL = ShellSettings()


def packed_ml(core: Mesh, draws: np.ndarray) -> float:
    """Rubber that lets a shell draw off a core on the board along (1, 3) or (2, 3) directions [ml].

    One draw is a shell parted in the plane x = 0 whose two pieces both draw off along it: the seam changes nothing.
    """
    space = space_about(core, SHELL.seam_flange_mm, 0.0, SEARCH_MM)
    if len(draws) == 2:
        split = split_along(space, draws, SplitSettings())
    else:
        split = parted(space.grid, np.repeat(draws, 2, axis=0))
    return lay_out(core, outline_of(core), 0.0, split, STEP_MM, SHELL).gloved.volume_ml - core.volume_ml
