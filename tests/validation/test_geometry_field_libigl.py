"""Distance and sign against libigl (reference library): point_mesh_squared_distance and exact winding_number.

Tolerance: the band's distance is exact to some triangle, so it can only err upward; the project asks for an rms error
of 0.02 mm at a step of 1 mm. Float32 storage alone costs 1e-6 of 10 mm. Signs are compared where the point is further
than 1e-3 mm from the surface: nearer, both libraries decide by rounding.
"""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import igl
import numpy as np
import pytest
from numpy.typing import NDArray
from peer_distance import peer_distance

from moldwright.geometry.distance import unsigned_band
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.sign import inside_solid, inside_soup, winding_numbers
from moldwright.original.mending.sampled import banded
from moldwright.progress import silent

SOURCE = ("Reference library libigl: point_mesh_squared_distance, exact winding number",)
BAND_MM = 9.0


@cache
def knobbly() -> Mesh:
    """A ball with a ring through it and a bar across: saddles, creases, thin triangles beside small ones."""
    ring = bodies.torus(18, 5, 80, 24).rotate((70, 10, 0))
    whole = bodies.ball(18, 64) + ring + bodies.box(70, 4, 4).rotate((0, 20, 33))
    return bodies.mesh(whole.translate((0.21, 0.37, 0.11)))


@cache
def crossing() -> Mesh:
    """Two balls and a bar as separate closed surfaces that cross each other."""
    parts = (bodies.ball(14, 48), bodies.ball(12, 40, (11, 3, 2)), bodies.box(40, 5, 5).rotate((10, 30, 20)))
    return bodies.soup(*(bodies.mesh(part.translate((0.13, 0.29, 0.41))) for part in parts))


def grid_of(body: Mesh) -> Grid:
    low, high = body.bounds_mm
    return Grid.around(low, high, 1.0, 5.0)


def exact_inside(body: Mesh, points: NDArray[np.float64]) -> NDArray[np.bool_]:
    return np.asarray(igl.winding_number(body.vertices, body.faces.astype(np.int64), points)) > 0.5


def some(field: Field, within: NDArray[np.bool_], count: int = 20000) -> NDArray[np.int64]:
    index = np.argwhere(within)
    return index[np.random.default_rng(7).permutation(len(index))[:count]]


@pytest.mark.parametrize("body", [knobbly, crossing])
def test_distance_in_the_band(body) -> None:  # type: ignore[no-untyped-def]
    mesh = body()
    grid = grid_of(mesh)
    distance, nearest = unsigned_band(mesh, grid, BAND_MM)
    index = some(distance, distance <= BAND_MM)
    error = distance[tuple(index.T)] - peer_distance(grid.at(index), mesh)
    assert float(np.sqrt((error**2).mean())) <= 0.02
    assert error.min() > -1e-4, "a distance to a triangle is never less than the least"
    assert ((nearest >= 0) == (distance < 1e30)).all()


def test_distance_on_the_layer_of_the_board() -> None:
    """The lowest layer of a grid that starts at the board is as exact as the others: bodies that cross, cut in half."""
    mesh = crossing()
    low, high = mesh.bounds_mm
    whole = Grid.around(low, high, 1.0, 12.0)
    half = Grid((whole.origin_mm[0], whole.origin_mm[1], 0.0), 1.0, (*whole.shape[:2], int(high[2]) + 13))
    distance, _ = unsigned_band(mesh, half, BAND_MM)
    index = np.argwhere(distance <= BAND_MM)
    board = index[index[:, 2] == 0]
    error = distance[tuple(board.T)] - peer_distance(half.at(board), mesh)
    assert len(board) > 1000
    assert float(np.sqrt((error**2).mean())) <= 0.02
    assert error.max() <= 0.17, "at most about a sixth of a step"


def test_no_point_within_the_band_is_left_out() -> None:
    mesh = knobbly()
    grid = grid_of(mesh)
    distance, _ = unsigned_band(mesh, grid, BAND_MM)
    index = some(distance, distance > BAND_MM)
    assert peer_distance(grid.at(index), mesh).min() > BAND_MM - 0.05


def test_sign_of_a_solid_by_crossings() -> None:
    mesh = knobbly()
    grid = grid_of(mesh)
    inside = inside_solid(mesh, grid)
    index = some(inside, np.ones(grid.shape, bool), 40000)
    points = grid.at(index)
    clear = peer_distance(points, mesh) > 1e-3
    np.testing.assert_array_equal(inside[tuple(index.T)][clear], exact_inside(mesh, points)[clear])
    assert inside[tuple(index.T)].sum() > 500


def test_sign_of_bodies_that_cross() -> None:
    """Counted crossings, winding numbers and the band of a scan say what the exact winding number says."""
    mesh = crossing()
    grid = grid_of(mesh)
    distance, _, inside = banded(mesh, mesh, grid, BAND_MM, silent)
    index = some(distance, distance < BAND_MM, 40000)
    points = grid.at(index)
    clear = peer_distance(points, mesh) > 1e-3
    truth = exact_inside(mesh, points)[clear]
    for told in (inside, inside_solid(mesh, grid), inside_soup(mesh, distance, grid)):
        np.testing.assert_array_equal(told[tuple(index.T)][clear], truth)


def test_sign_of_a_scan_with_holes() -> None:
    """Every twentieth triangle is gone: where the band asks winding numbers, the exact one says the same but within a
    hundredth of one half, where the fast one cannot tell (its usual accuracy for order 2, from memory)."""
    whole = crossing()
    mesh = Mesh(whole.vertices, whole.faces[np.arange(len(whole.faces)) % 20 > 0])
    assert not mesh.closed
    grid = grid_of(mesh)
    distance, _, inside = banded(mesh, mesh, grid, BAND_MM, silent)
    index = some(distance, distance <= 0.5 * grid.step_mm, 40000)
    number = np.asarray(igl.winding_number(mesh.vertices, mesh.faces.astype(np.int64), grid.at(index)))
    clear = np.abs(number - 0.5) > 0.01
    np.testing.assert_array_equal(inside[tuple(index.T)][clear], (number > 0.5)[clear])
    assert clear.sum() > 1000


@pytest.mark.parametrize("count", [1, 2, 127, 128, 129, 255, 256, 257, 1000])
@pytest.mark.parametrize("apart", [0.0, 0.0005])
def test_sign_of_many_coats(count: int, apart: float) -> None:
    """One cone in many coats, on or in one another: inside is where libigl's winding number of the outermost is 1."""
    cone = bodies.mesh(bodies.cone(20, 12, 50, 32).translate((0.21, 0.37, 0.11)))
    soup = bodies.soup(*(Mesh(cone.vertices * (1 - apart * n), cone.faces) for n in range(count)))
    grid = Grid.around(*cone.bounds_mm, 2.5, 5.0)
    points = grid.at(np.argwhere(np.ones(grid.shape, bool)))
    far = np.abs(peer_distance(points, cone)) > 1e-3
    np.testing.assert_array_equal(inside_solid(soup, grid).ravel()[far], exact_inside(cone, points)[far])
    assert exact_inside(cone, points).sum() > 500


def test_fast_winding_number_is_near_the_exact_one() -> None:
    """The fast one is an approximation: within 0.05 (its usual accuracy for order 2, from memory)."""
    mesh = knobbly()
    points = np.random.default_rng(3).uniform(-30, 30, (4000, 3))
    exact = np.asarray(igl.winding_number(mesh.vertices, mesh.faces.astype(np.int64), points))
    assert np.abs(winding_numbers(mesh, points) - exact).max() < 0.05
