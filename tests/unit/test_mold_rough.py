"""A quick look at undercuts, and the shell that is built: closed forms on plain bodies."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest

from moldwright.mold.rough_undercuts import rough_undercuts


def test_a_plate_on_a_post_hides_what_is_under_it_from_above() -> None:
    """60 x 60 mm over a post of 20 x 20 mm, 40 mm tall: (60^2 - 20^2) 40 = 128 ml, within 8 % on 48 steps; two pieces
    drawn apart leave nothing hidden."""
    body = bodies.box(20, 20, 40) + bodies.box(60, 60, 12).translate((0, 0, 40))
    one, two = rough_undercuts(bodies.mesh(body))
    assert one == pytest.approx(128, rel=0.08)
    assert two < 2.0


def test_a_pit_is_hidden_from_both_unless_drawn_up() -> None:
    """A pit 24 x 24 mm wide and 30 mm deep in the top: nothing hides it from above; two level draws leave it whole."""
    body = bodies.box(60, 60, 50) - m3.Manifold.cube((24, 24, 31)).translate((-12, -12, 20))
    one, two = rough_undercuts(bodies.mesh(body))
    assert one < 1.0
    assert two < 1.0  # one of the pair may be straight up


def test_a_pit_from_below_is_hidden_from_all() -> None:
    """The same pit upside down: 24 x 24 x 30 mm = 17.28 ml, within 12 %, for one piece and for two."""
    body = bodies.box(60, 60, 50) - m3.Manifold.cube((24, 24, 30)).translate((-12, -12, 0))
    one, two = rough_undercuts(bodies.mesh(body))
    assert one == pytest.approx(17.28, rel=0.12)
    assert two == pytest.approx(17.28, rel=0.12)
    assert np.isfinite([one, two]).all()
