"""An original of which only the volume is known: what its height and its area may be."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atanh, exp, hypot, log, pi, sqrt

from moldwright.ranges import Range

TALL, TALL_SHARE = 1.6, 0.45
"""Height over the diameter of the ball of the same volume, of sculptures, and half its range as a logarithm: measured
on the bodies of tests/tape_bodies.py (0.7 to 2.4)."""
FORMED, FORMED_SHARE = 1.52, 0.34
"""Area over that of the plain body of that volume, and half its range: measured there too (1.09 to 2.07)."""


@dataclass(frozen=True, slots=True)
class OnlyVolume:
    """Volume, area and height at 90 %: all that can be said where no form is known."""

    volume_ml: Range
    area_cm2: Range
    height_mm: Range

    @property
    def ball_mm(self) -> float:
        """Diameter of the ball of the likely volume [mm]."""
        return ball_mm(self.volume_ml.likely)


def only_volume(volume_ml: Range, height_mm: float | None = None) -> OnlyVolume:
    """What can be said of an original by its volume, and its height where that is known.

    Parameters
    ----------
    volume_ml : at 90 % [ml].
    height_mm : as it stands [mm]; None: as sculptures of its volume are tall.

    Source: no body has less area than the ball of its volume (isoperimetric inequality); how much more sculptures have:
    measured, see the constants.
    """
    ball = ball_mm(volume_ml.likely)
    tall = Range(*(ball * TALL * exp(off) for off in (-TALL_SHARE, 0.0, TALL_SHARE)))
    height = tall if height_mm is None else Range.exactly(height_mm)
    return OnlyVolume(volume_ml, _area(volume_ml, height), height)


def ball_mm(volume_ml: float) -> float:
    """Diameter of the ball of that volume [mm].

    Parameters
    ----------
    volume_ml : above 0 [ml].

    >>> round(ball_mm(pi / 6.0), 6)
    10.0

    Source: d = (6 V / pi)^(1/3).
    """
    return float((6000.0 * volume_ml / pi) ** (1.0 / 3.0))


def least_area_cm2(volume_ml: float) -> float:
    """The area of the ball of that volume: no body has less [cm2].

    Parameters
    ----------
    volume_ml : above 0 [ml].

    >>> round(least_area_cm2(4.0 / 3.0 * pi), 4) == round(4.0 * pi, 4)
    True

    Source: isoperimetric inequality, A^3 >= 36 pi V^2.
    """
    return float((36.0 * pi * volume_ml**2) ** (1.0 / 3.0))


def spheroid_area_cm2(volume_ml: float, height_mm: float) -> float:
    """The area of the spheroid of that volume that stands so high [cm2].

    Parameters
    ----------
    volume_ml, height_mm : above 0 [ml], [mm].

    Source: areas of prolate and oblate spheroids, closed forms; from memory.
    """
    c = height_mm / 20.0
    a = sqrt(3.0 * volume_ml / (4.0 * pi * c))
    if abs(a / c - 1.0) < 1e-6:
        return 4.0 * pi * a * a
    if c > a:
        e = sqrt(1.0 - (a / c) ** 2)
        return 2.0 * pi * a * a * (1.0 + c / (a * e) * asin(e))
    e = sqrt(1.0 - (c / a) ** 2)
    return 2.0 * pi * a * a * (1.0 + (1.0 - e * e) / e * atanh(e))


def plain_area_cm2(volume_ml: float, height_mm: float) -> float:
    """The area of a plain body of that volume: the spheroid as tall as sculptures are, or taller where it is [cm2].

    Parameters
    ----------
    volume_ml, height_mm : above 0 [ml], [mm].

    A lower height tells nothing: what lies is as folded as what stands, as measured. Source: our own.
    """
    return spheroid_area_cm2(volume_ml, max(height_mm, TALL * ball_mm(volume_ml)))


def _area(volume_ml: Range, height_mm: Range) -> Range:
    """The plain body's times what forms have more; doubts of volume and form add as squares, never below the ball."""
    likely = plain_area_cm2(volume_ml.likely, height_mm.likely) * FORMED
    off = hypot(FORMED_SHARE, log(volume_ml.high / volume_ml.low) / 3.0)
    low = max(likely * exp(-off), least_area_cm2(volume_ml.low))
    return Range(min(low, likely), likely, likely * exp(off))
