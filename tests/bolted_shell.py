"""A printed shell about a plain block, bored and keyed, for all tests of a session."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import geometry_bodies as bodies
from mold_splits import outline_of, parted

from moldwright.mold.shell import BuiltShell, build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.space import coarse_grid

EDGE = outline_of(bodies.mesh(bodies.box(84, 74, 90)))
"""Of the rubber's flange."""
PRINTED = ShellSettings(wall_mm=4.0, bolted=True)


@cache
def block_shell(bolted: bool = True) -> BuiltShell:
    """60 x 50 mm, 90 mm tall, on a flange of 12 mm, in two pieces drawn off along x."""
    block = bodies.mesh(bodies.box(60, 50, 90))
    split = parted(coarse_grid(block, PRINTED.seam_flange_mm, 0.0, 3.0))
    return build_shell(block, EDGE, 0.0, split, 2.0, replace(PRINTED, bolted=bolted))
