"""Water in a urethane, row 8 of the project's check values: H2O + 2 R-NCO -> urea + CO2 and the ideal gas at 20 degC,
101325 Pa: 1 g of water makes 1.335 l of gas and uses 4.66 g of NCO; stated tolerance 0.5 %."""

import pytest

from moldwright.cast.foam import foam_ml, isocyanate_used_g


def test_one_gram_of_water() -> None:
    assert foam_ml(1.0) == pytest.approx(1335, rel=0.005)
    assert isocyanate_used_g(1.0) == pytest.approx(4.66, rel=0.005)


def test_gas_expands_with_absolute_temperature() -> None:
    """Charles's law: V2 / V1 = T2 / T1."""
    assert foam_ml(1.0, 40.0) / foam_ml(1.0, 20.0) == pytest.approx(313.15 / 293.15)
