"""Figures in the data that stoichiometry fixes.

Sources: water and isocyanate make one mole of CO2 per mole of water; ideal gas at 20 degC and 101 325 Pa; molar mass of
water 18.015 g/mol (handbook). Hydration of beta-hemihydrate: 132.5 J/g, NBS enthalpies of formation (from memory).
"""

from __future__ import annotations

import re

import pytest

from moldwright.materials import library
from moldwright.materials.compatibility import judge


def test_liters_of_gas_from_a_gram_of_water() -> None:
    liters = 1.0 / 18.015 * 8.314462618 * 293.15 / 101325 * 1000
    assert liters == pytest.approx(1.335, rel=5e-3)
    found = judge("glass", "", "", "addition-cure-a10-slow", "urethane-fast", "bronze", "printed", library())
    told = [m for f in found if (m := re.search(r"1 g of water makes ([\d.]+) liters", f.reason))]
    assert [float(m[1]) for m in told] == [pytest.approx(liters, rel=0.03)]


def test_heat_of_modified_gypsum() -> None:
    """132.5 J per g of hemihydrate, spread over 100 g of powder and 22 g of water: 108.6 J/g of slurry at most."""
    sheet = library().resin("modified-gypsum")
    most = 132.5 * sheet.ratio_weight[0] / sum(sheet.ratio_weight)
    assert most == pytest.approx(108.6, rel=1e-3)
    assert sheet.heat_j_g.low < most < sheet.heat_j_g.high
    assert sheet.heat_j_g.likely <= most
