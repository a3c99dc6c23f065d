"""The space of a shell about a plain block, whose reach is known in closed form."""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import numpy as np
import pytest
import shapely
from mold_splits import outline_of, parted
from shapely import Polygon

from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh
from moldwright.mold.blank import Blank, ShellSettings, cut_piece, lay_out, outline_distance, room_for
from moldwright.mold.removal import check_removal
from moldwright.mold.space import coarse_grid

WIDE, DEEP, TALL, STEP_MM = 30.0, 24.0, 40.0, 1.5
SEAM_MM, CLEAR_MM = 1.5, 1.0
SHELL = ShellSettings()


@cache
def blank() -> Blank:
    """A block on the board, its shell drawn off along +x and -x; the seam half way between points of the search."""
    block = bodies.mesh(bodies.box(WIDE, DEEP, TALL))
    grid = coarse_grid(block, SHELL.seam_flange_mm, 0.0, 2 * SEAM_MM)
    return lay_out(block, outline_of(block), 0.0, parted(grid), STEP_MM, SHELL)


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


def in_closed_form(step_mm: float = 1.0) -> tuple[np.ndarray, ...]:
    """Points about the block: their distance to it, in plan to its outline, across the seam, and height."""
    x, y, z = np.meshgrid(
        np.arange(-60, 60, step_mm), np.arange(-60, 60, step_mm), np.arange(0, 90, step_mm), indexing="ij"
    )
    x, y, z = x + step_mm / 2, y + step_mm / 2, z + step_mm / 2
    out = np.maximum([np.abs(x) - WIDE / 2, np.abs(y) - DEEP / 2, z - TALL], 0)
    away = np.where((out > 0).any(axis=0), np.linalg.norm(out, axis=0), -1.0)
    return away, np.hypot(out[0], out[1]), x - SEAM_MM, z


def test_a_piece_holds_its_half_of_wall_seam_flange_and_base_flange() -> None:
    """Within 9 mm of the rubber; within 25 mm where it is at most 9 mm from the seam; 9 mm high to 15 mm beyond the
    rubber's edge; 1 mm clear of rubber, seam and board. Counted on points 1 mm apart, within 3 %."""
    away, plan, across, z = in_closed_form()
    band = (away <= 9) | ((np.abs(across) <= 9) & (away <= 25)) | ((plan <= 15) & (z <= 9))
    kept = band & (away > CLEAR_MM) & (np.abs(across) > CLEAR_MM) & (z > CLEAR_MM)
    for piece, side in zip(pieces(), (across > 0, across < 0), strict=True):
        assert piece.volume_mm3 == pytest.approx((kept & side).sum(), rel=0.03)


@cache
def pieces() -> tuple[Mesh, Mesh]:
    first, second = (cut_piece(blank(), room_for(blank(), number), CLEAR_MM) for number in (0, 1))
    return first, second


def test_the_pieces_stand_where_they_belong() -> None:
    """The first off along +x, the second along -x, clear of each other; as wide and as tall as wall and flanges ask."""
    (low, high), (other_low, other_high) = (piece.bounds_mm for piece in pieces())
    assert low[0] - other_high[0] == pytest.approx(2 * CLEAR_MM, abs=0.5)
    for from_mm, to_mm in ((high[0], WIDE / 2 + 15), (-other_low[0], WIDE / 2 + 15), (high[1], DEEP / 2 + 25),
                           (high[2], TALL + 25), (-low[1], DEEP / 2 + 25)):  # fmt: skip
        assert from_mm == pytest.approx(to_mm, abs=1.5)
    assert low[2] == pytest.approx(CLEAR_MM, abs=0.01)


def test_the_pieces_come_off_and_touch_nothing() -> None:
    found = check_removal(pieces(), ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)), blank().gloved)
    assert found.free


@pytest.mark.parametrize("aside", [(0.0, 0.0), (0.0, 90.0), (-70.0, 0.0)])
@pytest.mark.parametrize("dent", [[], [[-1.0, -3.0], [-8.0, -5.0]]])
def test_distance_to_an_outline_in_plan(aside: tuple[float, float], dent: list[list[float]]) -> None:
    """Against Shapely's distance to a slanted outline, with a deep dent and without, either way round, anywhere."""
    sides = [[-12.0, -7.0], [9.0, -11.0], [14.0, 3.0], [2.0, 12.0], *dent, [-9.0, 8.0]]
    outline = np.array(sides) + aside
    grid = Grid((aside[0] - 20.0, aside[1] - 18.0, 0.0), 2.0, (21, 19, 2))
    shape = Polygon(outline)
    points = shapely.points(*np.meshgrid(grid.axis(0), grid.axis(1), indexing="ij"))
    exact = np.where(shapely.contains(shape, points), -1, 1) * shapely.distance(shape.exterior, points)
    for ring in (outline, outline[::-1]):
        assert np.abs(outline_distance(ring, grid) - exact).max() < 1e-4
