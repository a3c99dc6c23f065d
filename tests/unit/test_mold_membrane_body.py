"""A body as a coarse obstacle and the sheet that fits it: one open edge, no hole, corners on the surface."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest

from moldwright.geometry.field import Sampled
from moldwright.geometry.grid import Grid
from moldwright.geometry.handles import open_loop
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.net import net_of
from moldwright.mold.membrane import sheet_peeled
from moldwright.mold.membrane_body import coarse_field, open_edges, sheet_on, without_holes
from moldwright.mold.membrane_pull import PullSettings


def arch() -> m3.Manifold:
    """A slab 80 mm wide with a way through it that is 24 mm wide and 30 mm high, over a foot of 10 mm."""
    return bodies.box(80, 30, 70) - bodies.box(24, 40, 30).translate((0, 0, 10))


def euler(mesh: Mesh) -> int:
    sides = np.sort(np.concatenate([mesh.faces[:, [a, (a + 1) % 3]] for a in range(3)]), axis=1)
    return len(np.unique(mesh.faces)) - len(np.unique(sides, axis=0)) + len(mesh.faces)


def test_a_net_of_a_ball_is_closed_and_as_large() -> None:
    """4/3 pi r^3 within 5 %: corners in the middle of crossings cut the ball a little; wound outward."""
    grid = Grid.around(np.full(3, -22.0), np.full(3, 22.0), 2.0, 2.0)
    x, y, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    net = net_of(Sampled((np.sqrt(x**2 + y**2 + z**2) - 20).astype(np.float32), grid))
    assert net.why_invalid() == ""
    assert net.volume_mm3 == pytest.approx(4 / 3 * np.pi * 20**3, rel=0.05)


def test_a_sheet_is_open_at_its_foot_alone() -> None:
    """A disk by Euler's formula (1); the cone's own surface within 3 %."""
    sheet = sheet_on(coarse_field(bodies.mesh(bodies.cone(30, 12, 80, 96)), 4.0, 0.0))
    (edge,) = open_edges(sheet)
    assert euler(sheet) == 1
    assert np.abs(sheet.vertices[edge, 2]).max() == 0.0
    walls = np.pi * 42 * np.hypot(80, 18) + np.pi * 12**2
    assert sheet.area_mm2 == pytest.approx(walls, rel=0.03)


def test_a_through_hole_is_closed() -> None:
    """Euler's formula: a disk with a handle is -1, without 1."""
    field = coarse_field(bodies.mesh(arch()), 4.0, 0.0)
    assert euler(sheet_on(field)) == -1
    assert euler(sheet_on(without_holes(field))) == 1


def test_a_hole_has_a_loop_a_ball_none() -> None:
    """Of a torus of 30 and 8 mm the shortest loop round the hole is a circle of 22 mm: within 5 %."""
    loop = open_loop(bodies.mesh(bodies.torus(30, 8)))
    assert loop is not None
    around = np.linalg.norm(loop - np.roll(loop, 1, axis=0), axis=1).sum()
    assert around == pytest.approx(2 * np.pi * 22, rel=0.05)
    assert open_loop(bodies.mesh(bodies.ball(20))) is None


def test_it_is_cancelled_from_within() -> None:
    class Stopped(Exception):
        pass

    def stop(part: float) -> None:
        raise Stopped

    with pytest.raises(Stopped):
        sheet_peeled(bodies.stump(), 0.0, 300, PullSettings(), stop)


def test_it_tells_how_far_it_is() -> None:
    parts: list[float] = []
    assert sheet_peeled(bodies.stump(), 0.0, 300, PullSettings(), parts.append).drawn.off
    assert parts == sorted(parts)
    assert 0.0 < parts[0] <= parts[-1] <= 1.0
