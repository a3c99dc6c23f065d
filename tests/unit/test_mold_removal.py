"""The proof that a shell comes off finds what touches, by however little, on blocks of known overlap."""

from __future__ import annotations

import geometry_bodies as bodies
import pytest

from moldwright.mold.removal import Removal, check_removal

BESIDE = (1.0, 0.0, 0.0)


def test_a_touch_of_a_hundredth_of_a_cubic_millimeter_is_not_free() -> None:
    assert Removal(0.0, 14, 100, 0, 50.0).free
    assert not Removal(0.01, 14, 100, 0, 50.0).free
    assert not Removal(0.0, 14, 100, 1, 50.0).free
    assert not Removal(0.0, 14, 100, 0, 0.0).free, "a control that does not collide proves nothing"


@pytest.mark.parametrize(("gap_mm", "overlap_mm3"), [(0.5, 0.0), (-0.001, 0.4)])
def test_a_block_beside_a_block(gap_mm: float, overlap_mm3: float) -> None:
    """Faces of 20 by 20 mm that overlap by a micrometer share 0.4 mm3."""
    body = bodies.mesh(bodies.box(20, 20, 20))
    piece = bodies.mesh(bodies.box(10, 20, 20)).moved((15.0 + gap_mm, 0.0, 0.0))
    found = check_removal((piece,), (BESIDE,), body)
    assert found.overlap_mm3 == pytest.approx(overlap_mm3, rel=1e-3)
    assert found.free == (gap_mm > 0)
    assert found.control_overlap_mm3 == pytest.approx((3.0 - gap_mm) * 400, rel=1e-6)


def test_a_second_piece_in_the_way_is_found() -> None:
    body = bodies.mesh(bodies.box(20, 20, 20))
    piece = bodies.mesh(bodies.box(10, 20, 20)).moved((15.5, 0.0, 0.0))
    fence = bodies.mesh(bodies.box(4, 20, 20)).moved((40.0, 0.0, 0.0))
    assert not check_removal((piece, fence), (BESIDE, BESIDE), body).free
