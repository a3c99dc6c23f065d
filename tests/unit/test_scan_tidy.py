"""What a reader hands on is tidied: outside turned out, hollows kept, what is double or flat dropped and told."""

from __future__ import annotations

import numpy as np
import pytest
from original_files import box, off, stl
from original_scans import read, repairs_of

from moldwright.scan.repairs import RepairCode


def test_a_file_inside_out_is_turned() -> None:
    points, faces = box()
    scan = read("box.off", off(points, faces[:, ::-1]))
    assert scan.mesh.volume_mm3 == pytest.approx(24_000)
    assert repairs_of(scan) == {RepairCode.TURNED_OUTWARD: 12}


@pytest.mark.parametrize("turned", [[0], [0, 1, 2, 3, 4], [0, 2, 4, 6, 8, 10], list(range(1, 12))])
def test_neighbors_are_made_to_agree(turned: list[int]) -> None:
    points, faces = box()
    faces[turned] = faces[turned, ::-1]
    scan = read("box.off", off(points, faces))
    assert scan.mesh.volume_mm3 == pytest.approx(24_000)
    assert scan.mesh.why_invalid() == ""
    assert any(r.code in (RepairCode.TURNED_TO_NEIGHBORS, RepairCode.TURNED_OUTWARD) for r in scan.repairs)


@pytest.mark.parametrize("flip", [False, True])
def test_a_hollow_keeps_its_relation(flip: bool) -> None:
    """A box with a closed hollow of 10 x 15 x 20 = 3000: 24 000 - 3000 = 21 000, also when all is inside out."""
    points, faces = box()
    hollow = points / 2 + (5, 7.5, 10)
    all_faces = np.concatenate([faces, faces[:, ::-1] + 8])
    all_faces = all_faces[:, ::-1] if flip else all_faces
    scan = read("hollow.off", off(np.concatenate([points, hollow]), all_faces))
    assert scan.mesh.volume_mm3 == pytest.approx(21_000)
    assert scan.bodies == 2
    assert repairs_of(scan)[RepairCode.HOLLOWS_INSIDE] == 1


def test_a_body_beside_another_is_turned_alone() -> None:
    points, faces = box()
    both = np.concatenate([faces, faces[:, ::-1] + 8])
    scan = read("two.off", off(np.concatenate([points, points + np.array((50, 0, 0))]), both))
    assert scan.mesh.volume_mm3 == pytest.approx(48_000)
    assert repairs_of(scan)[RepairCode.TURNED_OUTWARD] == 12


def test_an_open_body_is_turned_outward() -> None:
    points, faces = box()
    scan = read("open.off", off(points, faces[2:, ::-1]))
    a, b, c = scan.mesh.corners[np.isclose(scan.mesh.corners[:, :, 2], 40).all(axis=1)][0]
    assert np.cross(b - a, c - a)[2] > 0
    assert repairs_of(scan)[RepairCode.OPEN_EDGES] == 4


def test_what_is_dropped_is_told() -> None:
    points, faces = box()
    more = np.concatenate([faces, faces[:3], [(0, 0, 1), (2, 5, 2)]])
    scan = read("box.off", off(points, more))
    assert len(scan.mesh.faces) == 12
    assert repairs_of(scan) == {RepairCode.FLAT_TRIANGLES_DROPPED: 2, RepairCode.DOUBLE_TRIANGLES_DROPPED: 3}
    assert scan.watertight


def test_a_surface_drawn_from_both_sides_is_kept_once() -> None:
    points, faces = box()
    scan = read("both.off", off(points, np.concatenate([faces, faces[:, ::-1]])))
    assert scan.mesh.volume_mm3 == pytest.approx(24_000)
    assert repairs_of(scan) == {RepairCode.DOUBLE_TRIANGLES_DROPPED: 12}


def test_a_wall_inside_that_cancels_is_dropped() -> None:
    """Two boxes share a side that both list, back to back: one body of 48 000 stays."""
    points, faces = box()
    both = np.concatenate([points, points + np.array((20, 0, 0))])
    scan = read("two.stl", stl(both, np.concatenate([faces, faces + 8])))
    assert scan.mesh.volume_mm3 == pytest.approx(48_000)
    assert (scan.bodies, scan.watertight, len(scan.mesh.faces)) == (1, True, 20)
