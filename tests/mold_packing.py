"""What a bare core needs packed for given draws, as a plan packs it."""

from __future__ import annotations

import numpy as np
from mold_splits import outline_of

from moldwright.geometry.mesh import Mesh
from moldwright.mold.blank import lay_out
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.space import space_about
from moldwright.mold.split import SpaceCut, SplitSettings

STEP_MM, SEARCH_MM = 1.0, 3.0
SHELL = ShellSettings()


def packed_ml(core: Mesh, draws: np.ndarray) -> float:
    """Rubber that lets a shell draw off a core on the board along (k, 3) directions, a piece along each [ml]."""
    split = SpaceCut(space_about(core, SHELL.seam_flange_mm, 0.0, SEARCH_MM), SplitSettings()).along(draws)
    return lay_out(core, outline_of(core), 0.0, split, STEP_MM, SHELL).gloved.volume_ml - core.volume_ml
