"""Syringes: small liquid parts by volume, to a mark."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt


@dataclass(frozen=True, slots=True)
class Syringe:
    """One of the usual sizes: what it holds and the step of its marks [ml]."""

    size_ml: float
    step_ml: float


SYRINGES = (Syringe(1.0, 0.01), Syringe(3.0, 0.1), Syringe(10.0, 0.2), Syringe(20.0, 1.0), Syringe(50.0, 1.0))
"""The usual ones, smallest first: common practice, no source."""


def part_uncertainty_ml(syringe: Syringe) -> float:
    """Standard uncertainty of what is drawn to a mark: `d / sqrt(12)`, one reading off by d/2 at most either way.

    Parameters
    ----------
    syringe : which one

    Source: JCGM 100:2008, F.2.2.1 (from memory).

    >>> round(part_uncertainty_ml(Syringe(10.0, 0.2)), 4)
    0.0577
    """
    return syringe.step_ml / sqrt(12.0)


def that_hold(volume_ml: float) -> Iterable[Syringe]:
    """The usual syringes that hold this volume, smallest first.

    Parameters
    ----------
    volume_ml : what is drawn [ml]

    Source: common practice, no source.

    >>> [syringe.size_ml for syringe in that_hold(12.0)]
    [20.0, 50.0]
    """
    return (syringe for syringe in SYRINGES if volume_ml <= syringe.size_ml + 1e-9)
