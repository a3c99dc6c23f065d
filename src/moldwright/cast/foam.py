"""Moisture in a urethane: the gas that a little water makes."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.units.constants import GAS_CONSTANT_J_MOL_K, WATER_G_MOL, ZERO_C_K

ATMOSPHERE_PA = 101325.0


def foam_ml(water_g: float, temperature_c: float = 20.0) -> float:
    """Carbon dioxide that water sets free in a urethane [ml]: one molecule of gas for each of water.

    `H2O + 2 R-NCO -> R-NH-CO-NH-R + CO2`; `V = n R T / p`

    Parameters
    ----------
    water_g : water in the mix [g], >= 0
    temperature_c : temperature of the gas [degC], -20 to 120

    Source: stoichiometry and the ideal gas at 101325 Pa.

    >>> round(foam_ml(1.0) / 1000, 3)
    1.335
    """
    if not (water_g >= 0 and -20 <= temperature_c <= 120):
        raise InputRefused("moisture", water_g, ">= 0", "g", "Give the water as grams, at -20 to 120 degC.")
    moles = water_g / WATER_G_MOL
    return moles * GAS_CONSTANT_J_MOL_K * (temperature_c + ZERO_C_K) / ATMOSPHERE_PA * 1e6
