"""When the next glove should be made: pure arithmetic on casts, numbers and days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from math import ceil, floor, sqrt

from moldwright.log.mold_events import MoldState
from moldwright.ranges import NINETY, Range

WINDOW_DAYS = 180
"""The pace is that of so many days back, or of all since the first cast; our own."""
SHORTEST_DAYS = 30
"""Fewer days tell no pace: a week's batch is not what a year goes on with; our own."""
FARTHEST_DAYS = 36_500
WORKING_DAYS = 5
"""Days of a week on which people work, from Monday."""


class GloveCall(StrEnum):
    """What to do about the next glove."""

    NOW = "begin the next glove now"
    BY = "begin the next glove by a day"
    NOT_NEEDED = "no other glove is needed"
    NO_PACE = "no day can be told"
    UNKNOWN = "nobody knows how many casts it gives"


class GloveWhy(StrEnum):
    """Why."""

    TORN = "it is torn"
    SPENT = "it is spent"
    RETIRED = "it is retired"
    DRAWN = "it has given as many casts as are expected of it"
    LEAD = "a glove takes longer than this one may last"
    LASTS = "it may be worn by then"
    OUTLASTS = "it outlasts the numbers that are left"
    OTHERS = "other molds last for the numbers that are left"
    NO_NUMBERS = "no number is left"
    NO_CASTS = "nothing was cast of it lately"
    NO_FIGURE = "neither rubber and cast nor the maker tell"


@dataclass(frozen=True, slots=True)
class GloveFacts:
    """What is known.

    Parameters
    ----------
    state, retired : how it was found, and whether it is out of use.
    lasts : casts that it gives in all, None where nobody knows.
    drawn : casts drawn so far.
    drawn_on : days of those in the log.
    wanted : numbers that are left in its editions, None where it is for none.
    others : casts that other molds of these editions give yet, at the least.
    lead_days : working days that a new mold takes, None where no plan tells.
    """

    state: MoldState
    retired: bool
    lasts: Range | None
    drawn: int
    drawn_on: tuple[date, ...]
    wanted: int | None
    lead_days: int | None
    others: float = 0.0


@dataclass(frozen=True, slots=True)
class WornOn:
    """When the casts that are left are drawn, at the pace of late: the earliest day, the likely, the latest."""

    earliest: date
    likely: date
    latest: date


@dataclass(frozen=True, slots=True)
class NextGlove:
    """What to do, and why; `left`: casts that it still gives; `pace`: casts in 30 days; `worn`: when they are drawn;
    `begin_by`: the last day to begin the next one, so that it is ready when the earliest comes."""

    call: GloveCall
    why: GloveWhy
    left: Range | None = None
    pace: Range | None = None
    worn: WornOn | None = None
    begin_by: date | None = None


def next_glove(facts: GloveFacts, today: date) -> NextGlove:
    """When the next glove should be made.

    Parameters
    ----------
    facts : what is known.
    today : the day to reckon from.
    """
    left = None if facts.lasts is None else _less(facts.lasts, facts.drawn)
    pace = pace_of(facts.drawn_on, today)
    settled = _without_days(facts, left)
    if settled is not None:
        return NextGlove(*settled, left, pace)
    assert left is not None
    if pace is None:
        return NextGlove(GloveCall.NO_PACE, GloveWhy.NO_CASTS, left)
    worn = _worn(left, pace, today)
    begin = None if facts.lead_days is None else working_days_before(worn.earliest, facts.lead_days)
    late = begin is not None and begin <= today
    call, why = (GloveCall.NOW, GloveWhy.LEAD) if late else (GloveCall.BY, GloveWhy.LASTS)
    return NextGlove(call, why, left, pace, worn, begin)


def _without_days(facts: GloveFacts, left: Range | None) -> tuple[GloveCall, GloveWhy] | None:
    """What is clear before any pace: condition goes before counting."""
    if facts.wanted is not None and facts.wanted <= facts.others:
        return GloveCall.NOT_NEEDED, GloveWhy.OTHERS if facts.wanted else GloveWhy.NO_NUMBERS
    bad = {MoldState.TORN: GloveWhy.TORN, MoldState.SPENT: GloveWhy.SPENT}.get(facts.state)
    bad = GloveWhy.RETIRED if facts.retired else bad
    if bad is not None:
        return GloveCall.NOW, bad
    if left is None:
        return GloveCall.UNKNOWN, GloveWhy.NO_FIGURE
    if facts.wanted is not None and left.low >= facts.wanted - facts.others:
        return GloveCall.NOT_NEEDED, GloveWhy.OUTLASTS
    return (GloveCall.NOW, GloveWhy.DRAWN) if left.likely <= 0 else None


def pace_of(drawn_on: Sequence[date], today: date) -> Range | None:
    """Casts in 30 days, as they came of late; None where none came.

    Parameters
    ----------
    drawn_on : days of all casts in the log.
    today : the last day that counts.

    Source: a count n of rare events has sqrt(n) within 1.645 / 2 nine times of ten (the square root steadies a
    Poisson count; Bartlett, J. R. Stat. Soc. Suppl. 3 (1936) 68, from memory).
    """
    past = [day for day in drawn_on if day <= today]
    days = max(SHORTEST_DAYS, min(WINDOW_DAYS, (today - min(past, default=today)).days + 1))
    count = sum((today - day).days < days for day in past)
    if not count:
        return None
    low, high = (max(0.0, sqrt(count) + side * NINETY / 2) ** 2 for side in (-1, 1))
    return Range(low, float(count), high) * (30.0 / days)


def working_days_before(day: date, count: int) -> date:
    """The day on which work of so many days begins that must be done on the evening before.

    Parameters
    ----------
    day : on which it is needed.
    count : working days, Monday to Friday.

    >>> working_days_before(date(2026, 6, 10), 3)
    datetime.date(2026, 6, 5)
    """
    while count > 0:
        day -= timedelta(1)
        count -= day.weekday() < WORKING_DAYS
    return day


def _less(lasts: Range, drawn: int) -> Range:
    return Range(*(max(0.0, each - drawn) for each in (lasts.low, lasts.likely, lasts.high)))


def _worn(left: Range, pace: Range, today: date) -> WornOn:
    """The fewest casts at the quickest pace, the likely at the likely, the most at the slowest."""
    pairs = ((left.low, pace.high, floor), (left.likely, pace.likely, floor), (left.high, pace.low, ceil))
    days = [min(FARTHEST_DAYS, whole(30.0 * casts / each)) for casts, each, whole in pairs]
    return WornOn(*(today + timedelta(each) for each in days))
