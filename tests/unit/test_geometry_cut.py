"""The minimum cut on grids small enough to know the answer: closed forms of counted points, no other source."""

from __future__ import annotations

import numpy as np
import pytest

from moldwright.geometry.cut import two_way_cut
from moldwright.geometry.sign import Mask

ALONG_X = np.array([[1.0, 0.0, 0.0], [-1.0, 0.0, 0.0]])
SHAPE = (9, 6, 6)


def walled() -> tuple[Mask, Mask, tuple[np.ndarray, np.ndarray]]:
    """A wall right across: what is left of it is hidden along +x, what is right of it along -x."""
    core = np.zeros(SHAPE, bool)
    core[4] = True
    left, right = np.zeros(SHAPE, np.float32), np.zeros(SHAPE, np.float32)
    left[:4], right[5:] = 1.0, 1.0
    return core, ~core, (left, right)


def test_each_side_of_a_wall_goes_to_the_piece_that_sees_out() -> None:
    core, free, hidden = walled()
    found = two_way_cut(core, free, ALONG_X, hidden, 1.0, 0.01)
    assert found.first[5:].all()
    assert not found.first[:5].any()
    assert found.hidden == 0.0


def test_a_tie_falls_to_the_piece_that_sees_more() -> None:
    """Costs too small for the cut's whole numbers: the pull alone decides, and it must not pull the wrong way."""
    core, free, hidden = walled()
    found = two_way_cut(core, free, ALONG_X, hidden, 1e-9, 0.01)
    assert found.first[5:].all()
    assert not found.first[:5].any()


def test_a_pocket_that_neither_sees_out_of_is_paid_for_in_full_and_in_part() -> None:
    """A closed box of walls: its 2 x 2 x 2 points cost their own weight; at half a share each, half of it."""
    core, free = np.zeros(SHAPE, bool), np.ones(SHAPE, bool)
    core[2:6, 1:5, 1:5] = True
    core[3:5, 2:4, 2:4] = False
    free &= ~core
    for share in (1.0, 0.5):
        inside = np.zeros(SHAPE, np.float32)
        inside[3:5, 2:4, 2:4] = share
        found = two_way_cut(core, free, ALONG_X, (inside, inside), 0.25, 0.0)
        assert found.hidden == pytest.approx(8 * share * 0.25)
        assert found.energy == pytest.approx(8 * share * 0.25, abs=0.01)
