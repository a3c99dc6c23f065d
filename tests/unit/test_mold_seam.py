"""The seam of a shell about a plain block, on fields in closed form: its length, its line, its heights."""

from __future__ import annotations

from dataclasses import replace

import geometry_bodies as bodies
import numpy as np
import pytest
from mold_splits import ACROSS_X

from moldwright.geometry.grid import Grid
from moldwright.mold.blank import Blank
from moldwright.mold.seam import seam_length_mm, seam_points, seam_table, uncovered_share
from moldwright.mold.undercut import InTheWay

WIDE, DEEP, TALL, FLANGE_MM, FAR_MM = 30.0, 24.0, 40.0, 25.0, 100.0


def by_hand(floor_mm: float = 0.0, way_mm: float = -1.0, seam_mm: float = 0.5) -> Blank:
    """A block on the board: the seam in the plane x = `seam_mm`, the flange all round; `way_mm`: what ways meet."""
    block = bodies.mesh(bodies.box(WIDE, DEEP, TALL))
    grid = Grid((-45.0, -45.0, 0.0), 1.0, (91, 91, 81))
    x, y, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    away = np.stack([np.abs(x) - WIDE / 2, np.abs(y) - DEEP / 2, z - TALL])
    core = np.where((away < 0).all(axis=0), away.max(axis=0), np.linalg.norm(np.maximum(away, 0), axis=0))
    core = core.astype(np.float32)
    way = np.full_like(core, way_mm)
    border = (x - seam_mm).astype(np.float32)
    hidden = InTheWay(grid, core, (way, way), border, np.full_like(core, -FAR_MM))
    band = core - np.float32(FLANGE_MM)
    return Blank(hidden, border, core, block, (), band, ACROSS_X, floor_mm)


def test_the_seam_runs_up_over_and_down() -> None:
    """Its flange is a band w wide round three sides of the block's middle section: area w (2 h + b) + pi w^2 / 2.

    Length = area / w = 2 h + b + pi w / 2, within 2 %: points are counted.
    """
    exact = 2 * TALL + DEEP + np.pi * FLANGE_MM / 2
    assert seam_length_mm(by_hand(), FLANGE_MM) == pytest.approx(exact, rel=0.02)


def test_the_seams_height_is_told_all_round() -> None:
    """Points on a circle at a height of 10 mm, at 90 degrees one of 25 mm; nothing between 181 and 355 degrees."""
    angle = np.radians(np.arange(0, 179))
    ring = np.stack([50 * np.cos(angle), 50 * np.sin(angle), np.full(len(angle), 10.0)], axis=1)
    table = {row.angle_deg: row.height_mm for row in seam_table(np.concatenate([ring, [[0.0, 50.0, 25.0]]]))}
    assert (table[0.0], table[45.0], table[90.0], table[270.0]) == (10.0, 10.0, 25.0, None)
    assert len(table) == 24


def test_the_seams_line_lies_on_the_rubber_over_the_floor() -> None:
    """Up one side, over the top, down the other: every point on the block's surface within a step, none below 10 mm."""
    points = seam_points(by_hand(floor_mm=10.0))
    assert np.abs(points[:, 0] - 0.5).max() <= 0.5
    on_side = np.abs(np.abs(points[:, 1]) - DEEP / 2) <= 0.6
    on_top = np.abs(points[:, 2] - TALL) <= 0.6
    assert (on_side | on_top).all()
    assert points[:, 2].min() == 10.0
    aside = seam_points(by_hand(seam_mm=0.2))
    assert set(aside[:, 0]) == {0.0}
    assert len(aside) > 100
    for y in (-DEEP / 2, DEEP / 2):
        assert set(points[points[:, 1] == y][:, 2]) >= set(np.arange(10.0, TALL))


def seen(first: np.ndarray, second: np.ndarray, floor_mm: float = 0.0) -> float:
    """The uncovered share where the first's way out is free at `first`, the second's at `second`."""
    blank = by_hand(floor_mm)
    ways = tuple(np.where(free, np.float32(1), np.float32(-1)) for free in (first, second))
    in_the_way = replace(blank.hidden, ways=ways)
    return uncovered_share(replace(blank, hidden=in_the_way))


def test_the_share_that_neither_piece_covers() -> None:
    """All, nothing, and the second's half; each piece counts on its own side of the seam only."""
    blank = by_hand()
    every, none, firsts = np.ones(blank.border.shape, bool), np.zeros(blank.border.shape, bool), blank.border > 0
    assert (seen(none, none), seen(every, every)) == (1.0, 0.0)
    assert seen(every, none) == pytest.approx(0.5, abs=0.03)
    assert seen(firsts, ~firsts) == 0.0
    assert seen(~firsts, firsts) == 1.0


def test_only_the_rubbers_own_surface_over_the_floor_counts() -> None:
    """Nothing is uncovered where only points in the rubber, farther than a step from it, or under the floor held."""
    blank = by_hand()
    over = np.broadcast_to(blank.grid.axis(2) > 10.0, blank.border.shape)
    for free in (blank.whole > 0.3, blank.whole <= 1.3):
        assert seen(free, free) == 0.0
    assert seen(over, over, floor_mm=10.0) == 0.0
    assert seen(over, over, floor_mm=9.0) > 0.0
