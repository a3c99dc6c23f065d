"""A sheet of rubber against closed forms of the neo-Hookean solid, and a glove that is peeled as such a sheet.

Sleeve over a cone, without friction, by its pulled edge, its other end free: with the reference coordinate s along the
sleeve nothing in W(l1, l2) depends on s itself, so `W - l1 dW/dl1` is the same all along (first integral); at the free
end `dW/dl1 = 0`, so there `l1 = 1 / sqrt(l2)`. Hoop stretch l2 = radius of the cone / radius of the sleeve, and the
pull is `2 pi R h dW/dl1 cos(half angle)`. Which part of the cone it covers follows from its length (quadrature).
"""

from __future__ import annotations

from functools import cache
from math import cos, pi, sin, sqrt, tan

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from moldwright.geometry.field import Sampled
from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh
from moldwright.mold.membrane import SheetPeeled, sheet_peeled, strained
from moldwright.mold.membrane_contact import Obstacle, obstacle_of
from moldwright.mold.membrane_pull import DrawnSheet, PullSettings, drawn_off
from moldwright.mold.membrane_sheet import sheet_of
from moldwright.mold.membrane_steps import pull

SOURCE = (
    "Treloar, The physics of rubber elasticity (from memory): neo-Hookean, uniaxial l - 1/l^2, equibiaxial l - 1/l^5",
    "The first integral of a sleeve on a cone, by hand from that energy (Noether); quadrature and roots by scipy",
    "Girths of a solid of revolution, by hand",
)
SLEEVE_R, SLEEVE_L, ANGLE = 20.0, 40.0, pi / 12
LOW_R = SLEEVE_R - SLEEVE_L * tan(ANGLE)


def patch() -> Mesh:
    """Three by two millimeters in uneven triangles."""
    rng = np.random.default_rng(5)
    across, along = np.meshgrid(np.linspace(0, 3, 7), np.linspace(0, 2, 5), indexing="ij")
    inner = (across > 0) & (across < 3) & (along > 0) & (along < 2)
    x = across + np.where(inner, rng.uniform(-0.15, 0.15, across.shape), 0)
    y = along + np.where(inner, rng.uniform(-0.15, 0.15, across.shape), 0)
    n = np.arange(35).reshape(7, 5)
    a, b, c, d = (part.ravel() for part in (n[:-1, :-1], n[1:, :-1], n[1:, 1:], n[:-1, 1:]))
    faces = np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)])
    return Mesh(np.stack([x.ravel(), y.ravel(), np.zeros(35)], 1), faces.astype(np.int32))


def pulls(along: float, across: float) -> tuple[float, float, float]:
    """What the patch pulls at its ends, along and across, and the most that a corner within is pulled."""
    mesh = patch()
    sheet, force, stretch = sheet_of(mesh), np.zeros((35, 3)), np.ones(48)
    pull(mesh.vertices * [along, across, 1.0], sheet.faces, sheet.area, sheet.inverse, force, stretch)
    x, y = mesh.vertices[:, 0], mesh.vertices[:, 1]
    inner = (x > 0) & (x < 3) & (y > 0) & (y < 2)
    return -float(force[x == 3, 0].sum()), -float(force[y == 2, 1].sum()), float(np.abs(force[inner]).max())


@pytest.mark.parametrize("stretch", [1.05, 1.7, 3.0])
def test_pulled_one_way(stretch: float) -> None:
    """mu h (l - 1/l^2) for each millimeter of its width of 2, nothing across; within rounding."""
    along, across, within = pulls(stretch, 1 / sqrt(stretch))
    assert along == pytest.approx(2 * (stretch - stretch**-2), rel=1e-9)
    assert across == pytest.approx(0.0, abs=1e-9)
    assert within == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("stretch", [1.05, 1.7, 3.0])
def test_pulled_both_ways(stretch: float) -> None:
    """mu h (l - 1/l^5) for each millimeter of its sides; within rounding."""
    along, across, within = pulls(stretch, stretch)
    assert (along / 2, across / 3) == pytest.approx((stretch - stretch**-5,) * 2, rel=1e-9)
    assert within == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("across", [0.1, 0.5])
def test_pressed_together_it_folds(across: float) -> None:
    """Across a pull of 1.7 a sheet narrower than 1 / sqrt(1.7) = 0.77 hangs in folds: it pulls as if it were free."""
    assert pulls(1.7, across)[:2] == pytest.approx((2 * (1.7 - 1.7**-2), 0.0), abs=1e-9)


def tube(around: int) -> Mesh:
    rows = round(SLEEVE_L / (2 * pi * SLEEVE_R / around * sqrt(0.75)))
    turn = 2 * pi * np.arange(around) / around
    at = [turn + (row % 2) * pi / around for row in range(rows + 1)]
    places = [np.stack([SLEEVE_R * np.cos(t), SLEEVE_R * np.sin(t), 0 * t + row], 1) for row, t in enumerate(at)]
    vertices = np.concatenate(places) * [1, 1, SLEEVE_L / rows]
    i, row = (part.ravel() for part in np.meshgrid(np.arange(around), np.arange(rows)))
    a, b = row * around + i, row * around + (i + 1) % around
    even, c, d = row % 2 == 0, a + around, b + around
    one = np.where(even[:, None], np.stack([a, b, c], 1), np.stack([a, b, d], 1))
    two = np.where(even[:, None], np.stack([b, d, c], 1), np.stack([a, d, c], 1))
    return Mesh(vertices, np.concatenate([one, two]).astype(np.int32))


def cone() -> Obstacle:
    """A cone that widens upward by 15 degrees, sampled; nothing but it holds the sleeve's edge."""
    grid = Grid.around(np.array([-70.0, -70, -20]), np.array([70.0, 70, 150]), 3.0, 3.0)
    x, y, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    made = obstacle_of(Sampled(((np.hypot(x, y) - LOW_R - z * tan(ANGLE)) * cos(ANGLE)).astype(np.float32), grid))
    return Obstacle(made.field, made.origin, made.step, np.full_like(made.reach, -np.inf))


@cache
def drawn_over(around: int) -> tuple[Mesh, DrawnSheet]:
    sleeve = tube(around)
    edge = np.flatnonzero(sleeve.vertices[:, 2] > SLEEVE_L - 1e-6)
    return sleeve, drawn_off(sheet_of(sleeve), cone(), edge, 85.0, PullSettings(), lambda part: None)


def along(hoop: float, first: float) -> float:
    """Stretch along the sleeve where the hoop's is known: W - l1 dW/dl1 = first."""
    return brentq(lambda l1: (hoop**2 - l1**2 + 3 / (l1 * hoop) ** 2 - 3) / 2 - first, hoop**-0.5 * (1 - 1e-9), 6.0)


def closed_form(edge_z_mm: float) -> tuple[float, float]:
    """Hoop stretch of the free end and the pull, its edge at a height."""
    edge = (LOW_R + edge_z_mm * tan(ANGLE)) / SLEEVE_R

    def first(tail: float) -> float:
        return (tail**2 - 1 / tail + 3 / tail - 3) / 2

    def length(tail: float) -> float:
        return quad(lambda hoop: SLEEVE_R / (sin(ANGLE) * along(hoop, first(tail))), tail, edge)[0]

    tail = brentq(lambda tail: length(tail) - SLEEVE_L, 1.0001, edge - 1e-4)
    l1 = along(edge, first(tail))
    return tail, 2 * pi * SLEEVE_R * (l1 - l1**-3 / edge**2) * cos(ANGLE)


@pytest.mark.parametrize("around", [36, 48])
def test_a_sleeve_drawn_over_a_cone(around: int) -> None:
    """Hoop stretch within 1 % at both ends, force within 15 % (an issue's figures); it never cuts 1 mm deep."""
    sleeve, drawn = drawn_over(around)
    radius, z = np.hypot(drawn.places[:, 0], drawn.places[:, 1]), sleeve.vertices[:, 2]
    tail, force = closed_form(drawn.height[-1])
    here, _ = closed_form(float(drawn.places[z > SLEEVE_L - 1e-6, 2].mean()))
    assert radius[z < 1e-6].mean() / SLEEVE_R == pytest.approx(here, rel=0.01)
    assert radius[z > SLEEVE_L - 1e-6] == pytest.approx(
        LOW_R + drawn.places[z > SLEEVE_L - 1e-6, 2] * tan(ANGLE), rel=0.01
    )
    assert drawn.force[-1] == pytest.approx(force, rel=0.15)
    assert drawn.deepest_mm < 1.0
    assert 1.5 < tail < here


def turned(outline: list[tuple[float, float]]) -> Mesh:
    return bodies.mesh(m3.CrossSection([np.array([(0.0, 0.0), *outline])]).revolve(96))


@cache
def vase(triangles: int) -> SheetPeeled:
    """A neck of 20 mm under a head of 60 mm, in smooth curves."""
    low, high, top = np.linspace(0, 60, 31), np.linspace(62, 110, 25), np.linspace(0.1, pi / 2, 16)
    foot = [(17.5 + 7.5 * cos(pi * z / 60), z) for z in low]
    neck = [(20 - 10 * cos(pi * (z - 60) / 50), z) for z in high]
    head = [(30 * cos(t), 110 + 30 * sin(t)) for t in top]
    return sheet_peeled(turned([*foot, *neck, *head]), 0.0, triangles, PullSettings(), lambda part: None)


def test_a_vase_stretches_at_its_neck_as_its_head_asks() -> None:
    """60 over 20 mm: 3.0, the middle of all triangles about the neck within 8 %: a ring of some twenty of them is cut
    to a polygon. It stretches most there, and the 95th and 99th percentiles of two meshes lie within 3 and 5 %."""
    coarse, fine = vase(2000), vase(3000)
    for glove in (coarse, fine):
        middle = glove.sheet.rest[glove.sheet.faces].mean(axis=1)
        assert np.median(glove.drawn.stretch[np.abs(middle[:, 2] - 60) < 3]) == pytest.approx(3.0, rel=0.08)
        assert glove.drawn.off
        assert 40 <= strained([glove]).spots[0].at[2] <= 70
    assert coarse.below(0.95) == pytest.approx(fine.below(0.95), rel=0.03)
    assert coarse.below(0.99) == pytest.approx(fine.below(0.99), rel=0.05)


def test_a_cone_comes_off_by_itself() -> None:
    """Each ring passes smaller ones: nothing is stretched, within 3 %, and nothing is told."""
    glove = sheet_peeled(bodies.mesh(bodies.cone(30, 8, 90, 96)), 0.0, 1500, PullSettings(), lambda part: None)
    told = strained([glove])
    assert told.off
    assert told.most_99 == pytest.approx(1.0, abs=0.03)
    assert told.spots == ()


def test_a_ball_is_passed_by_its_foot() -> None:
    """Of a ball of 40 mm cut 30 mm under its middle the foot is round 26.5 mm: it must widen by 40 / 26.5 = 1.512; the
    triangles with a side on the foot, within 2 %."""
    body = bodies.mesh(bodies.ball(40, 96, (0, 0, 30)).trim_by_plane((0, 0, 1), 0.0))
    glove = sheet_peeled(body, 0.0, 2000, PullSettings(), lambda part: None)
    on_edge = (glove.sheet.rest[:, 2] == 0.0)[glove.sheet.faces].sum(axis=1) == 2
    assert glove.drawn.stretch[on_edge].mean() == pytest.approx(40 / sqrt(40**2 - 30**2), rel=0.02)
