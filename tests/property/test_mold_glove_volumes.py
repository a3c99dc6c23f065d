"""Turning, mirroring and scaling a piece changes its rubber by no more than the sampling does.

Tolerance: the field is sampled at 0.6 mm (size / 100) on a lattice that a turned piece meets anew. A coat's outside is
off by about step^2 / (8 R) on a radius R, at edges by up to a third of a step over a width of a step; on a coat of 4 mm
that is below 0.5 %. The first coat (1 mm here) is the difference of two such surfaces: 1 %.
"""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldwright.geometry.mesh import Mesh
from moldwright.mold.glove import CoatedBody, coat
from moldwright.mold.mouth import MouthLimits, mount
from moldwright.original.place import place
from moldwright.original.solid import stand, step_for

COATS_MM = (1.0, 1.5, 1.5)
FLANGE_MM = 20.0


@cache
def piece() -> Mesh:
    """A figure without any symmetry, 58 mm tall: a foot, a head off its axis, an arm aslant."""
    arm = bodies.cone(4, 4, 30, 16).rotate((0, 65, 20)).translate((0, 0, 30))
    whole = bodies.cone(15, 12, 40, 32) + bodies.ball(16, 32, (2, 1, 42)) + arm + bodies.box(34, 22, 6)
    return bodies.mesh(whole)


def coated(mesh: Mesh, scale: float = 1.0) -> CoatedBody:
    standing = stand(place(bodies.scan(mesh)).mesh)
    mounted = mount(standing.mesh, MouthLimits())
    return coat(mounted.body, tuple(scale * t for t in COATS_MM), scale * FLANGE_MM, standing.step_mm, scale * 3.0)


@cache
def as_it_stands() -> CoatedBody:
    return coated(piece())


def same(found: CoatedBody, told: CoatedBody, scale: float = 1.0) -> None:
    volume = scale**3
    for number, (one, other) in enumerate(zip(found.coat_ml, told.coat_ml, strict=True)):
        assert one == pytest.approx(volume * other, rel=0.01 if number == 0 else 0.005)
    assert sum(found.coat_ml) == pytest.approx(volume * sum(told.coat_ml), rel=0.003)
    assert found.flange_ml == pytest.approx(volume * told.flange_ml, rel=0.005)
    assert found.skin_ml == pytest.approx(volume * told.skin_ml, rel=0.005)
    assert found.gloved.volume_ml == pytest.approx(volume * told.gloved.volume_ml, rel=0.002)


@given(st.floats(1, 359))
@settings(max_examples=1, deadline=None)
def test_turned_about_the_upright(degrees: float) -> None:
    same(coated(bodies.turned(piece(), degrees)), as_it_stands())


def test_a_mirrored_twin() -> None:
    same(coated(bodies.mirrored(piece())), as_it_stands())


def test_scaled_with_its_coats() -> None:
    """1.25 times as large all over: 1.25^3 times the rubber."""
    larger = Mesh(piece().vertices * 1.25, piece().faces)
    same(coated(larger, 1.25), as_it_stands(), 1.25)


def test_parts_add_up() -> None:
    """Coats, flange and bridged crevices are the gloved body less the piece (its own volume by manifold3d)."""
    found = as_it_stands()
    assert found.gloved.why_invalid() == ""
    standing = stand(place(bodies.scan(piece())).mesh)
    rubber = bodies.solid(found.gloved).volume() - bodies.solid(standing.mesh).volume()
    parts = sum(found.coat_ml) + found.flange_ml + found.crevice_ml
    assert parts == pytest.approx(rubber / 1000, rel=0.001)


def test_coats_on_a_box_in_closed_form() -> None:
    """A box on the board, coats on its sides and top: Steiner's formula of the box doubled below the board, halved.

    A = 2 c (a + b) + a b, M = pi (a + b + 2 c) / 2, and 2/3 pi t^3. The lattice cuts the box's edges off with legs of
    at most one step h, which shortens the outline round an edge by (2 - sqrt 2) h and the coat by that times t and the
    edges' length, corners a little more: never more rubber than the exact figure, and less by no more than that.
    """
    a, b, c = 30.0, 40.0, 50.0
    found = coated(bodies.mesh(bodies.box(a, b, c)))
    for t, total in zip(np.cumsum(COATS_MM), np.cumsum(found.coat_ml), strict=True):
        exact = (2 * c * (a + b) + a * b) * t + np.pi * (a + b + 2 * c) / 2 * t**2 + 2 / 3 * np.pi * t**3
        rounded = (2 - 2**0.5) * step_for(c) * t * (4 * c + 2 * (a + b))
        assert -1e-4 * exact <= exact - total * 1000 <= 1.25 * rounded


def test_the_flange_reaches_as_far_as_asked_and_seats_one_way_only() -> None:
    """Turned by half or flipped, the outline's corners are not its own; foot 34 by 30 mm."""
    outline = as_it_stands().outline
    assert len(outline) == 6
    middle = (outline.min(axis=0) + outline.max(axis=0)) / 2
    centered = outline - middle
    sides = np.ptp(centered, axis=0)
    assert sides == pytest.approx([34 + 2 * FLANGE_MM, 30 + 2 * FLANGE_MM], abs=1.0)
    for turn in (np.diag([-1, -1]), np.diag([1, -1]), np.diag([-1, 1])):
        moved = centered @ turn
        far = np.linalg.norm(moved[:, None] - centered[None], axis=2).min(axis=1).max()
        assert far > 5.0
