"""A refusal in the reader's words: what was found, what is allowed, what to do and where."""

from __future__ import annotations

from moldwright.bench.cup_now import Refusal
from moldwright.errors import MoldwrightError, Value
from moldwright.found_at import FoundAt
from moldwright.web.ways import remedy_said, way_shown
from moldwright.web.words.marked import Words, words
from moldwright.web.words.named import in_page_words
from moldwright.words.speaker import say, speaker

PLACES: dict[str, Words] = {
    "front": words("At the front, %(height)s over the board, %(across)s across"),
    "right": words("On the right, %(height)s over the board, %(across)s across"),
    "back": words("At the back, %(height)s over the board, %(across)s across"),
    "left": words("On the left, %(height)s over the board, %(across)s across"),
    "": words("In the middle, %(height)s over the board, %(across)s across"),
}

WORDED = (words("times its length"), words("holes"))
"""Units of refusals that are words."""


def said(error: MoldwrightError | Refusal) -> dict[str, str]:
    """What was found, what is allowed, what to do and where, in the reader's words.

    Parameters
    ----------
    error : what was refused.
    """
    actual, limit, remedy = error.named if isinstance(error, MoldwrightError) else _told(error)
    found, wanted = _figures(actual, limit, error.unit)
    place = place_said(error.place) if isinstance(error, MoldwrightError) and error.place else ""
    told = {"found": found, "wanted": wanted, "place": place, "remedy": remedy_said(remedy, error.way), "picture": ""}
    return told | _led(error)


def place_said(place: FoundAt) -> str:
    """Where on the piece something was found.

    Parameters
    ----------
    place : there.
    """
    height, across = (speaker().measured((value,), "mm")[0] for value in (place.height_mm, place.across_mm))
    return say(PLACES[place.side]) % {"height": height, "across": across}


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
