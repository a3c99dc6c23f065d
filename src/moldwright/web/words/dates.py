"""Days and hours as a reader of each language writes them: Unicode's CLDR, by Babel."""

from __future__ import annotations

from datetime import date, datetime

from babel.dates import format_date, format_time

from moldwright.words.speaker import speaker


def day_words(day: date | str) -> str:
    """A day within a sentence: its month in words.

    Parameters
    ----------
    day : it, or as it is kept, ISO 8601; what is none stays as it is.

    >>> day_words("2027-04-30"), day_words("soon")
    ('April 30, 2027', 'soon')
    """
    known = _day(day)
    return str(day) if known is None else format_date(known, "long", speaker().language)


def weekday_words(day: date) -> str:
    """A day as a page's title, with its weekday.

    Parameters
    ----------
    day : it.

    >>> weekday_words(date(2026, 3, 9))
    'Monday, March 9, 2026'
    """
    return format_date(day, "full", speaker().language)


def hour_words(at_ms: int) -> str:
    """What the shop's clock shows at a moment.

    Parameters
    ----------
    at_ms : milliseconds since 1970-01-01 UTC.
    """
    return format_time(datetime.fromtimestamp(at_ms / 1000), "short", locale=speaker().language)


def _day(day: date | str) -> date | None:
    if isinstance(day, date):
        return day
    try:
        return date.fromisoformat(day)
    except ValueError:
        return None
