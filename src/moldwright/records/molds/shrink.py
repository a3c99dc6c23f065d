"""How much smaller the casts of a mold are than the original, with the spread that the next one may have: pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import fmean, stdev

from moldwright.ranges import NINETY, Range

MOST_PCT = 20.0
"""More than any material of the trade shrinks, or swells: such a height was not measured as the plan's is; the bound of
the materials' sheets."""
T95 = (
    6.314, 2.920, 2.353, 2.132, 2.015, 1.943, 1.895, 1.860, 1.833, 1.812, 1.796, 1.782, 1.771, 1.761, 1.753, 1.746,
    1.740, 1.734, 1.729, 1.725, 1.721, 1.717, 1.714, 1.711, 1.708, 1.706, 1.703, 1.701, 1.699, 1.697,
)  # fmt: skip
"""Student's t that 95 of 100 stay below, for 1 to 30 degrees of freedom."""


@dataclass(frozen=True, slots=True)
class MoldShrink:
    """What was measured: `likely_pct` the mean of `count`; `next_pct` where nine of ten further casts lie, None for one
    alone, which tells no spread; `left_out`: so many that cannot be a shrink."""

    count: int
    likely_pct: float
    next_pct: Range | None
    left_out: int = 0


def shrink_pct(height_mm: float, original_mm: float) -> float:
    """By how much a cast is smaller than its original [%].

    Parameters
    ----------
    height_mm, original_mm : the same height on both [mm].

    >>> round(shrink_pct(199.0, 200.0), 6)
    0.5
    """
    return 100.0 * (1.0 - height_mm / original_mm)


def measured_shrink(told_pct: Sequence[float]) -> MoldShrink | None:
    """The mean of what was measured, and where the next cast will lie; None where nothing was.

    Parameters
    ----------
    told_pct : of each cast [%].

    Source: mean ± t s sqrt(1 + 1/n) for one further value of a normal; Student's t: NIST/SEMATECH e-Handbook of
    Statistical Methods, 1.3.6.7.2, from memory.
    """
    kept = [each for each in told_pct if abs(each) <= MOST_PCT]
    if not kept:
        return None
    likely, count = fmean(kept), len(kept)
    if count == 1:
        return MoldShrink(1, likely, None, len(told_pct) - 1)
    half = _t95(count - 1) * stdev(kept) * sqrt(1.0 + 1.0 / count)
    return MoldShrink(count, likely, Range(likely - half, likely, likely + half), len(told_pct) - count)


def _t95(freedom: int) -> float:
    return T95[freedom - 1] if freedom <= len(T95) else NINETY
