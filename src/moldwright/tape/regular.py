"""How regular a stack is: a turned or built form fills its girth, a modeled one does not."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from moldwright.ranges import NINETY
from moldwright.tape import section
from moldwright.tape.doubts import ReadDoubt
from moldwright.tape.section import Floats
from moldwright.tape.told import TapeLevel

FEWEST = 3
"""Levels with calipers from which their agreement tells something; one more girth than a quadric has figures, twice."""
FEWEST_GIRTHS = 6
GIRTHS_ALONE = 0.75
"""How regular a stack may count by its girths alone, which no hollow changes much."""
SURE, UNSURE = 2.0, 4.0
"""Mean squared misfit, in standard deviations of the readings, up to which a form is regular, and from which it is not:
our own."""
FLOOR = 0.012
"""Share by which a regular form may be otherwise."""


def regularity(levels: Sequence[TapeLevel], reading: ReadDoubt) -> float:
    """From 0, modeled, to 1, regular as far as its readings can tell.

    Where calipers were used: whether all sections have one proportion and one squareness. Else whether the squares of
    the girths lie on a parabola over the height, as those of cylinder, cone and ellipsoid do.

    Parameters
    ----------
    levels : of one stack, tips left out.
    reading : how well a person reads.

    Source: our own.
    """
    told = [level for level in levels if level.breadth_mm is not None and level.depth_mm is not None]
    if len(told) >= FEWEST and 2 * len(told) >= len(levels):
        return _share(_of_sections(told, reading))
    return GIRTHS_ALONE * _share(_of_girths(levels, reading)) if len(levels) >= FEWEST_GIRTHS else 0.0


def _share(misfit: float) -> float:
    return float(np.clip((UNSURE - misfit) / (UNSURE - SURE), 0.0, 1.0))


def _of_sections(levels: Sequence[TapeLevel], reading: ReadDoubt) -> float:
    girth, wide, deep = (
        np.array(values)
        for values in zip(*((v.girth_mm, v.breadth_mm or 0.0, v.depth_mm or 0.0) for v in levels), strict=True)
    )
    caliper = (reading.caliper_mm + reading.caliper_share * np.minimum(wide, deep)) / NINETY / np.minimum(wide, deep)
    slim_sd = np.hypot(caliper * np.sqrt(2.0), FLOOR)
    slim = np.log(deep / wide)
    least, most = section.girth_bounds(wide, deep)
    full = (girth - least) / (most - least)
    girth_sd = np.hypot((reading.girth_mm + reading.girth_share * girth) / NINETY, FLOOR * girth)
    box_sd = caliper * girth
    full_sd = np.hypot(girth_sd, box_sd) / (most - least)
    return (_scatter(slim, slim_sd) + _scatter(full, full_sd)) / 2.0


def _of_girths(levels: Sequence[TapeLevel], reading: ReadDoubt) -> float:
    at, girth = (np.array(values) for values in zip(*((v.at_mm, v.girth_mm) for v in levels), strict=True))
    slope = np.abs(np.gradient(girth, at))
    off = np.hypot(reading.girth_mm + reading.girth_share * girth, reading.at_mm * slope) / NINETY
    sd = 2.0 * girth * np.hypot(off, FLOOR * girth)
    t = (at - at.mean()) / np.ptp(at)
    fit = np.polyval(np.polyfit(t, girth**2, 2, w=1.0 / sd), t)
    return float((((girth**2 - fit) / sd) ** 2).sum() / (len(levels) - 3))


def _scatter(values: Floats, sd: Floats) -> float:
    """Mean squared misfit to their common value, in standard deviations, for the figure that is fitted."""
    weight = 1.0 / sd**2
    mean = (weight * values).sum() / weight.sum()
    return float((weight * (values - mean) ** 2).sum() / (len(values) - 1))
