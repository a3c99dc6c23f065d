"""A split held to about another core: what it packs against a closed form, and where its seam lets no piece off."""

from __future__ import annotations

from dataclasses import replace

import geometry_bodies as bodies
import numpy as np
import pytest
from mold_splits import ACROSS_X, parted

from moldwright.mold.held import HeldSplits
from moldwright.mold.space import coarse_grid
from moldwright.mold.split import CoarseSplit, SplitSettings

RADIUS, WIDTH, STEP = 30.0, 25.0, 3.0


def about_a_ball(center_mm: float) -> HeldSplits:
    core = bodies.mesh(bodies.ball(RADIUS, 96, (0, 0, center_mm)).trim_by_plane((0, 0, 1), 0))
    return HeldSplits(core, WIDTH, 0.0, STEP, SplitSettings())


@pytest.fixture(scope="module")
def split() -> CoarseSplit:
    """Searched, as it were, about a smaller ball."""
    core = bodies.mesh(bodies.ball(26, 96, (0, 0, 26)).trim_by_plane((0, 0, 1), 0))
    return parted(coarse_grid(core, WIDTH, 0.0, STEP))


def test_across_its_seam_a_ball_packs_nothing_and_lets_both_go(split: CoarseSplit) -> None:
    held = about_a_ball(RADIUS).held(split)
    assert held.fill_ml <= 0.3  # CHECKS 33's bound where nothing is to be packed
    assert held.caught_share <= 0.01


def test_drawn_up_it_packs_what_lies_under_its_equator(split: CoarseSplit) -> None:
    """pi c^3 / 3, closed form: 28.27 ml of a ball of 30 mm on the board; within 10 % on a grid of 3 mm."""
    up = CoarseSplit(np.array([[0.0, 0.0, 1.0]]), split.grid, np.zeros_like(split.labels), 0.0, 0.0)
    assert about_a_ball(RADIUS).held(up).fill_ml == pytest.approx(np.pi * RADIUS**3 / 3000.0, rel=0.1)


def test_pieces_that_would_go_through_each_other_are_caught(split: CoarseSplit) -> None:
    """Each drawn toward the other's side: whatever passes the ball meets the other piece."""
    crossed = replace(split, directions=-ACROSS_X)
    assert about_a_ball(RADIUS).held(crossed).caught_share > 0.5
