"""Loose powders against how densely grains pack.

Equal spheres shaken down fill 64 %: a poured powder of one size lies looser than that, and a cup of it weighs less.
Pressed-part mixes of 90/10 bronze print 3.23 to 3.25 g/ml, oxide-reduced copper 1.36 to 3.00, so an atomized powder of
the same metal must be able to weigh as much as the heaviest of these and more than the lightest.
"""

from __future__ import annotations

import pytest

from moldwright.materials import library

SOURCE = (
    "Berryman, Phys. Rev. A 27 (1983) 1053 (as cited): random close packing of equal spheres 0.64 +- 0.02",
    "ASM Handbook, powder table 3 (web copies, volume not shown): apparent densities of copper and bronze powders",
)
ATOMIZED = [sheet.id for sheet in library().all("powder") if library().powder(sheet.id).grade == "atomized"]


@pytest.mark.parametrize("powder", [sheet.id for sheet in library().all("powder")])
def test_a_poured_powder_lies_looser_than_a_shaken_one(powder: str) -> None:
    sheet = library().powder(powder)
    assert sheet.apparent_density_g_ml.likely < 0.64 * sheet.true_density_g_ml.likely


@pytest.mark.parametrize("powder", ATOMIZED)
def test_an_atomized_powder_lies_denser_than_flake(powder: str) -> None:
    """By how full its cup is: grains lie, leaves stand on one another."""
    flake, sheet = library().powder("bronze-flake"), library().powder(powder)
    fullest = flake.apparent_density_g_ml.high / flake.true_density_g_ml.low
    assert sheet.apparent_density_g_ml.low / sheet.true_density_g_ml.high > fullest


def test_bronze_and_copper_as_printed() -> None:
    bronze, copper = (library().powder(name).apparent_density_g_ml for name in ("bronze", "copper"))
    assert bronze.low < 3.23 < bronze.high
    assert bronze.low < 3.25 < bronze.high
    assert 1.36 < copper.low <= 3.00 <= copper.high
