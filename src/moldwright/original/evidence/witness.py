"""What one source says of an original: volume, and area where it knows one, at 90 %."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import log

import numpy as np
from numpy.typing import NDArray

from moldwright.plan.original import Source
from moldwright.ranges import NINETY, Range

Floats = NDArray[np.float64]
SURE_SHARE = 0.002
"""Half of the narrowest range that anything is known to: our own."""
AREA_PER_VOLUME = 2.0 / 3.0
"""By how many percent the area grows for each percent of volume, of like forms."""


class Bound(StrEnum):
    """Whether a source tells the volume, or only what it is at least, or at most."""

    BOTH = "both"
    AT_LEAST = "at-least"
    AT_MOST = "at-most"


@dataclass(frozen=True, slots=True)
class Witness:
    """What one source says; a volume is distributed as a normal of its logarithm, with a width of its own on each side.

    `area_slope` : by how many percent its area grows for each percent of volume.
    """

    source: Source
    volume_ml: Range
    area_cm2: Range | None = None
    area_slope: float = AREA_PER_VOLUME
    bound: Bound = Bound.BOTH

    @property
    def widths(self) -> tuple[float, float]:
        """Standard deviations of the volume's logarithm, below and above the likely value."""
        below = max(log(self.volume_ml.likely / self.volume_ml.low), SURE_SHARE) / NINETY
        return below, max(log(self.volume_ml.high / self.volume_ml.likely), SURE_SHARE) / NINETY

    def log_likelihood(self, log_ml: Floats) -> Floats:
        """Logarithm of how well every volume agrees with what is said, 0 at best.

        Parameters
        ----------
        log_ml : (n) logarithms of volumes in ml.

        Source: two-piece normal; our own choice.
        """
        off = np.asarray(log_ml) - log(self.volume_ml.likely)
        below, above = self.widths
        low = -0.5 * (off / below) ** 2 if self.bound is not Bound.AT_MOST else np.zeros_like(off)
        high = -0.5 * (off / above) ** 2 if self.bound is not Bound.AT_LEAST else np.zeros_like(off)
        return np.where(off < 0.0, low, high)
