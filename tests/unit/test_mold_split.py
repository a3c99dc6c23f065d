"""Which pair of draws a shell takes, on cores whose best draws and whose fill are known in closed form."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest

from moldwright.errors import NoSafePlan
from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh
from moldwright.mold.split import CoarseSplit, SplitSettings, best_of, split_in_two

ACROSS_X = np.array([[1.0, 0.0, 0.0], [-1.0, 0.0, 0.0]])
SHAPE = (10, 10, 10)


def made(energy_ml: float, smaller: float) -> CoarseSplit:
    """A split of a thousand points of which the smaller piece has a share."""
    first = np.zeros(1000, bool)
    first[: round(1000 * smaller)] = True
    first = first.reshape(SHAPE)
    return CoarseSplit(ACROSS_X, Grid((0.0, 0.0, 0.0), 1.0, SHAPE), first, ~first, energy_ml, energy_ml, 10.0)


def test_the_split_that_costs_least_is_taken() -> None:
    splits = [made(energy, 0.5) for energy in (7.0, 2.0, 5.0)]
    assert best_of(splits, SplitSettings()) is splits[1]


def test_a_sliver_is_no_piece() -> None:
    """A tenth of the space is no piece to hold, however little its split costs: the rule is a fifth."""
    sliver, real = made(1.0, 0.1), made(5.0, 0.3)
    assert best_of([sliver, real], SplitSettings()) is real
    with pytest.raises(NoSafePlan) as refused:
        best_of([sliver], SplitSettings())
    assert refused.value.code == "no-two-piece-shell"


def drilled(deep: float, width: float) -> Mesh:
    """A post of 40 by 40 by 48 mm with square blind holes from both sides along x."""
    post = bodies.box(40, 40, 48)
    tool = m3.Manifold.cube((deep, width, width)).translate((20 - deep, -width / 2, 24 - width / 2))
    return bodies.mesh(post - tool - tool.rotate((0, 0, 180)))


def test_blind_holes_are_drawn_along() -> None:
    """Along the holes nothing needs packing; along any other pair that is told apart from it, their rims hide some."""
    found = split_in_two(drilled(14, 16), 8.0, 0.0, 3.0, SplitSettings(tilts_deg=(0,)))
    assert np.abs(found.directions[:, 0]).min() > np.cos(np.radians(10))
    assert found.fill_ml < 0.1


@pytest.mark.parametrize("side", [40.0, 42.0])
@pytest.mark.parametrize("under", [20.0, 23.0])
def test_what_the_cut_pays_for_is_the_volume_hidden_between_the_points_too(side: float, under: float) -> None:
    """Both pieces drawn up: all under a plate is hidden, side^2 under, on points 4 mm apart within 2 %.

    Counted as whole points a plate 40 mm wide is 36 or 44 mm wide: a fifth off.
    """
    plate = bodies.mesh(bodies.box(side, side, 10).translate((0, 0, under)))
    both_up = np.array([[0.0, 0.0, 1.0], [0.0, 0.0, 1.0]])
    found = split_in_two(plate, 8.0, 0.0, 4.0, SplitSettings(seam_ml_per_mm=0.0), directions=both_up)
    assert found.fill_ml == pytest.approx(side**2 * under / 1000, rel=0.02)
