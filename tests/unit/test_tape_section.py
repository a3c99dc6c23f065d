"""Level sections against closed forms: circle, ellipse (complete elliptic integral), box, diamond, and the superellipse
whose area is a quotient of gamma functions, summed here by quadrature instead."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import ellipe

from moldwright.tape import section

SIZES = st.floats(20.0, 400.0)


def one(value: float) -> np.ndarray:
    return np.array([value])


@pytest.mark.parametrize(("wide", "deep"), [(100.0, 100.0), (100.0, 60.0), (40.0, 130.0), (200.0, 12.0)])
def test_an_ellipse_has_its_girth_and_area(wide: float, deep: float) -> None:
    """Girth 4 a E(1 - (c/a)^2) by scipy's complete elliptic integral; area pi a c."""
    a, c = max(wide, deep) / 2, min(wide, deep) / 2
    girth = 4 * a * ellipe(1 - (c / a) ** 2)
    assert section.girth(one(wide), one(deep), one(0.5)) == pytest.approx(girth, rel=2e-4)
    square = section.square_of(one(girth), one(wide), one(deep))
    assert section.area_share(square) * wide * deep == pytest.approx(np.pi * a * c, rel=2e-3)


@pytest.mark.parametrize(("wide", "deep"), [(80.0, 80.0), (120.0, 50.0)])
def test_a_box_and_a_diamond_are_the_two_ends(wide: float, deep: float) -> None:
    least, most = 2 * np.hypot(wide, deep), 2 * (wide + deep)
    assert section.girth(one(wide), one(deep), one(0.0)) == pytest.approx(least)
    assert section.girth(one(wide), one(deep), one(1.0)) == pytest.approx(most)
    shares = section.area_share(section.square_of(np.array([least, most]), wide, deep))
    assert shares == pytest.approx([0.5, 1.0])


@pytest.mark.parametrize("power", [1.5, 2.0, 3.0, 6.0])
def test_the_area_is_that_of_the_curve(power: float) -> None:
    """4 times the integral of (1 - x^n)^(1/n) from 0 to 1, by scipy's quadrature, over the box of area 4."""
    area, _ = quad(lambda x: (1 - x**power) ** (1 / power), 0, 1)
    assert section.area_share(one(1 - 1 / power)) == pytest.approx(area, rel=1e-6)


@given(SIZES, SIZES, st.floats(0.05, 0.9))
def test_what_is_measured_comes_back(wide: float, deep: float, square: float) -> None:
    """The girth of a section tells its squareness again, within the bounds that every convex section keeps."""
    girth = section.girth(one(wide), one(deep), one(square))
    least, most = section.girth_bounds(one(wide), one(deep))
    assert least <= girth <= most
    back = section.girth(one(wide), one(deep), section.square_of(girth, one(wide), one(deep)))
    assert back == pytest.approx(girth, rel=3e-3)
    assert section.area_share(one(square)) * wide * deep <= girth**2 / (4 * np.pi) * 1.001  # isoperimetric inequality


@given(SIZES, st.floats(0.1, 0.95), st.floats(0.3, 0.9))
def test_a_depth_is_found_from_girth_and_breadth(wide: float, slim: float, square: float) -> None:
    girth = section.girth(one(wide), one(wide * slim), one(square))
    assert section.depth_for(girth, one(wide), one(square)) == pytest.approx(wide * slim, rel=1e-3)
