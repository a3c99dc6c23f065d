"""How a stock goes down at the rate of now, week by week: for a drawing of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil, fsum

from moldwright.ranges import Range
from moldwright.records.stock.forecast import WEEK_DAYS, Outlook
from moldwright.records.stock.left import FINE
from moldwright.records.stock.rate import used_in

LEAST_WEEKS, MOST_WEEKS = 4, 52
"""How far a course goes at least and at most: our own."""


@dataclass(frozen=True, slots=True)
class StockThen:
    """What is there on a day, if nothing comes in; in the outlook's unit."""

    day: str
    left: Range


def course_of(outlook: Outlook, today: str) -> tuple[StockThen, ...]:
    """What of a material will be there in the weeks to come; nothing where no rate is known, or nothing
    will change.

    What expires before is gone; what is left then is `left - expired - used`, never less than nothing.

    Parameters
    ----------
    outlook : of the material.
    today : the shop's date, ISO 8601.

    Source: the rate of `rate.py`; arithmetic.
    """
    if outlook.use is None or not (outlook.use.mean or outlook.unused) or not outlook.left:
        return ()
    return tuple(_then(outlook, date.fromisoformat(today), week) for week in range(_weeks(outlook) + 1))


def _weeks(outlook: Outlook) -> int:
    """Till it is used up for sure, as far as that can be told."""
    lasts = outlook.lasts
    if lasts is None or lasts.high is None:
        return MOST_WEEKS
    return min(max(ceil(lasts.high), LEAST_WEEKS), MOST_WEEKS)


def _then(outlook: Outlook, today: date, week: int) -> StockThen:
    assert outlook.use is not None
    day = (today + timedelta(days=week * WEEK_DAYS)).isoformat()
    used = used_in(outlook.use, float(week))
    there = outlook.left - fsum(each.amount for each in outlook.unused if each.expires < day)
    left = (max(round(there - each, FINE), 0.0) for each in (used.high, used.likely, used.low))
    return StockThen(day, Range(*left))
