"""Sizes of the printed sheet, and the pages that it is printed on."""

from __future__ import annotations

from enum import StrEnum


class SheetSize(StrEnum):
    """A sheet's size by its standard's name (ISO 216; ANSI Y14.1: tabloid is B), smallest first in each family."""

    A5 = "a5"
    A4 = "a4"
    A3 = "a3"
    A2 = "a2"
    HALF_LETTER = "half-letter"
    LETTER = "letter"
    TABLOID = "tabloid"
    ANSI_C = "ansi-c"

    @property
    def breadth_mm(self) -> float:
        """The short side [mm]."""
        return SIDES_MM[self][0]

    @property
    def length_mm(self) -> float:
        """The long side [mm]."""
        return SIDES_MM[self][1]


SIDES_MM = {
    SheetSize.A5: (148.0, 210.0),
    SheetSize.A4: (210.0, 297.0),
    SheetSize.A3: (297.0, 420.0),
    SheetSize.A2: (420.0, 594.0),
    SheetSize.HALF_LETTER: (139.7, 215.9),
    SheetSize.LETTER: (215.9, 279.4),
    SheetSize.TABLOID: (279.4, 431.8),
    SheetSize.ANSI_C: (431.8, 558.8),
}
"""Short and long side [mm]: ISO 216; ANSI Y14.1 (17 x 22 in, 11 x 17 in, 8.5 x 11 in), half a letter."""
METRIC = (SheetSize.A5, SheetSize.A4, SheetSize.A3, SheetSize.A2)
US = (SheetSize.HALF_LETTER, SheetSize.LETTER, SheetSize.TABLOID, SheetSize.ANSI_C)
