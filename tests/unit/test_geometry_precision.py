"""Solids that stay closed when a reader of a single-precision file joins equal corners."""

from __future__ import annotations

import manifold3d as m3
import numpy as np
import pytest

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.precision import places, single_precision
from moldwright.geometry.solid import exportable, mesh_of


def joined(mesh: Mesh) -> Mesh:
    """As a reader of STL sees it."""
    place = places(mesh.vertices.astype(np.float32))
    first = [int(np.flatnonzero(place == n)[0]) for n in range(int(place.max()) + 1)]
    return Mesh(mesh.vertices[first], place[mesh.faces].astype(np.int32))


def test_blocks_that_touch_along_an_edge_stay_apart() -> None:
    """Two unit cubes that share an edge: joined as they are, four triangles meet in it."""
    both = m3.Manifold.cube((1, 1, 1)) + m3.Manifold.cube((1, 1, 1)).translate((1, 1, 0))
    assert joined(mesh_of(both)).why_invalid() != ""
    found = exportable(both)
    assert joined(found).why_invalid() == ""
    assert found.volume_mm3 == pytest.approx(2.0, rel=0.02)


def test_an_edge_too_short_for_single_precision_closes() -> None:
    """A sliver of 1e-6 mm, 500 mm from the origin, where single precision tells 3e-5 mm apart."""
    block = m3.Manifold.cube((10, 10, 10)) - m3.Manifold.cube((1e-6, 20, 20)).translate((9.999999, -5, 5))
    far = block.translate((500, 0, 0))
    found = exportable(far)
    assert joined(found).why_invalid() == ""
    assert found.volume_mm3 == pytest.approx(1000.0, rel=1e-3)


def test_a_sound_mesh_is_left_alone() -> None:
    ball = mesh_of(m3.Manifold.sphere(30, 64))
    found = single_precision(ball, 0.005)
    assert len(found.faces) == len(ball.faces)
    assert found.volume_mm3 == pytest.approx(ball.volume_mm3, rel=1e-6)


def test_triangles_back_to_back_cancel() -> None:
    """A pair that encloses nothing, on a tetrahedron's own corners."""
    corners = np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]])
    sides = np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]], np.int32)
    extra = np.array([[0, 1, 2], [0, 2, 1]], np.int32)
    found = single_precision(Mesh(corners, np.concatenate([sides, extra])), 0.005)
    assert found.why_invalid() == ""
    assert found.volume_mm3 == pytest.approx(1 / 6, rel=1e-6)
