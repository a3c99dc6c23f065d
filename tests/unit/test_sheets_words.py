"""Quantities on the sheets: no digit that the shop's scale does not show."""

from __future__ import annotations

import pytest
from exact_factors import OUNCE_G

from moldwright.sheets.words import mass_or_trace
from moldwright.units.printing import show_mass


@pytest.mark.parametrize(
    ("units", "scale_g", "mass_g", "told"),
    [
        ("us", 0.05 * OUNCE_G, 1.35 * OUNCE_G, "1.35 oz"),
        ("us", 0.01 * OUNCE_G, 2.7 * OUNCE_G, "2.70 oz"),
        ("metric", 0.1, 41.0, "41.0 g"),
        ("metric", 0.05, 37.05, "37.05 g"),
        ("metric", 1.0, 74.0, "74 g"),
    ],
)
def test_a_total_has_the_digits_of_the_shops_scale(units: str, scale_g: float, mass_g: float, told: str) -> None:
    assert show_mass(mass_g, units, scale_g) == told


def test_what_would_print_as_zero_is_a_trace() -> None:
    assert mass_or_trace(0.0, "metric", 0.1) == mass_or_trace(0.1, "us", 1.0) == "a trace"
    assert mass_or_trace(0.04, "metric", 0.1) == "a trace"
    assert mass_or_trace(0.06, "metric", 0.1) == "0.1 g"
