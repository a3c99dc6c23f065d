"""Sources put together by Bayes' rule: every volume counts as well as it agrees with all that is said."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

import numpy as np
from scipy.special import ndtr

from moldwright.original.evidence.disagree import refuse_disagreement
from moldwright.original.evidence.witness import SURE_SHARE, Bound, Floats, Witness
from moldwright.plan.original import Source
from moldwright.ranges import NINETY, Range

STEPS = 4001
REACH = 5.0
"""Standard deviations about every source's likely value that volumes are looked at."""
LEAST_OWN = 0.3
"""Of an area's doubt that stays where the volume is known, at least: our own."""
SHARES = (0.05, 0.5, 0.95)


@dataclass(frozen=True, slots=True)
class Evidence:
    """What all sources together say, and each by itself, the first the one that gave the form."""

    volume_ml: Range
    area_cm2: Range | None
    said: tuple[Witness, ...]

    @property
    def sources(self) -> tuple[Source, ...]:
        """Who said something, each once."""
        return tuple(dict.fromkeys(witness.source for witness in self.said))


def together(witnesses: Sequence[Witness]) -> Evidence:
    """Volume and area by all sources; what is known to one alone stays as it says.

    Parameters
    ----------
    witnesses : one at least, one of them with a volume of both bounds.

    Raises InputRefused where two disagree past their ranges. Source: Bayes' rule, with even chances for every share of
    volume beforehand.
    """
    refuse_disagreement(witnesses)
    said = tuple(witnesses)
    if len(said) == 1:
        return Evidence(said[0].volume_ml, said[0].area_cm2, said)
    at = _volumes(said)
    weight = np.exp(_settled(sum((one.log_likelihood(at) for one in said), np.zeros_like(at))))
    weight /= weight.sum()
    low, likely, high = np.exp([_quantile(at, weight, share) for share in SHARES])
    return Evidence(Range(float(low), float(likely), float(high)), _area(said, at, weight), said)


def _settled(log_weight: Floats) -> Floats:
    settled: Floats = log_weight - log_weight.max()
    return settled


def _volumes(said: Sequence[Witness]) -> Floats:
    """Logarithms of all volumes that any source finds possible, in even steps finer than the surest one."""
    low = min(log(one.volume_ml.likely) - REACH * one.widths[0] for one in said)
    high = max(log(one.volume_ml.likely) + REACH * one.widths[1] for one in said)
    finest = min(min(one.widths) for one in said if one.bound is Bound.BOTH)
    return np.linspace(low, high, max(STEPS, int(20.0 * (high - low) / finest)))


def _quantile(at: Floats, weight: Floats, share: float) -> float:
    """The place below which that share of the weight lies, each step's weight spread over the step."""
    below = np.cumsum(weight) - weight / 2.0
    return float(np.interp(share, below, at))


def _area(said: Sequence[Witness], at: Floats, weight: Floats) -> Range | None:
    """Area of all that know one: each says it for every volume, and they are weighted by how sure they are."""
    known = [one for one in said if one.area_cm2 is not None]
    if not known:
        return None
    sure, mean = 0.0, np.zeros_like(at)
    for one in known:
        own = _own_width(one)
        area = one.area_cm2.likely if one.area_cm2 is not None else 1.0
        mean += (log(area) + one.area_slope * (at - log(one.volume_ml.likely))) / own**2
        sure += 1.0 / own**2
    mean, width = mean / sure, sure**-0.5
    low, likely, high = np.exp([_mixed_quantile(mean, width, weight, share) for share in SHARES])
    return Range(float(low), float(likely), float(high))


def _own_width(one: Witness) -> float:
    """Standard deviation of the area's logarithm once the volume is known."""
    if one.area_cm2 is None:
        raise TypeError("a source without an area")
    whole = max(log(one.area_cm2.high / one.area_cm2.low) / 2.0, SURE_SHARE) / NINETY
    by_volume = one.area_slope * sum(one.widths) / 2.0
    return float(np.sqrt(max(whole**2 - by_volume**2, (LEAST_OWN * whole) ** 2)))


def _mixed_quantile(mean: Floats, width: float, weight: Floats, share: float) -> float:
    """By halving, over the weighted sum of normals."""
    low, high = float(mean.min() - 6.0 * width), float(mean.max() + 6.0 * width)
    for _ in range(50):
        middle = (low + high) / 2.0
        below = float((weight * ndtr((middle - mean) / width)).sum())
        low, high = (middle, high) if below < share else (low, middle)
    return (low + high) / 2.0
