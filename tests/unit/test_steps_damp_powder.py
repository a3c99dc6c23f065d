"""What a tenth of a percent of water in the powder does, told in grams and milliliters."""

import re

import pytest
from made_up_job import VOLUMES, commission
from reckoned import reckoned

from moldwright.materials import library
from moldwright.units import mass_g, volume_ml

SOURCE = (
    "Stoichiometry with IUPAC abridged standard atomic weights (from memory)",
    "Ideal gas; R from the 2019 SI (CODATA 2018; from memory)",
)


def test_gas_from_the_powder_of_one_skin() -> None:
    """0.1 % of the powder's grams is water (our own measure of damp); a mole of gas (24.055 l at 20 degC, 101 325 Pa,
    by R T / p) for each 18.015 g of it. Powder by hand: 150 ml of skin at 2.199 g/ml, 8 % of waste,
    58.25 % by weight."""
    plan = reckoned(commission(), library(), VOLUMES)
    told = [c.text for c in plan.cautions if c.step == "powder-dry" and "of water in" in c.text]
    found = re.search(r"([\d.]+) % of water in (.+?) of powder makes (.+?) of gas", told[0])
    assert found is not None
    powder_g, gas_ml = mass_g(found[2]), volume_ml(found[3])
    assert powder_g == pytest.approx(150 * 2.199 * 1.08 * 0.5825, rel=0.01)
    assert gas_ml == pytest.approx(powder_g * 0.001 / 18.015 * 24_055, rel=0.01)
    assert float(found[1]) == pytest.approx(0.1)
