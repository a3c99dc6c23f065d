"""Quantities as the sheets print them, and texts with only the signs that the shipped font has."""

from __future__ import annotations

import re
from typing import Any

from moldwright.units import show_duration, show_mass
from moldwright.units.system import UnitSystem

FRACTION = re.compile(r"(?<=\d) (?=\d+/\d)")
"""Between the inches and their fraction, which no line may part."""
MINUTES_UNDER = 119.5
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
        value = FRACTION.sub("\u00a0", value)
        for sign, other in _SIGNS.items():
            value = value.replace(sign, other)
        return value
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    return value


def labor_text(labor_min: float) -> str:
    """Working time: minutes under two hours, else hours.

    >>> labor_text(15), labor_text(127)
    ('15 min', '2 h 05')
    """
    return f"{labor_min:.0f} min" if labor_min < MINUTES_UNDER else show_duration(60 * labor_min)


def mass_or_trace(mass_g: float, units: UnitSystem, scale_g: float) -> str:
    """A mass as fine as the scale shows it, or "a trace" where all printed digits would be 0.

    >>> mass_or_trace(2.0, "metric", 0.1), mass_or_trace(0.04, "metric", 0.1), mass_or_trace(0.1, "us", 1.0)
    ('2.0 g', 'a trace', 'a trace')
    """
    text = show_mass(mass_g, units, finest_g=scale_g)
    return "a trace" if reads_nothing(text) else text


def reads_nothing(printed: str) -> bool:
    """Whether a printed quantity has no digit but zeros.

    >>> reads_nothing("0.00 oz"), reads_nothing("0.04 oz")
    (True, False)
    """
    return not any(digit in printed for digit in "123456789")


def split_unit(text: str) -> tuple[str, str]:
    """A printed quantity as its number and its last unit.

    >>> split_unit("82.8 g"), split_unit("2 lb 1.5 oz"), split_unit("4.87 fl oz")
    (('82.8', 'g'), ('2 lb 1.5', 'oz'), ('4.87', 'fl oz'))
    """
    number, _, unit = text.rpartition(" ")
    return (number.removesuffix(" fl"), f"fl {unit}") if number.endswith(" fl") else (number, unit)
