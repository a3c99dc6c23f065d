"""Bodies of which no glove mold can be made, and others that look like it, built from solids of closed form."""

from __future__ import annotations

from itertools import pairwise

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np

from moldwright.geometry.mesh import Mesh

Point = tuple[float, float, float]


def turned_about(profile: list[tuple[float, float]], sides: int = 64) -> m3.Manifold:
    """A profile of radii and heights turned about the upright axis."""
    return m3.CrossSection([profile], m3.FillRule.NonZero).revolve(sides)


def bottle(neck_mm: float, body_mm: float = 28.0, wall_mm: float = 4.0) -> m3.Manifold:
    """A bottle 130 mm tall, its inside of radius `body_mm` up to 78 mm, of radius `neck_mm` from 103 mm up."""
    neck, body = neck_mm + wall_mm, body_mm + wall_mm
    outside = turned_about([(0, 0), (body, 0), (body, 80), (neck, 105), (neck, 130), (0, 130)])
    inside = turned_about([(0, 6), (body_mm, 6), (body_mm, 78), (neck_mm, 103), (neck_mm, 131), (0, 131)])
    return outside - inside


def hollow_ball() -> m3.Manifold:
    """A ball on a foot, 75 mm tall, in it a hollow of 20 mm radius at 42 mm that is closed all round: 33.5 ml."""
    return (bodies.ball(35, 64, (0, 0, 40)) + bodies.cone(20, 24, 20)) - bodies.ball(20, 64, (0, 0, 42))


def grooved_block(slot_mm: float, bore_mm: float) -> m3.Manifold:
    """A block 60 mm long, through it at 30 mm a bore along x that opens to the back in a slot."""
    bore = (
        m3.Manifold.cylinder(62.0, bore_mm / 2, bore_mm / 2, 64, center=True).rotate((0, 90, 0)).translate((0, 0, 30))
    )
    slot = bodies.box(62.0, 30.0, slot_mm).translate((0, 15.0, 30.0 - slot_mm / 2))
    return bodies.box(60, 44, 60) - bore - slot


def sponge(cells: int, pitch_mm: float = 14.0, bar_mm: float = 6.0) -> m3.Manifold:
    """Square bars along x, y and z over every point of a cube, on a slab: 3 n (n + 1)^2 - (n + 1)^3 + 1 holes (Euler),
    less those that the slab closes."""
    side = cells * pitch_mm
    bars = []
    for axis in range(3):
        for i in range(cells + 1):
            for j in range(cells + 1):
                size, at = [bar_mm] * 3, [0.0] * 3
                size[axis] = side + bar_mm
                one, other = (k for k in range(3) if k != axis)
                at[one], at[other] = i * pitch_mm - side / 2, j * pitch_mm - side / 2
                bars.append(m3.Manifold.cube(tuple(size), True).translate(tuple(at)))
    whole = m3.Manifold.batch_boolean(bars, m3.OpType.Add).translate((0, 0, side / 2 + bar_mm / 2))
    return whole + bodies.box(side + 10, side + 10, 4.0)


def tube(path: list[Point], radius_mm: float, sides: int = 16) -> m3.Manifold:
    """Balls and the rods between them along a path."""
    ball = m3.Manifold.sphere(radius_mm, sides)
    rods = [m3.Manifold.batch_hull([ball.translate(a), ball.translate(b)]) for a, b in pairwise(path)]
    return m3.Manifold.batch_boolean(rods, m3.OpType.Add)


def swallowing() -> m3.Manifold:
    """A bulb of 31 mm radius inside, which is reached by nothing but its own neck of 5 mm radius, bent to the side."""
    bulb = bodies.ball(36, 64, (0, 0, 45)) + bodies.cone(24, 24, 20)
    inside = bodies.ball(31, 64, (0, 0, 45))
    way = [(20.0 * np.sin(a), 0.0, 86.0 + 16.0 * (1 - np.cos(a))) for a in np.linspace(0, np.pi / 2, 6)]
    path: list[Point] = [(0.0, 0.0, 60.0), *((float(x), y, float(z)) for x, y, z in way)]
    return (bulb - inside) + (tube(path, 9.0) - inside) - tube([*path, (34.0, 0.0, 102.0)], 5.0)


def mesh(solid: m3.Manifold) -> Mesh:
    """Its triangles."""
    return bodies.mesh(solid)
