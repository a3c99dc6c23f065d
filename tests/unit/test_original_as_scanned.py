"""A scan keeps its own surface where its bodies overlap, where it is torn, and all round where it cuts itself.

Volumes are closed forms; distances are libigl's (reference library).
"""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from numpy.typing import NDArray
from original_stands import dome, furthest_mm, standing, torn
from peer_distance import peer_distance

from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.original.mending.solid import stand


def test_two_boxes_that_overlap_are_their_exact_union() -> None:
    """40 x 30 x 50 and 30 x 40 x 60 about one axis, less what they share, 30 x 30 x 50."""
    found = standing(bodies.soup(bodies.mesh(bodies.box(40, 30, 50)), bodies.mesh(bodies.box(30, 40, 60))))
    assert found.exact
    assert found.patches == ()
    assert found.mesh.volume_mm3 == pytest.approx(40 * 30 * 50 + 30 * 40 * 60 - 30 * 30 * 50, rel=1e-6)
    assert found.mesh.bounds_mm[1] == pytest.approx([20, 20, 60], abs=1e-4)


def test_a_box_without_one_face_keeps_its_edges() -> None:
    """A side, and the top: a flat hole is closed by the very face that is missing."""
    box = bodies.mesh(bodies.box(30, 40, 50).rotate((0, 0, 30)))
    _, high = bodies.mesh(bodies.box(30, 40, 50)).bounds_mm
    side = np.abs(bodies.turned(box, -30).corners[:, :, 0] - high[0]).max(axis=1) < 1e-6
    top = np.abs(box.corners[:, :, 2] - high[2]).max(axis=1) < 1e-6
    for gone in (side, top):
        assert gone.sum() == 2
        found = standing(bodies.without(box, gone))
        assert found.exact
        assert not found.was_closed
        assert found.mesh.volume_mm3 == pytest.approx(30 * 40 * 50, rel=1e-5)
        assert furthest_mm(found, box) <= found.error_mm


def test_a_torn_surface_lies_as_near_as_the_plan_says() -> None:
    """With a triangle missing at the top: the hole is small and nearly flat, all else is the scan's own."""
    for body in (dome(), bodies.mesh(bodies.box(30, 40, 50))):
        found = standing(torn(body))
        assert found.exact
        assert furthest_mm(found, body) <= found.error_mm


def tube(points: NDArray[np.float64], radius_mm: float, sides: int = 24) -> Mesh:
    """One closed tube along a line in the plane y = 0; it cuts itself where the line crosses itself."""
    along = np.gradient(points, axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    across = np.array([0.0, 1.0, 0.0])
    other = np.cross(along, across)
    turn = 2 * np.pi * np.arange(sides) / sides
    rings = points[:, None] + radius_mm * (
        np.cos(turn)[None, :, None] * across + np.sin(turn)[None, :, None] * other[:, None]
    )
    ring, n = np.arange(sides), len(points)
    after = (ring + 1) % sides
    faces = [
        np.concatenate([
            np.stack([k * sides + ring, k * sides + after, (k + 1) * sides + after], axis=1),
            np.stack([k * sides + ring, (k + 1) * sides + after, (k + 1) * sides + ring], axis=1),
        ])
        for k in range(n - 1)
    ]  # fmt: skip
    first, last = np.full(sides, n * sides), np.full(sides, n * sides + 1)
    caps = [
        np.stack([first, after, ring], axis=1),
        np.stack([last, (n - 1) * sides + ring, (n - 1) * sides + after], 1),
    ]
    mesh = Mesh(
        np.concatenate([rings.reshape(-1, 3), points[:1], points[-1:]]),
        np.concatenate([*faces, *caps]).astype(np.int32),
    )
    return mesh if mesh.volume_mm3 > 0 else bodies.flipped(mesh)


RADIUS_MM, CROSSING_MM, HALF_ANGLE = 7.0, (0.0, 0.0, 34.9), np.radians(30)
SUNK_MM = 8.0


def ribbon() -> Mesh:
    """A tube of radius 7 mm bent into a ribbon with one loop; its legs cross 34.9 mm over its ends, 60 degrees apart.

    x = 60 sin 2.2 t cos 1.7 t, z = 110 cos 1.35 t: x is 0 at t = 0 and at pi / 3.4.
    """
    t = np.linspace(-1.15, 1.15, 81)
    x, z = 60 * np.sin(2.2 * t) * np.cos(1.7 * t), 110 * np.cos(1.35 * t)
    return tube(np.stack([x, 0 * t, z], axis=1), RADIUS_MM)


def test_a_tube_that_cuts_itself_keeps_its_surface_away_from_the_cut() -> None:
    """Within 0.05 step further than 3 steps from the cut, the height too; the volume is manifold3d's union.

    Two cylinders that cross under an angle cut each other up to r / sin(half the angle) from where their axes meet.
    The union is of the tube's legs and its arch, which do not cut themselves. The piece is its own mirror image in
    y and, turned, in x, so that its middle stays where it is.
    """
    body = ribbon().moved((0.0, 0.0, -SUNK_MM))
    found = stand(body)
    assert found.mesh.why_invalid() == ""
    assert len(bodies.solid(found.mesh).decompose()) == 1
    assert len(found.patches) == 1
    assert not found.exact
    cut = np.array(CROSSING_MM) - [0, 0, SUNK_MM]
    reach = RADIUS_MM / np.sin(HALF_ANGLE)
    assert np.linalg.norm(np.array(found.patches[0].at) - cut) < 4
    far = (np.linalg.norm(body.vertices - cut, axis=1) > reach + 3 * found.step_mm) & (body.vertices[:, 2] > 0.5)
    assert far.sum() > 1000
    assert peer_distance(body.vertices[far], found.mesh).max() <= 0.05 * found.step_mm
    assert found.mesh.bounds_mm[1][2] == pytest.approx(117 - SUNK_MM, abs=0.01)
    legs, arch = bodies.solid(body).split_by_plane((0.0, 0.0, -1.0), -60.0)
    union = m3.Manifold.batch_boolean([*legs.decompose(), *arch.decompose()], m3.OpType.Add)
    assert found.mesh.volume_mm3 == pytest.approx(union.trim_by_plane((0, 0, 1), 0).volume(), rel=0.004)


def four_arms() -> list[m3.Manifold]:
    """Four tubes from one middle to the corners of a tetrahedron, each a closed body that crosses the other three."""
    corners = np.array([(1, 1, 1), (1, -1, -1), (-1, 1, -1), (-1, -1, 1)]) / np.sqrt(3)
    arms = []
    for x, y, z in corners:
        tilt, turn = np.degrees(np.arccos(z)), np.degrees(np.arctan2(y, x))
        arms.append(m3.Manifold.cylinder(60, 8, 6, 32).rotate((0, float(tilt), 0)).rotate((0, 0, float(turn))))
    return arms


def test_a_tetrapod_of_tubes_is_their_exact_union() -> None:
    """Cut 20 mm above the lowest point, against manifold3d's union of the four."""
    arms = [arm.translate((0, 0, 15)) for arm in four_arms()]
    found = stand(bodies.soup(*(bodies.mesh(arm) for arm in arms)))
    union = m3.Manifold.batch_boolean(arms, m3.OpType.Add).trim_by_plane((0, 0, 1), 0)
    assert found.exact
    assert found.mesh.volume_mm3 == pytest.approx(max(part.volume() for part in union.decompose()), rel=1e-4)


def test_thin_ears_keep_their_tips() -> None:
    """A ball with two ears that end in edges of 0.1 mm, and a bar through it as a body of its own."""
    ear = m3.Manifold.cylinder(40, 6, 0.05, 48).scale((1, 0.25, 1))
    head = bodies.ball(25, 64, (0, 0, 22)) + ear.translate((-12, 0, 40)) + ear.rotate((0, 8, 0)).translate((12, 0, 40))
    bar = bodies.box(70, 5, 5).translate((0, 0, 20))
    found = stand(bodies.soup(bodies.mesh(head), bodies.mesh(bar)))
    whole = (head + bar).trim_by_plane((0, 0, 1), 0)
    assert found.exact
    assert found.mesh.bounds_mm[1][2] == pytest.approx(80.0, abs=1e-3)
    assert found.mesh.volume_mm3 == pytest.approx(whole.volume(), rel=5e-4)


def coats(count: int, apart: float) -> Mesh:
    """One cone in many coats, each smaller by a share of its size."""
    cone = bodies.mesh(bodies.cone(20, 12, 50, 24).refine_to_length(6.0))
    return bodies.soup(*(Mesh(cone.vertices * (1 - apart * n), cone.faces) for n in range(count)))


@pytest.mark.parametrize(("count", "apart"), [(2, 0.0005), (128, 0.0005), (257, 0.0), (257, 0.001)])
def test_many_coats_of_one_surface_are_the_outermost(count: int, apart: float) -> None:
    """The outermost cone's volume by manifold3d, whether the coats lie in one another or on one another."""
    found = stand(coats(count, apart))
    assert found.mesh.volume_mm3 == pytest.approx(bodies.cone(20, 12, 50, 24).volume(), rel=1e-3)
    assert found.mesh.bounds_mm[1][2] == pytest.approx(50.0, abs=0.2)


def test_260_nested_bodies_are_one() -> None:
    found = stand(bodies.soup(*(bodies.mesh(bodies.ball(40 - 0.1 * n, 24, (0, 0, 30))) for n in range(260))))
    whole = bodies.ball(40, 24, (0, 0, 30)).trim_by_plane((0, 0, 1), 0)
    assert found.mesh.volume_mm3 == pytest.approx(whole.volume(), rel=1e-3)


def test_bodies_apart_stay_refused() -> None:
    with pytest.raises(InputRefused) as refused:
        stand(bodies.soup(bodies.mesh(bodies.box(20, 20, 30)), bodies.mesh(bodies.box(20, 20, 30)).moved((40.0, 0, 0))))
    assert refused.value.code == "bodies-apart"
