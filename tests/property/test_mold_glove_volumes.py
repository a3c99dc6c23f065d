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
import shapely
from coated_bodies import coated as coated_body
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from moldwright.geometry.mesh import Mesh
from moldwright.mold.glove import CoatedBody
from moldwright.mold.mouth import MouthLimits, mount
from moldwright.mold.skin import Skin, skin_of
from moldwright.original.mending.solid import stand
from moldwright.original.standing.place import place

COATS_MM = (1.0, 1.5, 1.5)
FLANGE_MM = 20.0


@cache
def piece() -> Mesh:
    """The figure on a broad foot."""
    return bodies.mesh(bodies.figure(bodies.cone(15, 12, 40, 32)) + bodies.box(34, 22, 6))


def coated_with_skin(mesh: Mesh, scale: float = 1.0) -> tuple[CoatedBody, Skin]:
    standing = stand(place(bodies.scan(mesh)).mesh)
    mounted = mount(standing.mesh, MouthLimits())
    coats_mm = tuple(scale * t for t in COATS_MM)
    skin = skin_of(mounted.body, scale * 3.0, mounted.plinth_height_mm, standing.step_mm)
    return coated_body(mounted.body, coats_mm, scale * FLANGE_MM, standing.step_mm), skin


@cache
def both_as_they_stand() -> tuple[CoatedBody, Skin]:
    return coated_with_skin(piece())


def as_it_stands() -> CoatedBody:
    return both_as_they_stand()[0]


def same(mesh: Mesh, scale: float = 1.0) -> None:
    (found, skin), (told, told_skin) = coated_with_skin(mesh, scale), both_as_they_stand()
    volume = scale**3
    assert skin.whole_ml == pytest.approx(volume * told_skin.whole_ml, rel=0.005)
    for number, (one, other) in enumerate(zip(found.coat_ml, told.coat_ml, strict=True)):
        assert one == pytest.approx(volume * other, rel=0.01 if number == 0 else 0.005)
    assert sum(found.coat_ml) == pytest.approx(volume * sum(told.coat_ml), rel=0.003)
    assert found.flange_ml == pytest.approx(volume * told.flange_ml, rel=0.005)
    assert found.gloved.volume_ml == pytest.approx(volume * told.gloved.volume_ml, rel=0.002)


@given(st.floats(1, 359))
@settings(max_examples=1, deadline=None)
def test_turned_about_the_upright(degrees: float) -> None:
    same(bodies.turned(piece(), degrees))


def test_a_mirrored_twin() -> None:
    same(bodies.mirrored(piece()))


def test_scaled_with_its_coats() -> None:
    """1.25 times as large all over: 1.25^3 times the rubber."""
    larger = Mesh(piece().vertices * 1.25, piece().faces)
    same(larger, 1.25)


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

    A = 2 c (a + b) + a b, M = pi (a + b + 2 c) / 2, and 2/3 pi t^3; within 0.2 % of the rubber. A sound scan keeps its
    own edges, so only the offset's curved edges are sampled.
    """
    a, b, c = 30.0, 40.0, 50.0
    found = coated_with_skin(bodies.mesh(bodies.box(a, b, c)))[0]
    for t, total in zip(np.cumsum(COATS_MM), np.cumsum(found.coat_ml), strict=True):
        exact = (2 * c * (a + b) + a * b) * t + np.pi * (a + b + 2 * c) / 2 * t**2 + 2 / 3 * np.pi * t**3
        assert total * 1000 == pytest.approx(exact, rel=0.002)


def test_the_flange_reaches_as_far_as_asked_and_seats_one_way_only() -> None:
    """Turned by half or flipped, the outline is not its own (Shapely); foot 34 by 30 mm."""
    outline = as_it_stands().outline
    middle = (outline.min(axis=0) + outline.max(axis=0)) / 2
    centered = outline - middle
    sides = np.ptp(centered, axis=0)
    assert sides == pytest.approx([34 + 2 * FLANGE_MM, 30 + 2 * FLANGE_MM], abs=1.0)
    for turn in (np.diag([-1, -1]), np.diag([1, -1]), np.diag([-1, 1])):
        assert shapely.hausdorff_distance(Polygon(centered @ turn), Polygon(centered)) > 2.0
