"""Coats, flange and bridged crevices on plain blocks: closed forms, and Shapely (a reference library) in the plane."""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from shapely import Polygon, box
from shapely.affinity import rotate, translate

from moldwright.geometry.mesh import Mesh
from moldwright.mold.glove import CoatedBody, coat, flange_outline

A, B, C = 24.0, 18.0, 20.0
COATS_MM, FLANGE_MM, STEP_MM = (1.0, 3.0), 12.0, 1.5


@cache
def coated() -> CoatedBody:
    return coat(bodies.mesh(bodies.box(A, B, C)), COATS_MM, FLANGE_MM, STEP_MM)


def outline_by_hand(a: float, b: float, w: float) -> Polygon:
    """The rectangle w beyond the foot, two corners of one side cut by 0.5 and by 0.85 of w."""
    x, y = a / 2 + w, b / 2 + w
    return Polygon([(-x, -y), (x - w / 2, -y), (x, w / 2 - y), (x, y - 0.85 * w), (x - 0.85 * w, y), (-x, y)])


def test_each_coat_is_what_its_offset_adds() -> None:
    """Steiner's formula of the box doubled below the board, halved; at a step of 1.5 mm within 1 %, a coat thinner than
    the step within 4 %."""
    for t, total, off in zip(np.cumsum(COATS_MM), np.cumsum(coated().coat_ml), (0.04, 0.01), strict=True):
        exact = (2 * C * (A + B) + A * B) * t + np.pi * (A + B + 2 * C) / 2 * t**2 + 2 / 3 * np.pi * t**3
        assert total * 1000 == pytest.approx(exact, rel=off)


def test_the_flange_adds_what_the_coats_leave_of_its_plan() -> None:
    """As thick as all coats: (its plan - the plan of the coated foot, a b + 2 t (a + b) + pi t^2) t."""
    t = sum(COATS_MM)
    plan = outline_by_hand(A, B, FLANGE_MM).area - (A * B + 2 * t * (A + B) + np.pi * t**2)
    assert coated().flange_mm == t
    assert coated().flange_ml == pytest.approx(plan * t / 1000, rel=0.01)
    assert abs(coated().crevice_ml) < 0.15  # the closing rounds only the angle between wall and flange


def test_the_gloved_body_is_the_sum_of_its_rubber() -> None:
    rubber_ml = sum(coated().coat_ml) + coated().flange_ml + coated().crevice_ml
    assert coated().gloved.volume_ml == pytest.approx(A * B * C / 1000 + rubber_ml, rel=1e-3)
    low, high = coated().gloved.bounds_mm
    assert high - low == pytest.approx([A + 2 * FLANGE_MM, B + 2 * FLANGE_MM, C + 4], abs=0.1)


@pytest.mark.parametrize("turn_deg", [0.0, 30.0])
@pytest.mark.parametrize("sides", [(30.0, 20.0), (20.0, 34.0)])
def test_the_flanges_edge(sides: tuple[float, float], turn_deg: float) -> None:
    """The rectangle round the foot, whichever way it lies, with one small and one large cut on one of its ends."""
    foot = bodies.box(*sides, 10).rotate((0, 0, turn_deg)).translate((3, -2, 0))
    found = Polygon(flange_outline(foot, 10.0))
    a, b = max(sides), min(sides)
    whole = (a + 20) * (b + 20) - 5.0**2 / 2 - 8.5**2 / 2
    assert found.area == pytest.approx(whole, rel=1e-3)
    assert found.is_valid
    corners = bodies.mesh(foot).vertices[:, :2]
    assert Polygon(corners).convex_hull.buffer(10.0 / 2**0.5 - 0.5).within(found)
    x, y = sides[0] / 2 + 10, sides[1] / 2 + 10
    bare = translate(rotate(box(-x, -y, x, y), turn_deg, origin=(0, 0)), 3, -2)
    assert found.difference(bare).area < 1e-3
    cuts = sorted(part.area for part in bare.difference(found.buffer(1e-6)).geoms)
    assert cuts == pytest.approx([12.5, 36.125], rel=1e-2)


SLOT, LONG, DEEP = 12.0, 60.0, 20.0


def slotted() -> Mesh:
    """A block 40 mm wide and 30 mm tall with a slot of 12 mm along all of its top."""
    slot = m3.Manifold.cube((LONG, SLOT, DEEP)).translate((-LONG / 2, -SLOT / 2, 30 - DEEP))
    return bodies.mesh(bodies.box(LONG, 40, 30) - slot)


def test_a_crevice_that_the_coats_narrow_is_bridged() -> None:
    """Coats of 4 mm leave 4 mm of 12; a ball of 3 mm (three quarters of the coats) does not enter. In the plane by
    Shapely: the slot's outline grown by 4 mm, closed by 3 mm; along the slot both ends bulge about as the top does."""
    profile = box(-20, 0, 20, 30) - box(-6, 10, 6, 40)
    grown = profile.buffer(4.0, quad_segs=32)
    closed = grown.buffer(3.0, quad_segs=32).buffer(-3.0, quad_segs=32)
    filled_mm2 = closed.difference(grown).intersection(box(-8, 5, 8, 40)).area
    found = coat(slotted(), (4.0,), 12.0, STEP_MM)
    assert found.crevice_ml == pytest.approx(filled_mm2 * LONG / 1000, rel=0.1)
    assert coat(slotted(), (2.0,), 12.0, STEP_MM).crevice_ml < 0.1 * found.crevice_ml  # 8 mm are left: no bridge
