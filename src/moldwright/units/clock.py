"""Seconds -> what people read: as fine as a hand can keep it, minutes up to two hours, hours, then days."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from moldwright.ranges import Range
from moldwright.units.digits import number, places, range_places, trimmed
from moldwright.words.marked import words
from moldwright.words.speaker import say, say_count

MINUTE_S, HOUR_S, DAY_S = 60.0, 3600.0, 86400.0


@dataclass(frozen=True, slots=True)
class _Style:
    """How durations below `under_s` are told: in steps of `step_s`, in words by `say`; with bounds, all in one unit, or
    as hours and minutes (`clock`)."""

    under_s: float
    step_s: float
    say: Callable[[float], str]
    unit_s: float
    unit: str
    clock: bool = False


def _clock(seconds: float) -> str:
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02d}"


def _hours(seconds: float) -> str:
    minutes = round(seconds / MINUTE_S)
    return f"{minutes // 60} h {minutes % 60:02d}"


def _days(seconds: float) -> str:
    days = round(seconds / DAY_S)
    return say_count("{days} day", "{days} days", days, days=days)


STYLES = (
    _Style(2 * MINUTE_S, 1.0, _clock, 1.0, "s"),
    _Style(10 * MINUTE_S, 5.0, _clock, MINUTE_S, "min"),
    _Style(2 * HOUR_S, MINUTE_S, lambda s: f"{round(s / MINUTE_S)} min", MINUTE_S, "min"),
    _Style(10 * HOUR_S, 5 * MINUTE_S, _hours, HOUR_S, "h", clock=True),
    _Style(2 * DAY_S, HOUR_S, lambda s: f"{round(s / HOUR_S)} h", HOUR_S, "h"),
    _Style(math.inf, DAY_S, _days, DAY_S, words("days")),
)
"""From short to long; steps are our own rule: what a timer, a watch and a calendar show."""
FINE_UNDER = 10.0
"""Under so many of its unit a time with bounds keeps a decimal, where they allow it: our own rule."""


def show_duration(duration_s: float) -> str:
    """A time: minutes and seconds under ten minutes, then minutes, from two hours up hours, then days.

    Parameters
    ----------
    duration_s : time [s].

    >>> show_duration(250), show_duration(2234), show_duration(7800), show_duration(62000), show_duration(263000)
    ('4:10', '37 min', '2 h 10', '17 h', '3 days')
    """
    return _said(duration_s, round)


def show_deadline(duration_s: float) -> str:
    """A time by which something must be done: never later than it is.

    Parameters
    ----------
    duration_s : time [s].

    >>> show_deadline(254.9), show_deadline(2278.0)
    ('4:10', '37 min')
    """
    return _said(duration_s, math.floor)


def show_durations(value: Range) -> str:
    """A time with its bounds, the likely one first, as fine as the bounds allow: "17 h (13–26)".

    Parameters
    ----------
    value : times [s].

    >>> show_durations(Range(46800.0, 62600.0, 93600.0)), show_durations(Range(143.0, 197.0, 267.0))
    ('17 h (13–26)', '3.3 min (2.4–4.5)')
    """
    if value.low == value.high:
        return show_duration(value.likely)
    style = _style(value.likely, round)
    if style.clock:
        low, high = (_watch(bound, style.step_s) for bound in (value.low, value.high))
        return f"{show_duration(value.likely)} ({low}–{high})"
    shown = value * (1.0 / style.unit_s)
    likely, bounds = range_places(shown, 1 if shown.likely < FINE_UNDER else 0)
    told = f"{trimmed(number(shown.likely, max(likely, 0)))} {say(style.unit)}"
    return f"{told} ({_bound(shown.low, bounds)}–{_bound(shown.high, bounds)})"


def _watch(bound_s: float, step_s: float) -> str:
    """A bound of a time that is told in hours and minutes."""
    return _hours(round(bound_s / step_s) * step_s) if HOUR_S <= bound_s < 10 * HOUR_S else show_duration(bound_s)


def _said(duration_s: float, rounded: Callable[[float], int]) -> str:
    size = abs(duration_s)
    style = _style(size, rounded)
    shown = rounded(size / style.step_s + 1e-9) * style.step_s
    return f"{'−' if duration_s < 0 and shown > 0 else ''}{style.say(shown)}"


def _style(duration_s: float, rounded: Callable[[float], int]) -> _Style:
    """The first style in which the rounded time stays under its limit."""
    size = abs(duration_s)
    return next(s for s in STYLES if rounded(size / s.step_s + 1e-9) * s.step_s < s.under_s)


def _bound(value: float, decimals: int) -> str:
    """A bound as a bare number; what would read 0 keeps a figure."""
    return trimmed(number(value, max(decimals, 0) if value >= 1 or decimals > 0 else min(places(value, 1), 2)))
