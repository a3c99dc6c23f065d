"""How hot a mix gets that keeps its heat, and how much of it a thin one keeps. Expected by hand; tolerance 0.1 %."""

from __future__ import annotations

import pytest

from moldwright.cure.adiabatic import adiabatic_rise_k, hottest_c, kept_share
from moldwright.ranges import Range

SOURCE = (
    "Heat balance, by hand: 150 J/g over 1.8 J/gK, and with 70 % by weight of 0.38 J/gK",
    "Length of diffusion, the root of a t (Carslaw & Jaeger, from memory)",
)


@pytest.mark.parametrize(("share", "rise_k"), [(0.0, 83.3), (0.7, 55.8)])
def test_resin_alone_and_with_bronze(share: float, rise_k: float) -> None:
    """150 / 1.8 = 83.33; 0.3 x 150 / (0.3 x 1.8 + 0.7 x 0.38) = 45 / 0.806 = 55.83."""
    assert adiabatic_rise_k(150.0, share) == pytest.approx(rise_k, rel=1e-3)


def test_from_the_shops_temperature_up_and_of_a_thin_one_less() -> None:
    """Half of 83.33 over 20 degC is 61.67."""
    found = hottest_c(20.0, Range(150.0, 150.0, 300.0), 0.0, 0.38, 0.5)
    assert (found.likely, found.high) == pytest.approx((61.67, 103.33), rel=1e-3)


def test_thick_keeps_all_thin_in_proportion() -> None:
    """Polyurethane spreads heat at 0.116 mm2/s: in 1500 s 13.19 mm."""
    assert kept_share(20.0, 1500.0) == 1.0
    assert kept_share(13.19 / 4.0, 1500.0) == pytest.approx(0.25, rel=1e-3)
