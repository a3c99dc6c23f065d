"""Holes of a scan: closed, told with their edge, and no loss to the surface round them."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest
from original_scans import repairs_of
from original_stands import STUMP_ML, standing

from moldwright.geometry.mesh import Mesh
from moldwright.original.mending.solid import stand
from moldwright.original.standing.place import place
from moldwright.original.standing.stance import BoardBy
from moldwright.scan.repairs import RepairCode


def test_an_open_bottom_is_closed_by_the_board_and_is_no_hole() -> None:
    found = standing(bodies.open_below(bodies.stump()))
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.003)
    assert repairs_of(found) == {}


def test_an_open_bottom_with_a_ragged_rim_is_cut_above_it() -> None:
    """The rim is uneven by 1 mm: the board is set just above it, and the placing says so."""
    open_ = bodies.open_below(bodies.stump())
    rough = open_.vertices.copy()
    foot = rough[:, 2] < 1e-6
    rough[foot, 2] += np.random.default_rng(2).uniform(0, 1.0, int(foot.sum()))
    placed = place(bodies.scan(Mesh(rough, open_.faces), watertight=False))
    assert placed.stance.board_by is BoardBy.RIM
    found = stand(placed.mesh)
    assert found.mesh.why_invalid() == ""
    assert repairs_of(found) == {}
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.06)


def test_a_hole_in_the_side_is_closed_and_told_with_its_edge() -> None:
    found = standing(bodies.holed(bodies.stump()))
    told = repairs_of(found)
    assert not found.was_closed
    assert len(told) == 1
    ((what, edge),) = told.items()
    assert what is RepairCode.HOLE_CLOSED
    assert 30 < edge < 90
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.01)


def test_a_hole_that_runs_down_to_the_board_is_closed() -> None:
    """A notch in the side from the foot up to 20 mm, 10 mm wide."""
    body = bodies.stump()
    middle = body.corners.mean(axis=1)
    gone = (middle[:, 0] > 8) & (np.abs(middle[:, 1]) < 5) & (middle[:, 2] < 20) & (middle[:, 2] > 1e-6)
    found = stand(place(bodies.scan(bodies.without(body, gone)), board_mm=0.0).mesh)
    assert found.mesh.why_invalid() == ""
    assert not found.was_closed
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.03)


def test_many_holes_are_closed_and_the_small_ones_told_together() -> None:
    body = bodies.stump()
    high = np.flatnonzero((body.corners[:, :, 2].min(axis=1) > 1) & (body.corners[:, :, 2].max(axis=1) < 49))
    gone = np.zeros(len(body.faces), bool)
    gone[high[:: len(high) // 17]] = True
    found = standing(bodies.without(body, gone))
    assert gone.sum() > 11
    assert len(found.repairs) == 11
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.004)
