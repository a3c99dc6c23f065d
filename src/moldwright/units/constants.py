"""Constants of nature and of definition that more than one room reckons with."""

from __future__ import annotations

from moldwright.units.tables import factor_of

INCH_MM = factor_of("length", "in")
"""The international inch, exact by definition."""
ZERO_C_K = 273.15
"""0 degC in kelvin, exact by definition (SI brochure)."""
WATER_G_MOL = 18.015
"""Molar mass of water: IUPAC abridged standard atomic weights."""
GRAVITY_M_S2 = 9.80665
"""Standard gravity: 3rd General Conference on Weights and Measures, 1901."""
GAS_CONSTANT_J_MOL_K = 8.314462618
"""The molar gas constant: 2019 SI (CODATA 2018)."""
