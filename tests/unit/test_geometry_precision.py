"""Solids that stay closed when a reader of a single-precision file joins equal corners."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest

from moldwright.errors import ComputationFailed
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.precision import places, single_precision
from moldwright.geometry.solid import exportable, mesh_of, solid_of


def joined(mesh: Mesh) -> Mesh:
    """As a reader of STL sees it."""
    place = places(mesh.vertices.astype(np.float32))
    first = [int(np.flatnonzero(place == n)[0]) for n in range(int(place.max()) + 1)]
    return Mesh(mesh.vertices[first], place[mesh.faces].astype(np.int32))


def bodies_in(mesh: Mesh) -> int:
    """How many bodies a reader finds that joins equal corners, two that meet in a corner counted apart (manifold3d)."""
    return len(bodies.solid(joined(mesh)).decompose())


def test_lobes_that_touch_along_an_edge_stay_apart() -> None:
    """Two cubes that share an edge, on one plate: joined as they are, four triangles meet in the edge."""
    plate = m3.Manifold.cube((4, 4, 1)).translate((-1, -1, -1))
    both = m3.Manifold.cube((1, 1, 1)) + m3.Manifold.cube((1, 1, 1)).translate((1, 1, 0)) + plate
    assert joined(mesh_of(both)).why_invalid() != ""
    found = exportable(both)
    assert joined(found).why_invalid() == ""
    assert bodies_in(found) == 1
    assert found.volume_mm3 == pytest.approx(18.0, rel=0.02)


def test_two_bodies_that_touch_along_an_edge_are_refused() -> None:
    """Each holds 8 mm3, far more than a crumb: which of them was meant is not ours to guess."""
    both = m3.Manifold.cube((2, 2, 2)) + m3.Manifold.cube((2, 2, 2)).translate((2, 2, 0))
    with pytest.raises(ComputationFailed) as fault:
        exportable(both)
    assert fault.value.code == "solid-not-exportable"


def test_a_crumb_that_hangs_by_a_corner_is_dropped() -> None:
    """A tetrahedron of 0.00007 mm3, such as stayed in a shell's piece, on a corner of a cube of 1000 mm3."""
    edge = float((6 * np.sqrt(2) * 0.00007) ** (1 / 3))
    corners = np.array(
        [[0, 0, 0], [edge, 0, 0], [edge / 2, edge * np.sqrt(3) / 2, 0], [edge / 2, 0.29 * edge, 0.8 * edge]]
    )
    sides = np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]], np.int32)
    cube = mesh_of(m3.Manifold.cube((10, 10, 10)))
    corner = int(np.flatnonzero((cube.vertices == 10).all(axis=1))[0])
    hung = sides + np.int32(len(cube.vertices))
    hung[sides == 0] = corner
    mesh = Mesh(np.concatenate([cube.vertices, corners + 10]), np.concatenate([cube.faces, hung]))
    assert bodies_in(mesh) == 2
    found = exportable(solid_of(mesh))
    assert bodies_in(found) == 1
    assert found.volume_mm3 == pytest.approx(1000.0, rel=1e-3)


def test_a_neck_thinner_than_single_precision_leaves_no_crumb() -> None:
    """A knob of 0.3 mm on a neck 1e-6 mm thick: in single precision the neck is nothing, the knob a body of its own."""
    knob = m3.Manifold.cube((0.3, 0.3, 0.3)).translate((10.2, 5, 5))
    neck = m3.Manifold.cube((0.4, 1e-6, 1e-6)).translate((9.9, 5.1, 5.1))
    found = exportable((m3.Manifold.cube((10, 10, 10)) + knob + neck).translate((500, 0, 0)))
    assert bodies_in(found) == 1
    assert found.volume_mm3 == pytest.approx(1000.0, rel=1e-3)


def test_what_is_exported_is_what_its_file_says() -> None:
    """Nothing is left for a reader to join: corners are exact in single precision, and no two are equal."""
    found = exportable(m3.Manifold.sphere(30, 64).translate((100, 1 / 3, 0.1)))
    assert (found.vertices == found.vertices.astype(np.float32)).all()
    assert len(np.unique(found.vertices, axis=0)) == len(found.vertices)


def test_places_are_numbered_as_they_come_and_only_equal_corners_share_one() -> None:
    rows = np.array([[1, 2, 3], [4, 5, 6], [1, 2, 3], [-0.0, 0, 0], [0, 0, 0], [3, 2, 1]], np.float32)
    assert places(rows).tolist() == [0, 1, 0, 2, 2, 3]
    lattice = np.stack(np.meshgrid(*[np.arange(40, dtype=np.float32)] * 3), axis=-1).reshape(-1, 3)
    assert len(np.unique(places(lattice))) == len(lattice)


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
