"""A powder-filled resin against the rule of mixtures, row 1 of the project's check values: equal loose volumes of A
(1.05 g/ml), B (1.10 g/ml) and a powder of apparent density 3.0 and true density 8.78 g/ml. Equal volumes: common
practice, no source. The figures follow by hand: (1 + 1 + 3 / 8.78) / 3 and so on; tolerance half of the last digit.
Viscosity: Maron & Pierce 1956, row 20 (from memory): phi 0.2, densest packing 0.64 -> 2.116."""

import pytest

from moldwright.cast.filled import filled_mix, loose_powder_ml, thickened


def test_equal_volumes_of_a_b_and_bronze() -> None:
    mix = filled_mix(1, 1, 1, 1.05, 1.10, 3.0, 8.78)
    assert mix.yield_pct == pytest.approx(78.06, abs=0.005)
    assert mix.loading_wt_pct == pytest.approx(58.25, abs=0.005)
    assert mix.loading_vol_pct == pytest.approx(14.59, abs=0.005)
    assert mix.density_g_ml == pytest.approx(2.199, abs=0.0005)


def test_without_powder_the_yield_is_whole() -> None:
    mix = filled_mix(2, 1, 0, 1.05, 1.22, 3.0, 8.78)
    assert (mix.yield_pct, mix.loading_wt_pct) == (100.0, 0.0)


def test_powder_is_held_back_at_the_resins_limit() -> None:
    """By definition of a volume share: grains / (grains + liquid) = 10 %."""
    loose = loose_powder_ml(2.0, 3.0, 8.78, 10.0)
    grains = loose * 3.0 / 8.78
    assert grains / (grains + 2.0) == pytest.approx(0.10)
    assert loose < 1.0


def test_maron_pierce() -> None:
    assert thickened(1.0, 20.0) == pytest.approx(2.116, abs=0.0005)
