"""Water in a urethane: H2O + 2 R-NCO -> urea + CO2 and the ideal gas at 20 degC, 101325 Pa: 1 g of water makes
8.314463 x 293.15 / (18.015 x 101325) m3 = 1.335 l of gas, by hand; tolerance 0.5 %."""

import pytest

from moldwright.cast.foam import foam_ml

SOURCE = (
    "Stoichiometry with IUPAC abridged standard atomic weights (from memory)",
    "Ideal gas; R from the 2019 SI (CODATA 2018; from memory)",
    "NIOSH Pocket Guide to Chemical Hazards, hexamethylene diisocyanate (2005): reacts with water to carbon dioxide",
)


def test_one_gram_of_water() -> None:
    assert foam_ml(1.0) == pytest.approx(1335, rel=0.005)


def test_a_mole_of_gas() -> None:
    """Molar volume of an ideal gas at 0 degC and 101325 Pa: 22.413 969 54 l (CODATA 2018, from memory)."""
    assert foam_ml(18.015, 0.0) == pytest.approx(22_413.969_54, rel=1e-6)


def test_gas_expands_with_absolute_temperature() -> None:
    """Charles's law: V2 / V1 = T2 / T1."""
    assert foam_ml(1.0, 40.0) / foam_ml(1.0, 20.0) == pytest.approx(313.15 / 293.15)
