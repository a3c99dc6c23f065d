"""What goes into two halves of a shell: whole steps each, together exactly the whole."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from moldwright.units.system import UnitSystem
from moldwright.units.tables import factor_of

MASS_STEP = {UnitSystem.METRIC: 10.0, UnitSystem.US: factor_of("mass", "oz")}
"""Steps in which the weight of a shell is told [g]: no more is known; our own."""
WATER_STEP = {UnitSystem.METRIC: 100.0, UnitSystem.US: 4.0 * factor_of("volume", "fl oz")}
"""Steps in which dipping water is measured [ml]: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Halves:
    """The share of the half that is laid first (half 2), and of the one laid last (half 1), at most one step less where
    no lap comes on top of it."""

    first: float
    last: float

    @property
    def whole(self) -> float:
        """Both together."""
        return self.first + self.last


def halves(whole: float, step: float = 1.0, lap_share: float = 0.0) -> Halves:
    """Split in two, in whole steps; the whole is rounded up to them first.

    Parameters
    ----------
    whole : what both halves take, >= 0
    step : the smallest amount that is told, > 0, in the same unit
    lap_share : share of the whole that only the half laid last takes, for its lap over the other, 0 to 1

    Source: arithmetic.

    >>> halves(27), halves(5430.0, 100.0)
    (Halves(first=14.0, last=13.0), Halves(first=2800.0, last=2700.0))
    >>> halves(27, lap_share=0.1)
    Halves(first=13.0, last=14.0)
    """
    steps = ceil(whole / step - 1e-9)
    first = ceil(steps * (1.0 - lap_share) / 2.0 - 1e-9)
    return Halves(step * first, step * (steps - first))
