"""Originals with a small mouth stand on a plinth."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest
from original_stands import standing

from moldwright.mold.mouth import MouthLimits, mount


def test_a_sphere_on_a_point_gets_a_plinth() -> None:
    """The plinth's top rises round the ball; together they are one body, and the plinth is its own solid."""
    found = standing(bodies.mesh(bodies.ball(25, 64, (0, 0, 25))))
    mounted = mount(found.mesh, MouthLimits())
    assert mounted.mouth.narrowest_mm < 20
    assert mounted.plinth is not None
    assert mounted.plinth.why_invalid() == ""
    assert mounted.body.why_invalid() == ""
    parts = mounted.plinth.volume_mm3 + mounted.original.volume_mm3
    assert mounted.body.volume_mm3 == pytest.approx(parts, rel=1e-6)
    foot = bodies.solid(mounted.body).slice(0.01)
    assert foot.area() >= 0.1 * np.pi * 25**2
    assert len(bodies.solid(mounted.body).decompose()) == 1


def test_four_legs_stand_on_one_plinth() -> None:
    """Mouth of the bare original: four circles of radius 5 mm (24 sides: 99 % of pi r^2)."""
    mounted = mount(standing(bodies.table()).mesh, MouthLimits())
    assert mounted.mouth.loops == 4
    assert mounted.mouth.area_mm2 == pytest.approx(4 * np.pi * 25, rel=0.03)
    assert mounted.mouth.narrowest_mm == pytest.approx(10, abs=0.2)
    assert mounted.plinth is not None
    assert len(bodies.solid(mounted.plinth).decompose()) == 1
    assert len(bodies.solid(mounted.body).slice(0.01).to_polygons()) == 1


def test_a_broad_foot_needs_no_plinth() -> None:
    mounted = mount(standing(bodies.stump()).mesh, MouthLimits())
    assert mounted.plinth is None
    assert mounted.mouth.loops == 1
    assert mounted.mouth.narrowest_mm == pytest.approx(40, abs=0.5)
    assert mounted.mouth.area_mm2 == pytest.approx(np.pi * 400, rel=0.02)
    assert mounted.body is mounted.original
