"""Which pair of draws a shell takes, on cores whose best draws and whose fill are known in closed form."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from mold_splits import ACROSS_X

from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.shadow import binary_shadow
from moldwright.mold.pairs import pair_bounds, shortlist
from moldwright.mold.space import coarse_grid, space_about, space_distance
from moldwright.mold.split import CoarseSplit, SpaceCut, SplitSettings
from moldwright.mold.split_search import splits_about

SHAPE = (10, 10, 10)


def made(energy_ml: float, smaller: float) -> CoarseSplit:
    """A split of a thousand points of which the smaller piece has a share."""
    labels = np.ones(1000, np.int8)
    labels[: round(1000 * smaller)] = 0
    return CoarseSplit(ACROSS_X, Grid((0.0, 0.0, 0.0), 1.0, SHAPE), labels.reshape(SHAPE), energy_ml, energy_ml)


def drilled(deep: float, width: float) -> Mesh:
    """A post of 40 by 40 by 48 mm with square blind holes from both sides along x."""
    post = bodies.box(40, 40, 48)
    tool = m3.Manifold.cube((deep, width, width)).translate((20 - deep, -width / 2, 24 - width / 2))
    return bodies.mesh(post - tool - tool.rotate((0, 0, 180)))


def test_blind_holes_are_drawn_along() -> None:
    """Along the holes nothing needs packing; along any other pair that is told apart from it, their rims hide some."""
    found = splits_about(drilled(14, 16), 8.0, 0.0, 3.0, SplitSettings(tilts_deg=(0,)), 2).of(2)
    assert np.abs(found.directions[:, 0]).min() > np.cos(np.radians(10))
    assert found.fill_ml < 0.1


@pytest.mark.parametrize("side", [40.0, 42.0])
@pytest.mark.parametrize("under", [20.0, 23.0])
def test_what_the_cut_pays_for_is_the_volume_hidden_between_the_points_too(side: float, under: float) -> None:
    """Both pieces drawn up: all under a plate is hidden, side^2 under, on points 4 mm apart within 2 %.

    Counted as whole points a plate 40 mm wide is 36 or 44 mm wide: a fifth off.
    """
    plate = bodies.mesh(bodies.box(side, side, 10).translate((0, 0, under)))
    both_up = np.array([[0.0, 0.0, 1.0], [0.0, 0.0, 1.0]])
    found = SpaceCut(space_about(plate, 8.0, 0.0, 4.0), SplitSettings(seam_ml_per_mm=0.0)).along(both_up)
    assert found.fill_ml == pytest.approx(side**2 * under / 1000, rel=0.02)


def test_the_grid_of_the_search() -> None:
    """Two steps more than the shell's reach all round; from half a step over the floor up to past the top."""
    body = bodies.mesh(bodies.box(20, 12, 30))
    grid = coarse_grid(body, 8.0, 5.0, 2.0)
    assert grid.origin_mm == (-22.0, -18.0, 6.0)
    assert grid.step_mm == 2.0
    assert grid.shape == (23, 19, 20)  # 44 and 36 mm; (30 + 12 - 5) / 2 = 18.5 layers, 19 and one more


def test_the_space_about_a_ball() -> None:
    """Outside the polytope about a ball of radius 20 on the board: |p - c| - 20, told up to a tenth too short, since it
    has 86 sides; under the equator the space reaches straight down to the board, as the ball's shadow does."""
    ball = bodies.mesh(bodies.ball(20, 128, (0, 0, 20)))
    grid = Grid((-36.0, -36.0, 0.0), 4.0, (19, 19, 15))
    found = space_distance(ball, grid)
    x, y, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    exact = np.where(z >= 20, np.sqrt(x**2 + y**2 + (z - 20) ** 2), np.hypot(x, y)) - 20
    assert (found <= exact + 0.05)[exact > 0].all()
    near = np.abs(exact) < 10
    assert (found - exact)[near].min() > -0.1 * 30
    assert (found - exact)[near].mean() > -1.0


def test_bounds_are_what_both_directions_hide() -> None:
    """Against counting the points that both shadows cover, pair by pair."""
    rng = np.random.default_rng(3)
    core = rng.random((9, 8, 7)) < 0.05
    space = rng.random((9, 8, 7)) < 0.8
    ways = np.array([[0, 0, 1.0], [1.0, 0, 0], [0, -1.0, 0], [0.6, 0.0, 0.8]])
    shadows = [binary_shadow(core, way) & space & ~core for way in ways]
    found = pair_bounds(core, space, ways)
    for i, one in enumerate(shadows):
        for j, other in enumerate(shadows):
            assert found[i, j] == (one & other).sum()


def ring(*degrees: float) -> np.ndarray:
    angle = np.radians(degrees)
    return np.stack([np.cos(angle), np.sin(angle), np.zeros(len(angle))], axis=1)


def test_pairs_that_open_wide_by_their_bounds() -> None:
    """Six directions 60 degrees apart: of the pairs at 120 and 180 degrees the two that hide least."""
    ways = ring(0, 60, 120, 180, 240, 300)
    bounds = np.full((6, 6), 50)
    for i, j, hidden in ((0, 1, 1), (0, 2, 9), (1, 4, 7), (2, 3, 2)):
        bounds[i, j] = bounds[j, i] = hidden
    assert shortlist(bounds, ways, SplitSettings(shortlist=2)) == [(1, 4), (0, 2)]
    assert len(shortlist(bounds, ways, SplitSettings(shortlist=6))) == 6
    assert len(shortlist(bounds, ways, SplitSettings(least_angle_deg=170.0))) == 3


def test_of_equals_the_widest_pair_comes_first() -> None:
    ways = ring(0, 120, 180)
    assert shortlist(np.zeros((3, 3), np.int64), ways, SplitSettings(shortlist=1)) == [(0, 2)]


@pytest.mark.parametrize(("apart_deg", "pairs"), [(10.0, 1), (18.0, 2)])
def test_near_twins_are_looked_at_once(apart_deg: float, pairs: int) -> None:
    """Two pairs that share a member and differ by 10 degrees in the other are one, by 18 two: our own rule, 14."""
    ways = ring(0, 180, 180 + apart_deg)
    bounds = np.array([[0, 1, 2], [1, 0, 9], [2, 9, 0]])
    found = shortlist(bounds, ways, SplitSettings())
    assert found[0] == (0, 1)
    assert len(found) == pairs


def test_a_pair_the_other_way_round_is_a_twin_too() -> None:
    """0 and 180 degrees, 186 and 6 degrees: both members within 6."""
    ways = ring(0, 180, 186, 6)
    bounds = np.full((4, 4), 50)
    bounds[0, 1], bounds[2, 3] = 1, 2
    assert shortlist(bounds, ways, SplitSettings())[0] == (0, 1)
    assert (2, 3) not in shortlist(bounds, ways, SplitSettings())


def test_the_share_that_a_piece_holds() -> None:
    assert made(1.0, 0.3).least_share == pytest.approx(0.3)
    assert made(1.0, 0.7).least_share == pytest.approx(0.3)
    none = np.full(SHAPE, -1, np.int8)
    assert CoarseSplit(ACROSS_X, Grid((0.0, 0.0, 0.0), 1.0, SHAPE), none, 0.0, 0.0).least_share == 0.0


def test_the_seam_of_a_post_costs_its_border() -> None:
    """A slender post drawn both ways: 0.015 ml are worth a millimeter of seam, whose flange of 8 mm runs up, over and
    down: length (2 x 60 + 10 + pi 8 / 2) mm. On points 2 mm apart within 20 %: the links along an
    axis stand for 93 % of an area, and none reach over the space's rim."""
    post = bodies.mesh(bodies.box(10, 10, 60))
    found = SpaceCut(space_about(post, 8.0, 0.0, 2.0), SplitSettings()).along(ACROSS_X)
    assert found.fill_ml < 0.05
    assert found.energy_ml == pytest.approx(0.015 * (120 + 10 + np.pi * 4), rel=0.2)


def test_the_cut_is_told_all_of_the_core() -> None:
    """A plate 1.6 mm thick about a layer of points of the grid: every one of them is body."""
    plate = bodies.mesh(bodies.box(42, 42, 1.6).translate((0, 0, 17.2)))
    cut = SpaceCut(space_about(plate, 8.0, 0.0, 4.0), SplitSettings())
    grid = cut.space.grid
    layer = int(np.argmin(np.abs(grid.axis(2) - 18.0)))
    inside = np.abs(grid.axis(0)) < 21
    assert cut.points.core[:, :, layer].sum() == inside.sum() ** 2
    assert cut.points.core.sum() == inside.sum() ** 2
