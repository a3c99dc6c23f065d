"""The skin of a cast in closed form, on a block whose lower part is a plinth."""

from __future__ import annotations

import geometry_bodies as bodies
import pytest

from moldwright.mold.necks import tightest_neck
from moldwright.mold.skin import skin_of

A, B, C, PLINTH, T = 40.0, 30.0, 60.0, 15.0, 4.0


def skin_over_mm3(height: float) -> float:
    """Of a block open at the board: a b (c - h) - (a - 2 t) (b - 2 t) (c - h - t)."""
    return A * B * (C - height) - (A - 2 * T) * (B - 2 * T) * (C - height - T)


def test_the_plinths_skin_is_not_kept() -> None:
    """Within 1 %: the inner offset's edges are rounded by about the step."""
    found = skin_of(bodies.mesh(bodies.box(A, B, C)), T, PLINTH, 1.0)
    assert found.whole_ml == pytest.approx(skin_over_mm3(0.0) / 1000, rel=0.01)
    assert found.kept_ml == pytest.approx(skin_over_mm3(PLINTH) / 1000, rel=0.01)
    assert found.kept_ml < 0.85 * found.whole_ml


def test_a_body_thinner_than_two_skins_is_all_skin() -> None:
    found = skin_of(bodies.mesh(bodies.box(6, 30, 60)), T, PLINTH, 1.0)
    assert found.whole_ml == pytest.approx(6 * 30 * 60 / 1000)
    assert found.kept_ml == pytest.approx(6 * 30 * (60 - PLINTH) / 1000)


def test_a_ball_on_a_post_is_a_neck_of_its_radii() -> None:
    """Radii 10 and 30 mm: circles 2 pi r, the rubber stretched 3 times; a cone has none."""
    figure = bodies.mesh(bodies.cone(10, 10, 40, 128) + bodies.ball(30, 128, (0, 0, 65)))
    neck = tightest_neck(figure)
    assert neck is not None
    assert neck.around_mm == pytest.approx(62.83, rel=0.01)
    assert neck.over_mm == pytest.approx(188.5, rel=0.01)
    assert neck.ratio == pytest.approx(3.0, rel=0.02)
    assert neck.height_mm < 40
    assert tightest_neck(bodies.mesh(bodies.cone(30, 5, 60))) is None


@pytest.mark.parametrize(("radius", "told"), [(19.0, False), (21.0, True)])
def test_a_neck_is_told_from_twice_its_girth(radius: float, told: bool) -> None:
    """A ball on a post of radius 10 mm: a stretch from which a slit is planned; common practice, no source."""
    figure = bodies.mesh(bodies.cone(10, 10, 60, 128) + bodies.ball(radius, 128, (0, 0, 60)))
    assert (tightest_neck(figure) is not None) == told


def test_the_tightest_of_two_necks() -> None:
    """Radii 12 and 8 mm under a plate of radius 30: the upper one stretches 3.75 times; what is above 90 % of the
    height is no neck, however thin."""
    body = (
        bodies.cone(40, 40, 10, 128) + bodies.cone(12, 12, 40, 128) + bodies.cone(30, 30, 10, 128).translate((0, 0, 35))
    )
    body += bodies.cone(8, 8, 30, 128).translate((0, 0, 40)) + bodies.cone(30, 30, 10, 128).translate((0, 0, 65))
    found = tightest_neck(bodies.mesh(body))
    assert found is not None
    assert found.ratio == pytest.approx(3.75, rel=0.01)
    assert 45 < found.height_mm < 65
    finial = (
        bodies.cone(30, 30, 92, 128) + bodies.cone(3, 3, 8, 128).translate((0, 0, 91)) + bodies.ball(8, 64, (0, 0, 100))
    )
    assert tightest_neck(bodies.mesh(finial)) is None
