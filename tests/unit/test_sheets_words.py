"""Quantities on the sheets: no digit that the shop's scale does not show."""

from __future__ import annotations

import pytest

from moldwright.plan.mixes import SKIN, MixPart, MixPlan, PartKind, mix_id
from moldwright.sheets.words import mass_or_trace, scale_step_g

OUNCE_G = 28.349523125  # NIST SP 811, appendix B


def cup(*reads_g: float) -> MixPlan:
    parts = tuple(MixPart(PartKind.A, "A", read, read, read) for read in reads_g)
    return MixPlan(mix_id(SKIN, 1), SKIN, 1, parts, 600.0, 1.0, 50.0)


def test_a_scale_in_ounces_shows_no_more_digits_than_it_has() -> None:
    """Steps of 0.05 oz: 1.35 and 2.70 oz are told to a hundredth, not to five places."""
    mixes = [cup(1.35 * OUNCE_G, 2.70 * OUNCE_G)]
    assert scale_step_g(mixes, "us") == pytest.approx(0.01 * OUNCE_G)


def test_a_scale_in_grams() -> None:
    assert scale_step_g([cup(37.1, 74.4)]) == pytest.approx(0.1)
    assert scale_step_g([cup(37.0, 74.0)], "us") == pytest.approx(1.0)


def test_what_would_print_as_zero_is_a_trace() -> None:
    assert mass_or_trace(0.0, "metric") == mass_or_trace(0.1, "us") == "a trace"
