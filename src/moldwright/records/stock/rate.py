"""How fast a material is used, how long what is left lasts, and how sure that is.

The uses of a week are taken as draws of one distribution of mean m and deviation s, known from n weeks. What h weeks to
come will use has the mean h m and the variance h s^2 + h^2 s^2 / n: what the weeks differ, and what the mean of so few
is off. At 90 % that is within t deviations, Student's for n - 1. Source: prediction interval for a sum of future draws,
common statistics (from memory); a normal stands in for the sum's distribution: rough where little is used seldom.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt

from moldwright.ranges import NINETY, Range

YEAR_WEEKS, RECENT_WEEKS = 52, 13
"""How far back a rate looks, and what counts as of late: a year and a quarter."""
FEWEST_WEEKS = 4
"""From so many weeks on a rate is told at all: our own."""


def student(freedom: int) -> float:
    """Deviations of a mean of few within which nine of ten lie: Student's t at 95 %.

    `z + (z^3 + z) / 4f + (5 z^5 + 16 z^3 + 3 z) / 96 f^2`, to 2 % from three degrees of freedom on.

    Parameters
    ----------
    freedom : degrees, >= 3.

    Source: Abramowitz and Stegun, 26.7.5 (from memory).
    """
    z = NINETY
    return z + (z**3 + z) / (4 * freedom) + (5 * z**5 + 16 * z**3 + 3 * z) / (96 * freedom**2)


@dataclass(frozen=True, slots=True)
class WeeklyUse:
    """What a week uses, in a lot's unit. `weeks`: from how many; `of_late`: the mean of the last 13, None where there
    are no more than these; `changed`: the last 13 are off what the weeks before foretold, and the rate is theirs."""

    weeks: int
    mean: float
    deviation: float
    of_late: float | None = None
    changed: bool = False


def use_of(weekly: Sequence[float]) -> WeeklyUse | None:
    """The rate by the uses of past weeks; None where there are too few weeks to tell one.

    Parameters
    ----------
    weekly : the use of each week, the last one last; of more than a year the last 52 count.

    Source: as above.
    """
    year = list(weekly)[-YEAR_WEEKS:]
    if len(year) < FEWEST_WEEKS:
        return None
    late, before = year[-RECENT_WEEKS:], year[:-RECENT_WEEKS]
    whole = _use(year)
    if len(before) < FEWEST_WEEKS:
        return whole
    foretold, found = used_in(_use(before), len(late)), fsum(late)
    of_late = found / len(late)
    if foretold.low <= found <= foretold.high:
        return WeeklyUse(whole.weeks, whole.mean, whole.deviation, of_late)
    recent = _use(late)
    return WeeklyUse(recent.weeks, recent.mean, recent.deviation, of_late, changed=True)


def _use(weekly: Sequence[float]) -> WeeklyUse:
    mean = fsum(weekly) / len(weekly)
    return WeeklyUse(len(weekly), mean, sqrt(fsum((each - mean) ** 2 for each in weekly) / (len(weekly) - 1)))


def used_in(use: WeeklyUse, weeks: float) -> Range:
    """What so many weeks to come will use; never less than nothing.

    Parameters
    ----------
    use : of a week.
    weeks : how many, >= 0.

    Source: as above.

    >>> used_in(WeeklyUse(4, 100.0, 0.0), 3.0)
    Range(low=300.0, likely=300.0, high=300.0)
    """
    spread = student(use.weeks - 1) * use.deviation * sqrt(weeks + weeks**2 / use.weeks)
    return Range(max(use.mean * weeks - spread, 0.0), use.mean * weeks, use.mean * weeks + spread)


@dataclass(frozen=True, slots=True)
class Lasts:
    """How many weeks a stock lasts; `high` None: for ever, as far as so little use tells."""

    low: float
    likely: float
    high: float | None


def lasting(use: WeeklyUse, left: float) -> Lasts | None:
    """How long a stock lasts: the weeks h that use it at 95 %, on the mean, and at 5 %; None where nothing is used.

    `h m -+ t s sqrt(h + h^2 / n) = left`, a quadratic in h of which the two times are the roots.

    Parameters
    ----------
    use : of a week.
    left : the stock, >= 0, in the same unit.

    Source: as above, solved for the time.

    >>> lasting(WeeklyUse(52, 100.0, 0.0), 650.0)
    Lasts(low=6.5, likely=6.5, high=6.5)
    """
    if use.mean <= 0.0:
        return None
    if left <= 0.0:
        return Lasts(0.0, 0.0, 0.0)
    wide = (student(use.weeks - 1) * use.deviation) ** 2
    a, b = use.mean**2 - wide / use.weeks, 2.0 * left * use.mean + wide
    root = sqrt(max(b * b - 4.0 * a * left**2, 0.0))
    return Lasts(2.0 * left**2 / (b + root), left / use.mean, (b + root) / (2.0 * a) if a > 0.0 else None)
