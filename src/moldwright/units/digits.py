"""How fine a quantity is printed: the one rule of the whole product, by what is known of it."""

from __future__ import annotations

import math

from moldwright.ranges import Range
from moldwright.words.speaker import with_mark

FIGURES, WIDE_FIGURES = 3, 2
"""Figures of a number, and of one that is known to no better than `WIDE`: our own rule."""
FINEST_PLACES = 2
"""No quantity is told finer than a hundredth of its unit, if nothing says more: our own rule."""
WIDE = 0.2
"""From this width on, as a share of the likely value, a range is wide: our own rule."""


def places(size: float, figures: int) -> int:
    """Decimals that leave so many figures of a number; below zero for tens and hundreds.

    Parameters
    ----------
    size : the number; 0 has no decimals.
    figures : at least 1.

    >>> places(4.237, 3), places(99.96, 3), places(434.2, 2), places(0.0, 3)
    (2, 0, -1, 0)
    """
    if size == 0 or not math.isfinite(size):
        return 0
    rounded = abs(float(f"{size:.{figures - 1}e}"))
    return figures - 1 - math.floor(math.log10(rounded) + 1e-12)


def step_places(step: float) -> int:
    """Decimals that tell multiples of a step apart: 0.1 -> 1, 1 -> 0, 0.5 -> 1, 0.05 -> 2.

    >>> step_places(0.5), step_places(10.0), step_places(0.0)
    (1, 0, 0)
    """
    return max(0, min(6, math.ceil(-math.log10(step) - 1e-9))) if step > 0 else 0


def range_places(value: Range, finest: int | None = None) -> tuple[int, int]:
    """Decimals of the likely value and of the bounds: two figures of a likely value that is known badly.

    Parameters
    ----------
    value : in the unit that is printed.
    finest : most decimals that the scale or gauge shows, None for any.

    >>> range_places(Range(8.5, 11.2, 13.7)), range_places(Range(408.0, 434.0, 471.0))
    ((0, 1), (0, 0))
    """
    most = FINEST_PLACES if finest is None else finest
    if value.high - value.low < WIDE * abs(value.likely):
        both = min(max(places(value.likely, FIGURES), 0), most)
        return both, both
    likely = min(places(value.likely or value.high, WIDE_FIGURES), most)
    bounds = places(value.low, WIDE_FIGURES) if value.low else likely
    bounds = max(min(bounds, most, likely + 1), likely)
    low, high = round(value.low, bounds), round(value.high, bounds)
    return (likely if low <= round(value.likely, likely) <= high else bounds), bounds


def number(value: float, decimals: int) -> str:
    """A number with its decimals, tens and hundreds rounded where there are fewer than none; a true minus.

    >>> number(-4.25, 1), number(434.0, -1), number(-0.001, 2)
    ('−4.2', '430', '0')
    """
    text = f"{round(value, decimals):.{max(decimals, 0)}f}"
    return "0" if float(text) == 0 else with_mark(text.replace("-", "−"))


def trimmed(text: str) -> str:
    """A printed number without the zeros that end its decimals."""
    mark = with_mark(".")
    return text.rstrip("0").rstrip(mark) if mark in text else text
