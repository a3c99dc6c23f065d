"""The steps in which a laid shell's weight and its dipping water are told."""

from __future__ import annotations

from math import ceil

from moldwright.units.system import UnitSystem
from moldwright.units.tables import factor_of

MASS_STEP = {UnitSystem.METRIC: 10.0, UnitSystem.US: factor_of("mass", "oz")}
"""Steps in which the weight of a shell is told [g]: no more is known; our own."""
WATER_STEP = {UnitSystem.METRIC: 100.0, UnitSystem.US: 4.0 * factor_of("volume", "fl oz")}
"""Steps in which dipping water is measured [ml]: common practice, no source."""
CUT_STEP = {UnitSystem.METRIC: 10.0, UnitSystem.US: 0.5 * factor_of("length", "in")}
"""Steps in which strips are cut to length [mm]: our own."""


def whole_steps(amount: float, step: float) -> float:
    """An amount rounded up to whole steps.

    Parameters
    ----------
    amount : >= 0
    step : the smallest amount that is told, > 0, in the same unit

    Source: arithmetic.

    >>> whole_steps(5430.0, 100.0), whole_steps(200.0, 100.0)
    (5500.0, 200.0)
    """
    return step * ceil(amount / step - 1e-9)
