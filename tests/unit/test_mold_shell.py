"""The space of a shell about a plain block, whose reach is known in closed form."""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import numpy as np
import pytest

from moldwright.mold.blank import Blank, ShellSettings, lay_out
from moldwright.mold.split import SplitSettings, split_in_two

WIDE, DEEP, TALL, STEP_MM = 30.0, 24.0, 40.0, 1.5
SHELL = ShellSettings()
DRAWS = np.array([[1.0, 0.0, 0.0], [-1.0, 0.0, 0.0]])


@cache
def blank() -> Blank:
    """A block on the board, its shell drawn off along +x and -x."""
    block = bodies.mesh(bodies.box(WIDE, DEEP, TALL))
    split = split_in_two(block, SHELL.seam_flange_mm, 0.0, 3.0, SplitSettings(), directions=DRAWS)
    outline = np.array([[-WIDE, -DEEP], [WIDE, -DEEP], [WIDE, DEEP], [-WIDE, DEEP]]) / 2
    return lay_out(block, outline, 0.0, split, STEP_MM, SHELL)


def test_no_rubber_is_packed_more_than_3_mm_outside_the_hull() -> None:
    """The bound is a polytope of 86 half-spaces about the hull, which lies up to 2 mm outside a block's side."""
    hidden = blank().hidden
    assert hidden.outside is not None
    away = hidden.grid.axis(0) - WIDE / 2
    row = hidden.outside[:, int(np.argmin(np.abs(hidden.grid.axis(1)))), int(20 / STEP_MM)]
    beyond = (away > 0) & (away < 12)
    assert (row[beyond] <= away[beyond] - 3.0 + 0.1).all()
    assert (row[beyond] >= away[beyond] - 3.0 - 2.0).all()
    assert blank().gloved.bounds_mm[1][0] <= WIDE / 2 + 3.0 + 1.0


def test_a_block_needs_next_to_no_packing() -> None:
    assert sum(spot.volume_ml for spot in blank().spots) < 0.1
    assert blank().gloved.volume_ml == pytest.approx(WIDE * DEEP * TALL / 1000, rel=5e-3)
