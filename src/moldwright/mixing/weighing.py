"""What a scale can and cannot tell: the error of a mix ratio, and the smallest batch worth weighing.

A reading of a scale with step d is off by at most d/2 either way: a rectangular distribution, standard uncertainty
d / sqrt(12). A part is the difference of two readings: d / sqrt(6). Source: JCGM 100:2008, F.2.2.1 (from memory).
"""

from __future__ import annotations

from math import sqrt

from moldwright.errors import InputRefused

COVERAGE = 2.0
"""Coverage factor k of the stated tolerances (about 95 %)."""


def part_uncertainty_g(step_g: float) -> float:
    """Standard uncertainty of one weighed part: `d / sqrt(6)`.

    Parameters
    ----------
    step_g : the scale's step d [g], > 0

    Source: JCGM 100:2008, F.2.2.1 (from memory).

    >>> round(part_uncertainty_g(0.1), 4)
    0.0408
    """
    if not step_g > 0:
        raise InputRefused("scale-step", step_g, "> 0", "g", "State the scale's step, for example 0.1 g.")
    return step_g / sqrt(6.0)


def ratio_tolerance(step_g: float, a_g: float, b_g: float, running: bool = True) -> float:
    """Share by which the ratio of two parts may be off, at k = 2.

    `2 sqrt((u/mA)^2 + (u/mB)^2 [+ 2 (d^2/12) / (mA mB)])`; the last term where the two parts are read as one running
    total, because the reading between them serves both.

    Parameters
    ----------
    step_g : the scale's step d [g], > 0
    a_g : mass of one part [g], > 0
    b_g : mass of the other part [g], > 0
    running : read as a running total (True) or each part on a zeroed scale (False)

    Source: JCGM 100:2008, 5.2.2 and F.2.2.1 (from memory).

    >>> round(100 * ratio_tolerance(0.1, 20, 2, running=False), 2)
    4.1
    >>> round(100 * ratio_tolerance(0.1, 20, 2), 2)
    4.3
    """
    u = part_uncertainty_g(step_g)
    if not (a_g > 0 and b_g > 0):
        raise InputRefused("part-too-small", min(a_g, b_g), "> 0", "g", "Mix a larger batch or use a finer scale.")
    shared = step_g**2 / (6.0 * a_g * b_g) if running else 0.0
    return COVERAGE * sqrt((u / a_g) ** 2 + (u / b_g) ** 2 + shared)


def mass_tolerance(step_g: float, mass_g: float) -> float:
    """Share by which one weighed mass may be off, at k = 2: `2 d / (sqrt(6) m)`.

    Parameters
    ----------
    step_g : the scale's step d [g], > 0
    mass_g : the mass [g], > 0

    Source: JCGM 100:2008, F.2.2.1 (from memory).

    >>> round(mass_tolerance(0.1, 10.0), 5)
    0.00816
    """
    if not mass_g > 0:
        raise InputRefused("part-too-small", mass_g, "> 0", "g", "Mix a larger batch or use a finer scale.")
    return COVERAGE * part_uncertainty_g(step_g) / mass_g


def smallest_weighed_g(step_g: float, within: float) -> float:
    """The least mass of one part that the scale tells to a share of it, at k = 2: `2 d / (sqrt(6) w)`.

    Parameters
    ----------
    step_g : the scale's step d [g], > 0
    within : the share w, > 0

    Source: JCGM 100:2008, F.2.2.1 (from memory).

    >>> round(smallest_weighed_g(0.1, 0.1), 3)
    0.816
    """
    return mass_tolerance(step_g, 1.0) / within


def smallest_batch_g(step_g: float, ratio_weight: tuple[float, float], tolerance: float, running: bool = True) -> float:
    """The least A + B whose ratio the scale can hold within `tolerance`.

    The error of `ratio_tolerance` falls as 1/mass, so the least batch is the error of a 1 g batch over the tolerance.

    Parameters
    ----------
    step_g : the scale's step d [g], > 0
    ratio_weight : parts of A and of B by weight, > 0
    tolerance : allowed share of error of the ratio, > 0
    running : read as a running total (True) or each part on a zeroed scale (False)

    Source: JCGM 100:2008, F.2.2.1 (from memory).

    >>> round(smallest_batch_g(0.1, (10, 1), 0.02), 1)
    47.3
    """
    if not tolerance > 0:
        raise InputRefused("tolerance", tolerance, "> 0", "", "State by how much the ratio may be off.")
    whole = sum(ratio_weight)
    return ratio_tolerance(step_g, ratio_weight[0] / whole, ratio_weight[1] / whole, running) / tolerance
