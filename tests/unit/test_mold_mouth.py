"""The mouth and the plinth: areas, widths and volumes of plain bodies by hand. Limits: common practice, no source."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest

from moldwright.geometry.outline import narrowest_width, section
from moldwright.mold.mouth import Mounted, MouthLimits, measure_mouth, mount

LIMITS = MouthLimits()


def test_a_post_on_the_board() -> None:
    mouth = measure_mouth(bodies.mesh(bodies.box(30, 40, 50)))
    assert (mouth.area_mm2, mouth.largest_section_mm2) == (pytest.approx(1200), pytest.approx(1200))
    assert mouth.narrowest_mm == pytest.approx(30, abs=0.3)
    assert (mouth.feet, mouth.loops) == (1, 1)


def test_a_cup_upside_down_stands_on_a_ring() -> None:
    """Radii 30 and 20 mm: pi 500 mm2, a wall of 10 mm; the largest section is its closed top, pi 900."""
    cup = bodies.cone(30, 30, 40, 256) - bodies.cone(20, 20, 30, 256)
    mouth = measure_mouth(bodies.mesh(cup))
    assert mouth.area_mm2 == pytest.approx(np.pi * 500, rel=2e-3)
    assert mouth.largest_section_mm2 == pytest.approx(np.pi * 900, rel=2e-3)
    assert mouth.narrowest_mm == pytest.approx(10, abs=0.3)
    assert (mouth.feet, mouth.loops) == (1, 2)


def test_a_table_has_four_feet_of_their_own_width() -> None:
    mouth = measure_mouth(bodies.table())
    assert (mouth.feet, mouth.loops) == (4, 4)
    assert mouth.area_mm2 == pytest.approx(4 * np.pi * 25, rel=0.02)
    assert mouth.narrowest_mm == pytest.approx(10, abs=0.3)
    assert mouth.largest_section_mm2 == pytest.approx(60 * 40)


def test_the_foot_is_looked_at_just_over_the_board() -> None:
    """A low cone, 20 mm tall: at a hundredth of that, 0.2 mm, its radius is 40 (1 - 0.01); a tall one at 0.5 mm."""
    for height, at in ((20.0, 0.2), (200.0, 0.5)):
        mouth = measure_mouth(bodies.mesh(bodies.cone(40, 0, height, 256)))
        assert mouth.area_mm2 == pytest.approx(np.pi * (40 * (1 - at / height)) ** 2, rel=2e-4 + 2e-4)


def stands(foot: float, top: float = 0.0) -> Mounted:
    """A square foot 30 mm tall, with a square plate on it where `top` is given."""
    body = bodies.box(foot, foot, 30)
    if top:
        body += bodies.box(top, top, 10).translate((0, 0, 25))
    return mount(bodies.mesh(body), LIMITS)


@pytest.mark.parametrize(
    ("foot", "top", "plinth"),
    [(19.0, 0.0, True), (20.5, 0.0, False), (25.0, 78.0, False), (25.0, 80.0, True)],
)
def test_a_plinth_where_the_mouth_is_narrow_or_small(foot: float, top: float, plinth: bool) -> None:
    """At least 20 mm wide, and a tenth of the largest section: 25^2 is more than a tenth of 78^2, less than of 80^2."""
    assert (stands(foot, top).plinth is not None) == plinth


def test_without_need_nothing_moves() -> None:
    found = stands(30.0)
    assert found.plinth is None
    assert found.plinth_height_mm == 0.0
    assert found.body is found.original
    assert found.original.bounds_mm[1][2] == pytest.approx(30)


def test_several_feet_stand_on_one_plinth() -> None:
    found = mount(bodies.table(), LIMITS)
    assert found.plinth is not None
    assert found.original.bounds_mm[0][2] == pytest.approx(12, abs=1e-4)
    low, high = found.plinth.bounds_mm
    assert (low[2], high[2], found.plinth_height_mm) == (0.0, 14.0, 14.0)
    assert high[:2] - low[:2] == pytest.approx([48 + 10 + 4, 28 + 10 + 4], abs=0.2)  # the feet's hull and 2 mm round it
    hull_mm2 = 48 * 28 + 2 * (48 + 28) * 7 + np.pi * 7**2
    sunk_mm3 = 4 * np.pi * 25 * 2
    assert found.plinth.volume_mm3 == pytest.approx(hull_mm2 * 14 - sunk_mm3, rel=5e-3)
    assert found.body.volume_mm3 == pytest.approx(found.plinth.volume_mm3 + found.original.volume_mm3, rel=1e-5)


@pytest.mark.parametrize(("foot", "top", "wide_mm", "area_mm2"), [(6.0, 0.0, 20.0, 0.0), (6.0, 100.0, 20.0, 1000.0)])
def test_a_plinth_is_as_wide_and_as_large_as_asked_and_no_more(
    foot: float, top: float, wide_mm: float, area_mm2: float
) -> None:
    """A little to spare: up to a tenth of the width, a quarter of the area."""
    found = stands(foot, top)
    assert found.plinth is not None
    shape = section(bodies.solid(found.body), 6.0)
    width = narrowest_width(shape)
    assert width >= wide_mm
    assert shape.area >= area_mm2
    assert width <= 1.15 * wide_mm or shape.area <= 1.25 * area_mm2
