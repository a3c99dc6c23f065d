"""Quantities as the sheets print them, and texts with only the signs that the shipped font has."""

from __future__ import annotations

from typing import Any

from moldwright.ranges import Range
from moldwright.units import show_duration, show_mass
from moldwright.units.system import UnitSystem

_SIGNS = {
    "\u202f": "\u00a0",
    "\u2009": "\u00a0",
    "→": "to",
    "☐": "",
    "′": "'",
    "″": '"',
    "⅓": "1/3",
    "⅛": "1/8",
    "µ": "µ",
}


def plain(value: Any) -> Any:
    """The same nested value with signs that the font lacks replaced in every text."""
    if isinstance(value, str):
        for sign, other in _SIGNS.items():
            value = value.replace(sign, other)
        return value
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    return value


def minutes(value_min: float) -> str:
    """Working time: minutes under two hours, else hours.

    >>> minutes(15), minutes(125)
    ('15 min', '2 h 05')
    """
    return f"{value_min:.0f} min" if value_min < 120 else show_duration(60 * value_min)


def wait_text(value: Range) -> str:
    """A wait with its bounds.

    >>> wait_text(Range(32, 40, 55)), wait_text(Range(110, 132, 160))
    ('40 min (32–55)', '2 h 12 (1 h 50–2 h 40)')
    """
    if value.low == value.high:
        return minutes(value.likely)
    if value.high < 120:
        return f"{value.likely:.0f} min ({value.low:.0f}–{value.high:.0f})"
    low, likely, high = (
        show_duration(60 * v) if v >= 60 else f"{v:.0f} min" for v in (value.low, value.likely, value.high)
    )
    return f"{likely} ({low}–{high})"


def mass_or_trace(mass_g: float, units: UnitSystem) -> str:
    """A mass, or "a trace" where all printed digits would be 0.

    >>> mass_or_trace(2.0, "metric"), mass_or_trace(0.004, "metric"), mass_or_trace(0.1, "us")
    ('2.00 g', 'a trace', 'a trace')
    """
    text = show_mass(mass_g, units)
    return "a trace" if reads_nothing(text) else text


def reads_nothing(printed: str) -> bool:
    """Whether a printed quantity has no digit but zeros.

    >>> reads_nothing("0.00 oz"), reads_nothing("0.04 oz")
    (True, False)
    """
    return not any(digit in printed for digit in "123456789")


def split_unit(text: str) -> tuple[str, str]:
    """A printed quantity as its number and its last unit.

    >>> split_unit("82.8 g"), split_unit("2 lb 1.5 oz")
    (('82.8', 'g'), ('2 lb 1.5', 'oz'))
    """
    number, _, unit = text.rpartition(" ")
    return number, unit
