"""Girth, breadth and depth that contradict each other, and the smallest change of one of them that mends it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from moldwright.tape.doubts import ReadDoubt

DIGIT_MM = 0.1
"""What a change is rounded to, on the side that mends."""


@dataclass(frozen=True, slots=True)
class Mend:
    """A change: the measure's key, what was read and what mends it [mm]."""

    key: str
    read_mm: float
    mended_mm: float

    @property
    def share(self) -> float:
        """How large the change is beside what was read.

        >>> Mend("girth", 400.0, 380.0).share
        0.05
        """
        return abs(self.mended_mm - self.read_mm) / self.read_mm


@dataclass(frozen=True, slots=True)
class Clash:
    """A contradiction: whether the girth is too long, its bound [mm], and the smallest change that mends it."""

    too_long: bool
    bound_mm: float
    mend: Mend


def clash(girth_mm: float, breadth_mm: float, depth_mm: float, reading: ReadDoubt) -> Clash | None:
    """How three measures of one level contradict each other past the doubt of reading; None where they do not.

    Parameters
    ----------
    girth_mm, breadth_mm, depth_mm : what was read [mm], > 0.
    reading : how well a person reads.

    Source: a line round a section that touches all four sides of its box is 2 sqrt(b^2 + d^2) long at least, and a
    convex one 2 (b + d) at most.
    """
    caliper = math.hypot(*(reading.caliper_mm + reading.caliper_share * v for v in (breadth_mm, depth_mm)))
    slack = math.hypot(reading.girth_mm + reading.girth_share * girth_mm, 2.0 * caliper)
    least, most = 2.0 * math.hypot(breadth_mm, depth_mm), 2.0 * (breadth_mm + depth_mm)
    if girth_mm > most + slack:
        return Clash(True, most, _too_long(girth_mm, breadth_mm, depth_mm))
    if girth_mm < least - slack:
        return Clash(False, least, _too_short(girth_mm, breadth_mm, depth_mm))
    return None


def _too_long(girth: float, breadth: float, depth: float) -> Mend:
    half = girth / 2.0
    return _smallest(
        Mend("girth", girth, _down(2.0 * (breadth + depth))),
        Mend("breadth", breadth, _up(half - depth)),
        Mend("depth", depth, _up(half - breadth)),
    )


def _too_short(girth: float, breadth: float, depth: float) -> Mend:
    """Breadth or depth can mend it only where the other one alone is not too long already."""
    half = girth / 2.0
    mends = [Mend("girth", girth, _up(2.0 * math.hypot(breadth, depth)))]
    for key, read, other in (("breadth", breadth, depth), ("depth", depth, breadth)):
        if half > other:
            mended = _down(math.sqrt(half**2 - other**2))
            mends += [Mend(key, read, mended)] if mended > 0.0 else []
    return _smallest(*mends)


def _smallest(*mends: Mend) -> Mend:
    return min(mends, key=lambda mend: mend.share)


def _up(value_mm: float) -> float:
    return round(math.ceil(value_mm / DIGIT_MM - 1e-9) * DIGIT_MM, 6)


def _down(value_mm: float) -> float:
    return round(math.floor(value_mm / DIGIT_MM + 1e-9) * DIGIT_MM, 6)
