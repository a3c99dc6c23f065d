"""A surface computed in slabs is the surface computed whole, and both measure as closed forms say."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest

from moldwright.errors import ComputationFailed
from moldwright.geometry.field import standing_band, standing_grid
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.slabs import layers, standing_body, standing_surfaces

R, H, T = 14.0, 90.0, 4.0
REACH_MM = T + 3.0


def column() -> Mesh:
    return bodies.mesh(bodies.cone(R, R, H, 128))


def coat(most_points: int) -> tuple[Mesh, list[tuple[int, int, int]]]:
    """The outside of a coat on the column, and the shapes of the grids that were asked for."""
    body, asked = column(), []

    def make(part: Grid) -> list[Field]:
        asked.append(part.shape)
        return [standing_band(body, part, REACH_MM) - np.float32(T)]

    (surface,) = standing_surfaces(standing_grid(body, 1.0, REACH_MM), make, REACH_MM, most_points)
    assert surface is not None
    return surface, asked


def test_slabs_join_into_the_same_closed_surface() -> None:
    whole, once = coat(24_000_000)
    joined, often = coat(1)
    assert len(once) == 1
    assert len(often) >= 3, "the column is several slabs tall"
    assert max(shape[2] for shape in often) < once[0][2]
    assert joined.why_invalid() == ""
    assert len(joined.faces) == pytest.approx(len(whole.faces), rel=0.001)
    assert joined.volume_mm3 == pytest.approx(whole.volume_mm3, rel=1e-4)


def test_a_coat_in_slabs_measures_as_steiner_says() -> None:
    """Sides and top of a cylinder on the board: (2 pi R H + pi R^2) t + (pi H + pi^2 R / 2) t^2 + 2/3 pi t^3."""
    solid = standing_body(coat(1)[0])
    exact = (2 * np.pi * R * H + np.pi * R**2) * T + (np.pi * H + np.pi**2 * R / 2) * T**2 + 2 / 3 * np.pi * T**3
    assert solid.volume() - column().volume_mm3 == pytest.approx(exact, rel=0.003)


def test_a_surface_that_leaves_the_grid_is_a_fault() -> None:
    body = column()
    with pytest.raises(ComputationFailed) as fault:
        standing_surfaces(standing_grid(body, 1.0, 2.0), lambda part: [standing_band(body, part, 9) - np.float32(6)], 9)
    assert fault.value.code == "level-set-open"


def test_layers_in_stacks_are_the_field_whole() -> None:
    """Each layer once, in order, the same within the sixth of a step to which a distance is known."""
    body = column()
    grid = standing_grid(body, 1.0, 3.0)

    def band(part: Grid) -> Field:
        return standing_band(body, part, REACH_MM)

    stacks = list(layers(grid, band, REACH_MM, 1))
    assert len(stacks) >= 3
    assert [first for first, _ in stacks[1:]] == [first + field.shape[2] for first, field in stacks[:-1]]
    np.testing.assert_allclose(np.concatenate([field for _, field in stacks], axis=2), band(grid), atol=1 / 6)
