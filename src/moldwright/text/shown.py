"""A value from a stranger's file in a few words, however large it is."""

from __future__ import annotations

import math
from typing import Any

LARGEST_PRINTED = 10**15
_KINDS: tuple[tuple[type, str], ...] = (
    (bool, "true or false"),
    (str, "text"),
    (int, "a whole number"),
    (float, "a number"),
    (list, "a list"),
    (dict, "a table"),
)


def shown(value: Any, most: int = 60) -> str:
    """The value as it may stand in a refusal: text in quotes and cut, numbers as one reads them.

    Parameters
    ----------
    value : what TOML gave.
    most : characters of a text that are shown.

    >>> shown("4 mm"), shown(10**5000), shown([1, 2])
    ('"4 mm"', 'a whole number beyond 10^15', 'a list of 2')
    """
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f'"{short(value, most)}"'
    if isinstance(value, int):
        return str(value) if abs(value) <= LARGEST_PRINTED else f"a whole number {_side(value)}10^15"
    if isinstance(value, float):
        return number(value)
    if isinstance(value, list):
        return f"a list of {len(value)}"
    return "a table" if isinstance(value, dict) else short(str(value), most)


def kind_of(value: Any) -> str:
    """What kind of value TOML gave, in words.

    Parameters
    ----------
    value : what TOML gave.

    >>> kind_of(True), kind_of(3.5)
    ('true or false', 'a number')
    """
    return next((words for kind, words in _KINDS if isinstance(value, kind)), "a date or time")


def number(value: float) -> str:
    """A number as one reads it: four decimals at most, two figures at least, never an exponent.

    Parameters
    ----------
    value : any number; one past 10^15 is told as such.

    >>> number(0.30000000000000004), number(160.0), number(0.0000213), number(1e300)
    ('0.3', '160', '0.000021', 'a number beyond 10^15')
    """
    if not math.isfinite(value) or abs(value) > LARGEST_PRINTED:
        return str(value) if isinstance(value, float) and not math.isfinite(value) else f"a number {_side(value)}10^15"
    least = 0 if value == 0 else math.floor(math.log10(abs(value)))
    text = f"{value:.{max(4, 1 - least)}f}" if abs(value) < 10_000 else f"{value:.0f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def short(text: str, most: int = 60) -> str:
    """The text, cut with an ellipsis where it is longer than `most` characters.

    Parameters
    ----------
    text : what was written.
    most : the most characters.

    >>> short("abcdef", 4)
    'abc…'
    """
    return text if len(text) <= most else f"{text[: most - 1]}…"


def _side(value: float) -> str:
    return "beyond " if value > 0 else "below -"
