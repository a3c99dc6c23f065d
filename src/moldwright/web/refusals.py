"""A refusal in the reader's words: what was found, what is allowed, what to do and where."""

from __future__ import annotations

from moldwright.bench.cup_now import Refusal
from moldwright.errors import MoldwrightError, Value, spoken
from moldwright.web.ways import remedy_said, way_shown
from moldwright.web.words.named import in_page_words
from moldwright.words.speaker import say, with_mark


def said(error: MoldwrightError | Refusal) -> dict[str, str]:
    """What was found, what is allowed, what to do and where, in the reader's words.

    Parameters
    ----------
    error : what was refused.
    """
    unit = f" {say(error.unit)}" if error.unit else ""
    actual, limit, remedy = error.named if isinstance(error, MoldwrightError) else _told(error)
    wanted = "" if limit is None else f"{_spoken(limit)}{unit}"
    remedy = remedy_said(remedy, error.way)
    return {"found": f"{_spoken(actual)}{unit}", "wanted": wanted, "remedy": remedy} | _led(error)


def _told(refusal: Refusal) -> tuple[Value, Value, str]:
    return refusal.actual, refusal.limit, refusal.remedy


def _led(error: MoldwrightError | Refusal) -> dict[str, str]:
    """Where a remedy leads by a link: its words and its address."""
    way = way_shown(error.way)
    return {"way": way.words, "path": way.path} if way.path else {"way": "", "path": ""}


def _spoken(value: Value) -> str:
    return in_page_words(say(value)) if isinstance(value, str) else with_mark(spoken(value))
