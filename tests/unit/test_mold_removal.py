"""The proof that a shell comes off finds what touches, by however little, on blocks of known overlap."""

from __future__ import annotations

from itertools import pairwise

import geometry_bodies as bodies
import numpy as np
import pytest

from moldwright.mold.removal import Removal, _clear_distance, _offsets_mm, check_removal

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


def test_where_a_piece_is_tried() -> None:
    """At rest, half a millimeter off, then ever farther until it is clear: fourteen places, each step grown alike."""
    places = _offsets_mm(64.0)
    assert len(places) == 14
    assert places[:2] == [0.0, pytest.approx(0.5)]
    assert places[-1] == pytest.approx(64.0)
    growth = [after / before for before, after in pairwise(places[1:])]
    assert growth == pytest.approx([128 ** (1 / 12)] * 12)


def test_how_far_a_piece_goes() -> None:
    """Past the farthest point of what stands and 1 mm more; 1 mm at least."""
    body = bodies.mesh(bodies.box(20, 20, 20))
    piece = bodies.mesh(bodies.box(10, 20, 20)).moved((16.0, 0.0, 0.0))
    assert _clear_distance(piece, [body], np.array([1.0, 0.0, 0.0])) == pytest.approx(1.0)
    assert _clear_distance(piece, [body], np.array([-1.0, 0.0, 0.0])) == pytest.approx(10 + 21 + 1)
    far = bodies.mesh(bodies.box(4, 4, 4)).moved((50.0, 0.0, 0.0))
    assert _clear_distance(piece, [body, far], np.array([1.0, 0.0, 0.0])) == pytest.approx(52 - 11 + 1)


def test_what_is_met_on_the_way_is_counted() -> None:
    """A block drawn across the body: all of it passes through; its rays are those of its twelve triangles."""
    body = bodies.mesh(bodies.box(20, 20, 20))
    piece = bodies.mesh(bodies.box(10, 20, 20)).moved((16.0, 0.0, 0.0))
    through = check_removal((piece,), ((-1.0, 0.0, 0.0),), body)
    assert through.rays == 12
    assert 0 < through.rays_blocked <= 12
    assert 0 < through.overlap_mm3 <= 4000.001
    assert not through.free
    assert through.met is not None
    assert through.met.piece == 1
    ended = check_removal((piece,), ((-1.0, 0.0, 0.0),), body, whole_way=False)
    assert (ended.control_overlap_mm3, ended.overlap_mm3, ended.free) == (0.0, 0.0, False)


def test_the_check_ends_at_the_first_touch_where_that_is_enough() -> None:
    """Two pieces that share 5 x 20 x 10 mm and touch no rubber; the control is made only where the check goes on."""
    body = bodies.mesh(bodies.box(20, 20, 20))
    piece = bodies.mesh(bodies.box(10, 20, 20)).moved((15.5, 0.0, 0.0))
    both = (piece, piece.moved((0.0, 15.0, 0.0)))
    ended = check_removal(both, (BESIDE, BESIDE), body, whole_way=False)
    assert (ended.overlap_mm3, ended.control_overlap_mm3) == (pytest.approx(1000.0), 0.0)
    whole = check_removal(both, (BESIDE, BESIDE), body)
    assert (whole.overlap_mm3, whole.control_overlap_mm3) == (pytest.approx(1000.0), pytest.approx(2.5 * 20 * 5))
    clear = check_removal((piece,), (BESIDE,), body, whole_way=False)
    assert clear.free


def test_every_piece_must_collide_where_it_should() -> None:
    """Pushed 3 mm against its draw one overlaps the body by 2.5 mm, the other, too far off, by nothing."""
    body = bodies.mesh(bodies.box(20, 20, 20))
    near = bodies.mesh(bodies.box(10, 20, 20)).moved((15.5, 0.0, 0.0))
    far = bodies.mesh(bodies.box(10, 20, 20)).moved((-19.0, 0.0, 0.0))
    found = check_removal((near, far), (BESIDE, (-1.0, 0.0, 0.0)), body)
    assert found.control_overlap_mm3 == 0.0
    assert not found.free
    assert Removal(1e-6, 14, 100, 0, 0.5).free


def test_a_piece_under_another_comes_off_in_order_only() -> None:
    """A slab on a block beside the body: the slab lifts off while the block stands, the block lifts once it is gone."""
    body = bodies.mesh(bodies.box(20, 20, 20))
    block = bodies.mesh(bodies.box(10, 20, 10)).moved((15.5, 0.0, 0.0))
    slab = bodies.mesh(bodies.box(10, 20, 5)).moved((15.5, 0.0, 10.5))
    aslant = (0.6, 0.0, 0.8)
    slab_first = check_removal((slab, block), (aslant, aslant), body, in_order=True)
    assert slab_first.overlap_mm3 == 0.0
    assert slab_first.free
    block_first = check_removal((block, slab), (aslant, aslant), body, in_order=True)
    assert block_first.overlap_mm3 > 100
    assert check_removal((slab, block), (aslant, aslant), body).overlap_mm3 > 100, "in any order it would be met"


def test_what_holds_a_piece_is_told_where_it_is() -> None:
    """A hook of 4 x 20 x 4 mm at x 20 to 24, z 30 to 34, over a piece that moves up: it is met there."""
    body = bodies.box(20, 20, 40) + bodies.box(14, 20, 4).translate((17.0, 0.0, 30.0))
    piece = bodies.mesh(bodies.box(10, 20, 20)).moved((19.0, 0.0, 5.0))
    found = check_removal((piece,), ((0.0, 0.0, 1.0),), bodies.mesh(body))
    assert found.met is not None
    assert found.met.piece == 1
    assert found.met.at == pytest.approx((19.0, 0.0, 32.0), abs=0.3)
    assert found.met.across_mm == pytest.approx(20.0, abs=0.1)
    clear = check_removal((piece,), ((1.0, 0.0, 0.0),), bodies.mesh(bodies.box(20, 20, 40)))
    assert clear.met is None
