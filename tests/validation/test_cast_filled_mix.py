"""A powder-filled resin against the rule of mixtures: equal loose volumes of A (1.05 g/ml), B (1.10 g/ml) and a powder
of apparent density 3.0 and true density 8.78 g/ml. Equal volumes: common practice, no source. The figures follow by
hand: (1 + 1 + 3 / 8.78) / 3 and so on; tolerance half of the last digit.

Viscosity by Maron and Pierce's form, (1 - phi / phi_max)^-2, by hand: phi 0.2 and phi_max 0.64 -> 2.116. Packing of one
size 0.64 +- 0.02; two very different sizes by hand: 0.64 + 0.36 x 0.64 = 0.8704.
"""

import pytest

from moldwright.cast.filled import TWO_SIZES_PACKING, filled_mix, loose_powder_ml, thickened
from moldwright.errors import InputRefused
from moldwright.materials.sheet_fields import figure_rules

SOURCE = (
    "Rule of mixtures (additive volumes); by hand",
    "Mueller, Llewellin & Mader, Geophys. Res. Lett. 38 (2011) L13316, doi 10.1029/2011GL047167 (abstract): "
    "Maron and Pierce's form holds for aspect ratios 0.04 to 22",
    "Berryman, Phys. Rev. A 27 (1983) 1053 (as cited): random close packing of equal spheres 0.64 +- 0.02",
    "Desmond & Weeks, Phys. Rev. E 90 (2014) 022204 (abstract): spheres of many sizes pack denser",
)


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


def test_grains_of_mixed_sizes_thicken_less() -> None:
    """Denser packing leaves more room: (1 - 0.2 / 0.8)^-2 = 16/9 by hand; at 70 % one size no longer pours, two may."""
    assert thickened(1.0, 20.0, 0.8) == pytest.approx(16 / 9)
    assert thickened(1.0, 70.0, 0.8) == pytest.approx(64.0)
    with pytest.raises(InputRefused):
        thickened(1.0, 70.0)


def test_no_share_of_powder_is_called_possible_that_two_sizes_cannot_reach() -> None:
    assert pytest.approx(0.8704) == TWO_SIZES_PACKING
    assert figure_rules()["powder_max_vol_pct"].highest == pytest.approx(87.04, abs=0.5)
