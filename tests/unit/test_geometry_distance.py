"""Distances to triangles without area, which exact booleans and files in single precision leave behind."""

import numpy as np
import pytest

from moldwright.geometry.distance import unsigned_band
from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh

A, B = np.array([2.0, 3.0, 4.0]), np.array([6.5, 5.0, 3.0])
GRID = Grid((0.0, 0.0, 0.0), 1.0, (9, 9, 9))
BAND_MM = 6.0
HAIR = np.array([1e-9, 0.0, 0.0])


@pytest.mark.parametrize(
    "corners",
    [(A, A, B), (A, B, A), (B, A, A), (A, B, B), (A, (A + B) / 2, B), (A, B, (A + B) / 2), (A, A + HAIR, B)],
    ids=["aab", "aba", "baa", "abb", "line", "line-beyond", "hair"],
)
def test_a_triangle_without_area_is_its_longest_side(corners: tuple[np.ndarray, ...]) -> None:
    """Distance to a segment in closed form: the point's foot on the line, held between the ends."""
    mesh = Mesh(np.array(corners), np.array([[0, 1, 2]], dtype=np.int32))
    told, _ = unsigned_band(mesh, GRID, BAND_MM)
    points = np.stack(np.meshgrid(*(np.arange(9.0),) * 3, indexing="ij"), axis=-1)
    along = np.clip((points - A) @ (B - A) / ((B - A) @ (B - A)), 0.0, 1.0)
    distance = np.linalg.norm(points - (A + along[..., None] * (B - A)), axis=-1)
    near = distance < BAND_MM - 1.0
    assert near.sum() > 100
    np.testing.assert_allclose(told[near], distance[near], atol=1e-5)


def test_a_triangle_that_is_a_point_has_the_distance_to_it() -> None:
    mesh = Mesh(np.array([A, A, A]), np.array([[0, 1, 2]], dtype=np.int32))
    told, _ = unsigned_band(mesh, GRID, BAND_MM)
    assert told[5, 3, 4] == pytest.approx(3.0, abs=1e-5)
