"""A refusal in the reader's words: what was found, what is allowed, what to do and where."""

from __future__ import annotations

from moldwright.bench.cup_now import Refusal
from moldwright.errors import MoldwrightError, Value
from moldwright.web.ways import remedy_said, way_shown
from moldwright.web.words.named import in_page_words
from moldwright.words.speaker import say, speaker


def said(error: MoldwrightError | Refusal) -> dict[str, str]:
    """What was found, what is allowed, what to do and where, in the reader's words.

    Parameters
    ----------
    error : what was refused.
    """
    actual, limit, remedy = error.named if isinstance(error, MoldwrightError) else _told(error)
    found, wanted = _figures(actual, limit, error.unit)
    return {"found": found, "wanted": wanted, "remedy": remedy_said(remedy, error.way)} | _led(error)


def _figures(actual: Value, limit: Value, unit: str) -> tuple[str, str]:
    """What was found and what is allowed. Numbers are told together: two that differ never read alike."""
    numbers = [float(value) for value in (actual, limit) if isinstance(value, int | float)]
    told = iter(speaker().measured(numbers, unit))

    def one(value: Value) -> str:
        if value is None:
            return ""
        if isinstance(value, str):
            return f"{in_page_words(value)} {say(unit) if unit else ''}".rstrip()
        return next(told)

    return one(actual), one(limit)


def _told(refusal: Refusal) -> tuple[Value, Value, str]:
    return refusal.actual, refusal.limit, refusal.remedy


def _led(error: MoldwrightError | Refusal) -> dict[str, str]:
    """Where a remedy leads by a link: its words and its address."""
    way = way_shown(error.way)
    return {"way": way.words, "path": way.path} if way.path else {"way": "", "path": ""}
