"""Coats, flange and bridged crevices on plain blocks: closed forms, and Shapely (a reference library) in the plane."""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from coated_bodies import coated as coated_body
from shapely import box
from shapely.affinity import rotate

from moldwright.geometry.mesh import Mesh
from moldwright.mold.glove import CoatedBody

A, B, C = 24.0, 18.0, 20.0
COATS_MM, FLANGE_MM, STEP_MM = (1.0, 3.0), 12.0, 1.5


@cache
def coated() -> CoatedBody:
    return coated_body(bodies.mesh(bodies.box(A, B, C)), COATS_MM, FLANGE_MM, STEP_MM)


def flange_area(a: float, b: float, w: float, wall: float) -> float:
    """The rectangle grown by w, Minkowski's a b + 2 w (a + b) + pi w^2, less the two corners beyond their cuts: the
    deeper takes half of what is left beyond the wall or a quarter of the corner's round, the shallower 0.4 of it. By
    Shapely."""
    bare = box(-a / 2, -b / 2, a / 2, b / 2).buffer(w, quad_segs=64)
    deep = min((w - wall) / 2, w * (1 - 0.5**0.5))
    corner = (a + b) / 2 / 2**0.5 + w
    beyond = [rotate(box(corner - d, -200, corner + 200, 200), 45, origin=(0, 0)) for d in (deep, 0.4 * deep)]
    gone = [part.intersection(bare).area for part in beyond]
    return a * b + 2 * w * (a + b) + np.pi * w**2 - sum(gone)


def test_each_coat_is_what_its_offset_adds() -> None:
    """Steiner's formula of the box doubled below the board, halved; at a step of 1.5 mm within 1 %, a coat thinner than
    the step within 4 %."""
    for t, total, off in zip(np.cumsum(COATS_MM), np.cumsum(coated().coat_ml), (0.04, 0.01), strict=True):
        exact = (2 * C * (A + B) + A * B) * t + np.pi * (A + B + 2 * C) / 2 * t**2 + 2 / 3 * np.pi * t**3
        assert total * 1000 == pytest.approx(exact, rel=off)


def test_the_flange_adds_what_the_coats_leave_of_its_plan() -> None:
    """As thick as all coats: (its plan - the plan of the coated foot, a b + 2 t (a + b) + pi t^2) t."""
    t = sum(COATS_MM)
    plan = flange_area(A, B, FLANGE_MM, t) - (A * B + 2 * t * (A + B) + np.pi * t**2)
    assert coated().flange_mm == t
    assert coated().flange_ml == pytest.approx(plan * t / 1000, rel=0.01)
    assert abs(coated().crevice_ml) < 0.15  # the closing rounds only the angle between wall and flange


def test_the_gloved_body_is_the_sum_of_its_rubber() -> None:
    rubber_ml = sum(coated().coat_ml) + coated().flange_ml + coated().crevice_ml
    assert coated().gloved.volume_ml == pytest.approx(A * B * C / 1000 + rubber_ml, rel=1e-3)
    low, high = coated().gloved.bounds_mm
    assert high - low == pytest.approx([A + 2 * FLANGE_MM, B + 2 * FLANGE_MM, C + 4], abs=0.1)


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
    found = coated_body(slotted(), (4.0,), 12.0, STEP_MM)
    assert found.crevice_ml == pytest.approx(filled_mm2 * LONG / 1000, rel=0.1)
    assert coated_body(slotted(), (2.0,), 12.0, STEP_MM).crevice_ml < 0.1 * found.crevice_ml  # 8 mm are left: no bridge
