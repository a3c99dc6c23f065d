"""The colors of what is laid on a surface: eight leaves, each darker than the one before by an even step.

A reader without color vision, and gray print, have the lightness; leaves are numbered besides. The same on paper and in
every look of the screen.
"""

from __future__ import annotations

from enum import StrEnum


class Palette(StrEnum):
    """What a map is of, so that two maps side by side are told apart."""

    THICKNESS = "thickness"
    STRETCH = "stretch"
    HOLD = "hold"
    AWAY = "away"


LEAF_COLORS: dict[Palette, tuple[str, ...]] = {
    Palette.THICKNESS: ("#ebe9c5", "#b4d8a8", "#77c194", "#3ca78c", "#008b88", "#006f83", "#1f537b", "#323671"),
    Palette.STRETCH: ("#f4ebc6", "#f9c488", "#f79757", "#e66b40", "#c94541", "#a52a4a", "#801954", "#5d0c5c"),
    Palette.HOLD: ("#ecedd1", "#c9daa3", "#a0c37c", "#78aa61", "#549051", "#377646", "#225c3d", "#174233"),
    Palette.AWAY: ("#e5ecf2", "#bed5eb", "#98bbe4", "#779edc", "#617fd0", "#565fbf", "#4f3ea7", "#491b89"),
}
"""Each from the lightest to the darkest: our own, in even steps of lightness."""
