"""Where triangles pass through each other: counted by hand, and on two balls whose common circle is known."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.self_cuts import find_self_cuts


def triangles(*corners: list[list[float]]) -> Mesh:
    points = np.array(corners, dtype=np.float64).reshape(-1, 3)
    return Mesh(points, np.arange(len(points), dtype=np.int32).reshape(-1, 3))


FLAT = [[0.0, 0.0, 0.0], [10.0, 0.0, 0.0], [0.0, 10.0, 0.0]]


@pytest.mark.parametrize(
    ("other", "crosses"),
    [
        ([[2.0, 2.0, -1.0], [2.0, 2.0, 1.0], [3.0, 3.0, 1.0]], True),
        ([[8.0, 8.0, -1.0], [8.0, 8.0, 1.0], [9.0, 9.0, 1.0]], False),
        ([[2.0, 2.0, 0.0], [2.0, 2.0, 1.0], [3.0, 3.0, 1.0]], False),
        ([[2.0, 2.0, 0.0], [4.0, 2.0, 0.0], [2.0, 4.0, 0.0]], False),
        ([[2.0, 2.0, 1.0], [4.0, 2.0, 1.0], [2.0, 4.0, 1.0]], False),
    ],
    ids=["through", "beside", "touching", "in its plane", "above"],
)
def test_two_triangles(other: list[list[float]], crosses: bool) -> None:
    assert (len(find_self_cuts(triangles(FLAT, other)).pairs) == 1) is crosses


def test_a_triangle_through_one_corner_counts_where_it_goes_on_through_the_other() -> None:
    """Two triangles share a corner: one edge of the second goes through the first from above to below."""
    points = np.array([*FLAT, [3.0, 3.0, 1.0], [3.0, 3.0, -1.0]])
    crossing = Mesh(points, np.array([[0, 1, 2], [0, 3, 4]], dtype=np.int32))
    found = find_self_cuts(crossing)
    assert len(found.pairs) == 1
    ends = found.segments[0][np.argsort(found.segments[0][:, 0])]
    np.testing.assert_allclose(ends, [[0, 0, 0], [3, 3, 0]], atol=1e-12)


def test_sound_bodies_do_not_cut_themselves() -> None:
    for body in (bodies.ball(20, 64), bodies.torus(20, 6), bodies.box(20, 30, 40)):
        assert len(find_self_cuts(bodies.mesh(body)).pairs) == 0


def test_two_balls_cut_each_other_along_their_circle() -> None:
    """Radius 20 at +-10: the circle x = 0 of radius sqrt(300); corners lie on the balls, edges up to 0.1 mm inside."""
    balls = [bodies.ball(20, 96).rotate(turn).translate((x, 0, 0)) for x, turn in ((-10, (3, 5, 7)), (10, (11, 2, 31)))]
    soup = bodies.soup(*(bodies.mesh(ball) for ball in balls))
    found = find_self_cuts(soup)
    assert len(found.pairs) > 100
    assert found.complete
    assert np.abs(np.linalg.norm(found.segments, axis=2) - np.sqrt(300)).max() < 0.2
    assert np.abs(found.segments[:, :, 0]).max() < 0.2
    length = np.linalg.norm(found.segments[:, 1] - found.segments[:, 0], axis=1).sum()
    assert length == pytest.approx(2 * np.pi * np.sqrt(300), rel=0.02)


def test_pairs_of_different_parts_are_passed_over() -> None:
    a, b = (bodies.mesh(bodies.ball(20, 48, (x, 1.0, 2.0))) for x in (-10.0, 10.0))
    part = np.repeat([0, 1], [len(a.faces), len(b.faces)])
    assert len(find_self_cuts(bodies.soup(a, b), part).pairs) == 0


def test_a_search_that_is_given_up_says_so() -> None:
    a, b = (bodies.mesh(bodies.ball(20, 48, (x, 1.0, 2.0))) for x in (-10.0, 10.0))
    assert not find_self_cuts(bodies.soup(a, b), most_tests=10).complete
