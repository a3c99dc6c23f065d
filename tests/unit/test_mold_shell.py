"""The space of a shell about a plain block, whose seam and whose reach are known in closed form."""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import numpy as np
import pytest

from moldwright.geometry.grid import Grid
from moldwright.mold.blank import Blank, ShellSettings, lay_out
from moldwright.mold.seam import seam_length_mm, seam_table
from moldwright.mold.split import SplitSettings, split_in_two
from moldwright.mold.undercut import InTheWay

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


def by_hand() -> Blank:
    """The same block with fields in closed form: the seam in the plane x = 0.5, the flange all round it."""
    grid = Grid((-45.0, -45.0, 0.0), 1.0, (91, 91, 81))
    x, y, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    away = np.stack([np.abs(x) - WIDE / 2, np.abs(y) - DEEP / 2, z - TALL])
    core = np.where((away < 0).all(axis=0), away.max(axis=0), np.linalg.norm(np.maximum(away, 0), axis=0))
    core = core.astype(np.float32)
    hidden = InTheWay(grid, core, (core, core), None)
    band = core - np.float32(SHELL.seam_flange_mm)
    return Blank(hidden, (x - 0.5).astype(np.float32), core, blank().gloved, (), band, DRAWS, 0.0)


def test_the_seam_runs_up_over_and_down() -> None:
    """Its flange is a band w wide round three sides of the block's middle section: area w (2 h + b) + pi w^2 / 2.

    Length = area / w = 2 h + b + pi w / 2, within 2 %: points are counted.
    """
    exact = 2 * TALL + DEEP + np.pi * SHELL.seam_flange_mm / 2
    assert seam_length_mm(by_hand(), SHELL.seam_flange_mm) == pytest.approx(exact, rel=0.02)


def test_the_seams_height_is_told_all_round() -> None:
    """Points on a circle at a height of 10 mm, at 90 degrees one of 25 mm; nothing between 181 and 355 degrees."""
    angle = np.radians(np.arange(0, 179))
    ring = np.stack([50 * np.cos(angle), 50 * np.sin(angle), np.full(len(angle), 10.0)], axis=1)
    table = {row.angle_deg: row.height_mm for row in seam_table(np.concatenate([ring, [[0.0, 50.0, 25.0]]]))}
    assert (table[0.0], table[45.0], table[90.0], table[270.0]) == (10.0, 10.0, 25.0, None)
    assert len(table) == 24


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
