"""How far a glove stretches about a solid that an original could be, on few triangles."""

from __future__ import annotations

from dataclasses import replace

import geometry_bodies as bodies
import numpy as np
import pytest
from manifold3d import Manifold

from moldwright.geometry.field import standing_grid
from moldwright.geometry.mesh import Mesh
from moldwright.job.doubted_peel import peeled_on
from moldwright.mold.held import Held

NECK, HEAD = 20.0, 60.0


@pytest.fixture(scope="module")
def vase() -> Mesh:
    neck = Manifold.cylinder(80.0, NECK, NECK, 96)
    return bodies.mesh(neck + bodies.ball(HEAD, 96, (0.0, 0.0, 80.0 + HEAD - 4.0)))


@pytest.fixture(scope="module")
def bare(vase: Mesh) -> Held:
    """Nothing is packed."""
    grid = standing_grid(vase, 4.0, 24.0)
    nothing = np.zeros(grid.shape, np.float32)
    return Held(0.0, 0.0, 0.0, grid, nothing > 0, nothing)


def test_a_head_three_times_as_wide_as_its_neck_stretches_it_three_times(vase: Mesh, bare: Held) -> None:
    """CHECKS 34: vase neck 20 / head 60 mm: 3.0; within 3 % on so few triangles."""
    (found, none) = peeled_on(vase, (bare, None), 12.0, ())
    assert none is None
    assert found is not None
    assert float(found.stretch.max()) == pytest.approx(HEAD / NECK, rel=0.03)


def test_a_neck_that_is_packed_on_one_side_stretches_more(vase: Mesh, bare: Held) -> None:
    """Half of it keeps its length, the rest goes (3 - 0.5) / 0.5 = 5 times; within 10 % on a grid of 4 mm."""
    x = bare.grid.axis(0)
    packed = replace(bare, rubber_mm=np.where(x[:, None, None] > 0, 20.0, 0.0) + bare.rubber_mm)
    (found,) = peeled_on(vase, (packed,), 12.0, ())
    assert found is not None
    assert float(found.stretch.max()) == pytest.approx(5.0, rel=0.1)
