"""Targets that a scale can show: every mass a whole number of the scale's steps."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise
from math import floor

from moldwright.errors import InputRefused


def steps_of(mass_g: float, step_g: float) -> int:
    """The nearest whole number of scale steps.

    Parameters
    ----------
    mass_g : mass [g], >= 0
    step_g : the scale's step [g], > 0

    Source: arithmetic.

    >>> steps_of(41.04, 0.1)
    410
    """
    if not step_g > 0:
        raise InputRefused("scale-step", step_g, "> 0", "g", "State the scale's step, for example 0.1 g.")
    return floor(mass_g / step_g + 0.5)


def grams(steps: int, step_g: float) -> float:
    """The mass of a whole number of steps, free of binary dust.

    Parameters
    ----------
    steps : number of scale steps
    step_g : the scale's step [g]

    Source: arithmetic.

    >>> grams(413, 0.1)
    41.3
    """
    return round(steps * step_g, 9)


def apportion(steps: int, weights: Sequence[float]) -> tuple[int, ...]:
    """Whole steps in proportion to `weights`, with nothing lost: the running total is rounded, the parts are its
    differences.

    `part_i = round(N c_i / c_n) - round(N c_(i-1) / c_n)`, c the cumulated weights. Each is within one step of exact.

    Parameters
    ----------
    steps : the whole N, >= 0
    weights : proportions, >= 0, with a positive sum

    Source: arithmetic (largest error of a rounded running total is half a step).

    >>> apportion(10, (1.0, 1.0, 1.0))
    (3, 4, 3)
    """
    totals = [0.0, *accumulate(weights)]
    if not (totals[-1] > 0 and min(weights) >= 0):
        raise InputRefused("mix-not-physical", totals[-1], "> 0", remedy="Give at least one part a positive share.")
    marks = [floor(steps * total / totals[-1] + 0.5) for total in totals[:-1]] + [steps]
    return tuple(after - before for before, after in pairwise(marks))
