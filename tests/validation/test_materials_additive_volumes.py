"""Mixtures by additive volumes against hand computation.

1/rho = sum(w_i / rho_i), with element densities Cu 8.96, Sn 7.29, Zn 7.14 g/ml. Expected values were reckoned apart
from the software. Tolerance 0.1 % (the printed digits).
"""

from __future__ import annotations

import pytest

from moldwright.materials import library
from moldwright.materials.mixture import mixture_density_g_ml, volume_from_weight, weight_from_volume

SOURCE = ("Rule of mixtures (additive volumes); by hand",)


def test_bronze_90_10() -> None:
    assert mixture_density_g_ml([90, 10], [8.96, 7.29]) == pytest.approx(8.76, rel=1e-3)


def test_brass_70_30_falls_short_of_the_handbook() -> None:
    additive = mixture_density_g_ml([70, 30], [8.96, 7.14])
    assert additive == pytest.approx(8.32, rel=1e-3)
    assert library().powder("brass").true_density_g_ml.low > additive


@pytest.mark.parametrize(
    ("by_volume", "density_a", "density_b", "b_per_100_a"), [((1, 1), 1.05, 1.10, 104.76), ((2, 1), 1.05, 1.22, 58.10)]
)
def test_ratio_by_volume_to_ratio_by_weight(
    by_volume: tuple[float, float], density_a: float, density_b: float, b_per_100_a: float
) -> None:
    by_weight = weight_from_volume(by_volume, density_a, density_b)
    assert by_weight[1] == pytest.approx(b_per_100_a, rel=1e-3)
    back = volume_from_weight(by_weight, density_a, density_b)
    assert back[0] / back[1] == pytest.approx(by_volume[0] / by_volume[1])


def test_loading_of_equal_loose_volumes() -> None:
    """Equal loose volumes of A 1.05, B 1.10 and powder (apparent 3.0, true 8.78 g/ml): the mix weighs 2.199 g/ml."""
    assert mixture_density_g_ml([1.05, 1.10, 3.0], [1.05, 1.10, 8.78]) == pytest.approx(2.199, rel=1e-3)
