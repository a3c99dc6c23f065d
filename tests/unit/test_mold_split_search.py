"""The search of splits against brute force over pairs of draws and straight seams, on cores small enough for it; no
other source. What three and four pieces need packed is held by `tests/validation/test_mold_undercut_fill.py`."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest

from moldwright.geometry.directions import upper_directions
from moldwright.geometry.mesh import Mesh
from moldwright.mold.space import space_about
from moldwright.mold.split import SpaceCut, SplitSettings
from moldwright.mold.split_search import splits_about
from moldwright.mold.splits import Splits

WIDE_MM, STEP_MM = 8.0, 4.0
SETTINGS = SplitSettings(tilts_deg=(0, 36))


def drilled() -> Mesh:
    """A post with square blind holes from two sides, and one from a third."""
    post = bodies.box(40, 40, 48)
    tool = m3.Manifold.cube((14, 16, 16)).translate((6, -8, 16))
    return bodies.mesh(post - tool - tool.rotate((0, 0, 180)) - tool.rotate((0, 0, 90)))


def leaning() -> Mesh:
    """A block with an arm that leans out over the board."""
    arm = bodies.box(44, 14, 12).rotate((0, -35, 20)).translate((14, 2, 26))
    return bodies.mesh(bodies.box(30, 26, 44) + arm)


def topped() -> Mesh:
    """A ball on a stem, a ring groove round the foot."""
    foot = bodies.cone(24, 24, 16, 48) - (bodies.cone(30, 30, 6, 48) - bodies.cone(18, 18, 6, 48)).translate((0, 0, 5))
    return bodies.mesh(foot + bodies.cone(7, 7, 40, 48) + bodies.ball(17, 48, (0, 0, 44)))


CORES = {"drilled": drilled, "leaning": leaning, "topped": topped}


@pytest.fixture(scope="module", params=CORES)
def core(request: pytest.FixtureRequest) -> Mesh:
    return CORES[request.param]()


@pytest.fixture(scope="module")
def splits(core: Mesh) -> Splits:
    return splits_about(core, WIDE_MM, 0.0, STEP_MM, SETTINGS)


@pytest.fixture(scope="module")
def cut(core: Mesh) -> SpaceCut:
    return SpaceCut(space_about(core, WIDE_MM, 0.0, STEP_MM), SETTINGS)


def wide_pairs() -> Iterator[np.ndarray]:
    """Every pair of candidates that opens wide enough."""
    candidates = upper_directions(tilts_deg=SETTINGS.tilts_deg)[::2]
    for i, j in combinations(range(len(candidates)), 2):
        if candidates[i] @ candidates[j] <= np.cos(np.radians(SETTINGS.least_angle_deg)):
            yield candidates[[i, j]]


@pytest.mark.slow
def test_no_pair_of_draws_is_cheaper(splits: Splits, cut: SpaceCut) -> None:
    """Every other candidate, each pair with its best seam: 1.5 % are given to what lies between two of them."""
    every = (cut.two(pair) for pair in wide_pairs())
    best_ml = min(split.energy_ml for split in every if cut.is_real(split))
    assert splits.of(2).energy_ml <= best_ml * 1.015


def test_no_straight_seam_is_cheaper(splits: Splits, cut: SpaceCut) -> None:
    """Upright planes through the core, each with the draws square to it: what the pieces hide and the seam together."""
    grid = cut.space.grid
    x, y, _ = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    best_ml = np.inf
    for angle in np.radians(np.arange(0, 180, 7.5)):
        draw = np.array([np.cos(angle), np.sin(angle), 0.0])
        aside = x * draw[0] + y * draw[1]
        for at_mm in np.arange(-12.0, 12.1, 2.0):
            labels = np.where(aside[cut.space.free] > at_mm, 0, 1).astype(np.int8)
            best_ml = min(best_ml, cut.split(np.stack([draw, -draw]), labels).energy_ml)
    assert splits.of(2).energy_ml <= best_ml


def test_more_pieces_never_cost_more(splits: Splits) -> None:
    """What is cheapest in at most so many pieces; each split in just so many has pieces of a size to be held."""
    energies = [splits.least(pieces).energy_ml for pieces in (1, 2, 3, 4)]
    assert energies == sorted(energies, reverse=True)
    for pieces in (1, 2, 3, 4):
        split = splits.of(pieces)
        assert (split.pieces, len(split.directions)) == (pieces, pieces)
        assert split.least_share >= SETTINGS.least_of(pieces)


def test_a_further_piece_never_costs_more_whatever_its_draw(splits: Splits, cut: SpaceCut) -> None:
    """The move may leave all where it is. Ties are pulled by a hundred-thousandth of a milliliter a point."""
    two = splits.of(2)
    for draw in upper_directions(8, (0, 36)):
        assert cut.with_one_more(two, draw).energy_ml <= two.energy_ml + 1e-5 * cut.points.count


def test_every_ray_that_sees_out_stays_with_its_piece(splits: Splits, cut: SpaceCut) -> None:
    """So that pieces come off in any order: a point that sees out along its piece's draw has the next one on its way
    in that piece too."""
    for pieces in (2, 3, 4):
        split = splits.of(pieces)
        labels = split.labels[cut.space.free]
        for number, way in enumerate(cut.ways(split.directions)):
            own = labels[way.tails] == number
            assert (labels[way.heads[own]] == number).all()
