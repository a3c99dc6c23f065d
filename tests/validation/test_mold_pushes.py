"""How a full mold presses its shell apart, against the closed forms of hydrostatics."""

from __future__ import annotations

import numpy as np
import pytest

from moldwright.geometry.grid import Grid
from moldwright.geometry.liquid import pressed_mm3
from moldwright.geometry.mesh import Mesh
from moldwright.mold.pushes import pushes_on
from moldwright.units.constants import GRAVITY_M_S2

SOURCE = (
    "Hydrostatics: p = rho g d; half of a full sphere of radius r, its head zero at the top, is pressed with rho g pi"
    " r^3 across an upright parting and lifted with rho g pi r^3 / 3 across a level one (closed forms)",
    "Archimedes: what a liquid presses a closed vessel with sums to the liquid's weight",
)
RADIUS_MM, DENSITY = 100.0, 2.5
G = 9.81
"""The closed forms were worked out with 9.81 m/s2."""


def ball(rings: int) -> Mesh:
    """A sphere that touches the board at its lowest point; its triangles turn outward."""
    around = 2 * rings
    up, turn = np.meshgrid(
        np.linspace(0, np.pi, rings + 1)[1:-1], np.arange(around) * 2 * np.pi / around, indexing="ij"
    )
    round_ = np.stack([np.sin(up) * np.cos(turn), np.sin(up) * np.sin(turn), -np.cos(up)], axis=-1).reshape(-1, 3)
    points = RADIUS_MM * np.concatenate([round_, [[0, 0, -1.0], [0, 0, 1.0]]]) + (0, 0, RADIUS_MM)
    low, high, faces = len(round_), len(round_) + 1, []
    for k in range(around):
        m = (k + 1) % around
        faces += [(low, m, k), (high, (rings - 2) * around + k, (rings - 2) * around + m)]
        for j in range(rings - 2):
            a, b, c, d = j * around + k, j * around + m, (j + 1) * around + k, (j + 1) * around + m
            faces += [(a, b, d), (a, d, c)]
    return Mesh(points, np.array(faces, np.int32))


def halves(axis: int) -> tuple[tuple[np.ndarray, np.ndarray], Grid]:
    """Signed fields of the two sides of a plane through the sphere's middle."""
    grid = Grid((-120.0, -120.0, -20.0), 4.0, (61, 61, 61))
    shape = [1, 1, 1]
    shape[axis] = -1
    away = np.broadcast_to((grid.axis(axis) - (RADIUS_MM if axis == 2 else 0.0) + 1e-3).reshape(shape), grid.shape)
    return (away, -away), grid


def newton(volume_ml: float) -> float:
    return DENSITY * volume_ml / 1000.0 * G


SPHERE = ball(120)


def test_the_sphere_is_closed_and_turned_outward() -> None:
    assert SPHERE.why_invalid() == ""


def test_pressure_of_a_head_of_400_mm() -> None:
    """CHECKS: 2500 kg/m3 under 0.4 m of head is 9807 Pa, with standard gravity."""
    square = np.array(
        [[[0.0, 0, 400], [1000, 0, 400], [1000, 1000, 400]], [[0, 0, 400], [1000, 1000, 400], [0, 1000, 400]]]
    )
    pascal = DENSITY * 1000.0 * GRAVITY_M_S2 * pressed_mm3(square)[2] * 1e-9
    assert pascal == pytest.approx(9807.0, rel=1e-4)


def test_half_shells_parted_upright_are_pressed_apart() -> None:
    """77.0 N each way; neither is lifted, each bears half of the liquid's weight."""
    sides, grid = halves(0)
    first, second = pushes_on(SPHERE, sides, grid, ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)), 0.0)
    assert newton(first.off_ml) == pytest.approx(77.0, rel=1e-3)
    assert newton(second.off_ml) == pytest.approx(77.0, rel=1e-3)
    assert first.up_ml == pytest.approx(-SPHERE.volume_ml / 2, rel=1e-6)


def test_the_half_over_a_level_parting_is_lifted() -> None:
    """25.7 N; as it is poured the half with the mouth lies above, which stands lower on the board."""
    sides, grid = halves(2)
    far, at_mouth = pushes_on(SPHERE, sides, grid, ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0)), 0.0)
    assert newton(at_mouth.up_ml) == pytest.approx(25.7, rel=1e-3)
    assert newton(far.off_ml) == pytest.approx(25.7 + newton(SPHERE.volume_ml), rel=1e-3)
    assert far.up_ml + at_mouth.up_ml == pytest.approx(-SPHERE.volume_ml, rel=1e-9)
