"""An original of which only the volume is known: what its area may be, and a plain body that stands in for it."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atanh, exp, hypot, log, pi, sqrt

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.ranges import Range, Spread
from moldwright.tape.solid import lofted

TALL, TALL_SHARE = 1.6, 0.45
"""Height over the diameter of the ball of the same volume, of sculptures, and half its range as a logarithm: measured
on the bodies of tests/tape_bodies.py (0.7 to 2.4)."""
FORMED, FORMED_SHARE = 1.52, 0.31
"""Area over that of the spheroid of that volume and height, and half its range: measured there too (1.16 to 2.19)."""
FOOT = 0.4
"""Radius of the stand-in's foot, over its largest: our own."""
SIDES, RINGS = 96, 48


@dataclass(frozen=True, slots=True, eq=False)
class OnlyVolume:
    """Volume and area at 90 %, and the body that stands in: `stand_in` has the likely volume and the height, no more.

    Nothing that hangs on its form may be read off it: no seam, no shell, no undercut, no fill.
    """

    volume_ml: Range
    area_cm2: Range
    height_mm: Range
    stand_in: Mesh

    @property
    def spread(self) -> Spread:
        """The ranges as factors on what is measured on the stand-in."""
        area = self.area_cm2 * (100.0 / self.stand_in.area_mm2)
        return Spread(self.volume_ml * (1.0 / self.volume_ml.likely), area, area * (1.0 / area.likely))


def only_volume(volume_ml: Range, height_mm: float | None = None) -> OnlyVolume:
    """What can be said of an original by its volume, and its height where that is known.

    Parameters
    ----------
    volume_ml : at 90 % [ml].
    height_mm : as it stands [mm]; None: as sculptures of its volume are tall.

    Source: no body has less area than the ball of its volume (isoperimetric inequality); how much more sculptures have:
    measured, see the constants.
    """
    ball_mm = (6000.0 * volume_ml.likely / pi) ** (1.0 / 3.0)
    tall = Range(*(ball_mm * TALL * exp(off) for off in (-TALL_SHARE, 0.0, TALL_SHARE)))
    height = tall if height_mm is None else Range.exactly(height_mm)
    return OnlyVolume(volume_ml, _area(volume_ml, height), height, _egg(volume_ml.likely * 1000.0, height.likely))


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


def _area(volume_ml: Range, height_mm: Range) -> Range:
    """Spheroid times what forms have more; doubts of volume, height and form add as squares, never below the ball."""
    likely = spheroid_area_cm2(volume_ml.likely, height_mm.likely) * FORMED
    by_volume = log(volume_ml.high / volume_ml.low) / 3.0
    tall, flat = (spheroid_area_cm2(volume_ml.likely, height) for height in (height_mm.high, height_mm.low))
    by_height = abs(log(tall / flat)) / 2.0
    off = hypot(FORMED_SHARE, by_volume, by_height)
    low = max(likely * exp(-off), least_area_cm2(volume_ml.low))
    return Range(min(low, likely), likely, likely * exp(off))


def _egg(volume_mm3: float, height_mm: float) -> Mesh:
    """A spheroid cut flat at its foot, of that height and volume: its radius at a height is what a circle has."""
    low = -sqrt(1.0 - FOOT**2)
    t = low + (1.0 - low) * (1.0 - np.cos(np.linspace(0.0, pi, RINGS))) / 2.0
    radius = np.sqrt(np.maximum(1.0 - t**2, 1e-6))
    angle = 2.0 * pi * np.arange(SIDES) / SIDES
    level = np.broadcast_to(((t - low) / (1.0 - low) * height_mm)[:, None], (RINGS, SIDES))
    points = np.stack([radius[:, None] * np.cos(angle), radius[:, None] * np.sin(angle), level], axis=2)
    plain = lofted(points)
    factor = sqrt(volume_mm3 / plain.volume_mm3)
    return Mesh(plain.vertices * [factor, factor, 1.0], plain.faces)
