"""How far a rubber may be stretched when a glove is peeled."""

from __future__ import annotations

from moldwright.ranges import Range

PEEL_SHARE = 1 / 3
"""Of the elongation at break, its low figure, so much is used in peeling, cast after cast: common practice, no
source."""
SLIDES = 1.1
"""A loop that widens by less than this factor slides off like a sock: common practice, no source."""
BENDS = 4 / 3
"""Rolled back on itself, its bend as wide inside as it is thick, a glove is stretched so far on the outside, by pure
bending: `1 + (t / 2) / (t + t / 2)`; how tight it bends is our own."""


def allowed_stretch(elongation_pct: Range) -> float:
    """How many times its own length a loop of the rubber may be stretched.

    Parameters
    ----------
    elongation_pct : at break, by the rubber's sheet [%], > 0.

    Source: `PEEL_SHARE`; elongation as ISO 37 and ASTM D412 define it, (length / own length - 1) 100 % (from memory).

    >>> allowed_stretch(Range(300.0, 450.0, 600.0))
    2.0
    """
    return 1.0 + PEEL_SHARE * elongation_pct.low / 100.0
