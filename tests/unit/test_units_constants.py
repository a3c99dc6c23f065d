"""Constants against the definitions of the SI (2019): k = 1.380649e-23 J/K and N_A = 6.02214076e23 1/mol are exact."""

from __future__ import annotations

import pytest

from moldwright.units.constants import GAS_CONSTANT_J_MOL_K, INCH_MM, ZERO_C_K


def test_the_gas_constant_is_boltzmanns_times_avogadros() -> None:
    assert pytest.approx(1.380649e-23 * 6.02214076e23, rel=1e-9) == GAS_CONSTANT_J_MOL_K


def test_an_inch_and_the_ice_point_by_definition() -> None:
    """25.4 mm since the agreement of 1959; 273.15 K."""
    assert (INCH_MM, ZERO_C_K) == (25.4, 273.15)
