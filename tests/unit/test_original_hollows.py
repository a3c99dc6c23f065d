"""Spaces that neither rubber nor resin reaches: filled and told, or refused."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest
from original_scans import repairs_of
from original_stands import standing

from moldwright.errors import NoSafePlan
from moldwright.scan.repairs import RepairCode


def test_a_small_closed_hollow_is_filled_and_told() -> None:
    """A bubble of radius 4 mm (0.27 ml) is under 1 ml."""
    body = bodies.mesh(bodies.cone(20, 12, 50, 48) - bodies.ball(4, 32, (0, 0, 25)))
    found = standing(body)
    ((what, size),) = repairs_of(found).items()
    assert what == RepairCode.HOLLOW_FILLED
    assert size == pytest.approx(4 / 3 * np.pi * 4**3 / 1000, rel=0.05)
    assert found.mesh.volume_ml == pytest.approx(bodies.cone(20, 12, 50, 48).volume() / 1000, rel=0.003)


def test_a_large_closed_hollow_is_refused() -> None:
    body = bodies.mesh(bodies.cone(20, 12, 50, 48) - bodies.ball(9, 48, (0, 0, 25)))
    with pytest.raises(NoSafePlan) as refused:
        standing(body)
    assert refused.value.code == "closed-hollow"
    assert refused.value.actual == pytest.approx(4 / 3 * np.pi * 9**3 / 1000, abs=0.15)
    assert refused.value.limit == 1.0


def test_a_hollow_that_the_board_closes_is_filled_and_told() -> None:
    body = bodies.mesh(bodies.cone(20, 12, 50, 48) - bodies.ball(12, 48))
    ((what, size),) = repairs_of(standing(body)).items()
    assert what is RepairCode.BOARD_HOLLOW_FILLED
    assert size == pytest.approx(2 / 3 * np.pi * 12**3 / 1000, rel=0.05)


def test_hollows_under_the_piece_are_filled_each_by_itself_and_a_ring_stays_open() -> None:
    two = bodies.cone(20, 12, 50, 48) - bodies.ball(6, 48, (8, 0, 0)) - bodies.ball(5, 48, (-8, 0, 0))
    found = standing(bodies.mesh(two))
    sizes = [repair.size for repair in found.repairs]
    assert sizes == pytest.approx([2 / 3 * np.pi * r**3 / 1000 for r in (6, 5)], rel=0.05)
    assert found.mesh.volume_ml == pytest.approx(bodies.cone(20, 12, 50, 48).volume() / 1000, rel=0.003)
    ring = bodies.torus(20, 6).translate((0, 0, 4)).trim_by_plane((0, 0, 1), 0)
    found = standing(bodies.mesh(ring))
    assert found.repairs == ()
    assert found.mesh.volume_mm3 == pytest.approx(ring.volume(), rel=0.005)
