"""What somebody typed for the records: one line without anything that steers, a day, a share."""

from __future__ import annotations

from datetime import date, datetime

from moldwright.errors import InputRefused
from moldwright.text.harmless import is_line
from moldwright.text.shown import short

LONGEST = 200
"""Characters of a name, a note or a reason; our own."""


def line_told(text: str, what: str, may_lack: bool = False, longest: int = LONGEST) -> str:
    """The text without blanks around it; refused where it is no line.

    Parameters
    ----------
    text : as it was typed.
    what : what it should be, as a person calls it ("a name").
    may_lack : nothing is as good.
    longest : the most characters.

    Raises InputRefused ("text-unusable").

    >>> line_told(" otter ", "a name")
    'otter'
    """
    line = text.strip()
    if (line or not may_lack) and not is_line(line, longest):
        remedy = f"Write {what} as one line of at most {longest} characters."
        raise InputRefused("text-unusable", short(line) or "nothing", what, "", remedy)
    return line


def day_told(text: str, today: date) -> str:
    """A day as its ISO 8601 date; of nothing today's.

    Parameters
    ----------
    text : as it was typed.
    today : of whoever types.

    Raises InputRefused ("day-unclear").

    >>> day_told("", date(2026, 3, 1)), day_told(" 2025-12-31", date(2026, 3, 1))
    ('2026-03-01', '2025-12-31')

    Source: ISO 8601-1:2019, calendar date in extended format.
    """
    if not text.strip():
        return today.isoformat()
    try:
        return date.fromisoformat(text.strip()).isoformat()
    except ValueError:
        remedy = "Write it as year-month-day, such as 2026-03-31."
        raise InputRefused("day-unclear", short(text), "a day", "", remedy) from None


def day_of(at_ms: int) -> date:
    """The day of a time where this machine stands.

    Parameters
    ----------
    at_ms : milliseconds since 1970-01-01 UTC.
    """
    return datetime.fromtimestamp(at_ms / 1000).date()
