"""How a sheet lies on the pages that it is printed on: alone, or on pages that are joined at the sheet's middle lines.

A joined sheet's page is cut on one side of the joint; what is left of the other page beyond the joint lies under it.
"""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.photos.sheet.layout import TILE_MARGIN_MM
from moldwright.photos.sheet.sizes import SheetSize

Place = tuple[float, float]

ON = {SheetSize.A5: SheetSize.A4, SheetSize.HALF_LETTER: SheetSize.LETTER}
"""A small sheet on a desk printer's paper."""
JOINED = {
    (SheetSize.A3, SheetSize.A4): (1, 2),
    (SheetSize.A2, SheetSize.A4): (2, 2),
    (SheetSize.TABLOID, SheetSize.LETTER): (1, 2),
    (SheetSize.ANSI_C, SheetSize.LETTER): (2, 2),
}
"""Columns and rows of pages by the sheet's size and the paper's."""


@dataclass(frozen=True, slots=True)
class SheetPage:
    """One page of a sheet.

    `wide_mm`, `tall_mm` : the page; `column`, `row` : from the left and from the front, of `columns` and `rows`;
    `zero_mm` : where the sheet's middle lies, from the page's upper left corner to the right and down [mm].
    """

    wide_mm: float
    tall_mm: float
    column: int
    row: int
    columns: int
    rows: int
    zero_mm: Place

    def down(self, place: Place) -> Place:
        """A place of the sheet from the page's upper left corner, to the right and down [mm].

        Parameters
        ----------
        place : on the sheet [mm].
        """
        return self.zero_mm[0] + place[0], self.zero_mm[1] - place[1]

    def has(self, place: Place) -> bool:
        """Whether a place of the sheet is printed on this page and no other.

        Parameters
        ----------
        place : on the sheet [mm], on no joint.
        """
        across = self.columns == 1 or (place[0] > 0) == (self.column == 1)
        return across and (self.rows == 1 or (place[1] > 0) == (self.row == 1))


def sheet_pages(size: SheetSize, paper: SheetSize) -> tuple[SheetPage, ...]:
    """The pages of a sheet, the front left one first.

    Parameters
    ----------
    size : of the sheet.
    paper : what it is printed on: its own size, a larger page round it, or a page of which it is joined.

    >>> [page.zero_mm for page in sheet_pages(SheetSize.A3, SheetSize.A4)]
    [(148.5, 6.0), (148.5, 204.0)]
    """
    columns, rows = JOINED.get((size, paper), (1, 1))
    turned = (columns, rows) == (1, 2)
    wide, tall = (paper.length_mm, paper.breadth_mm) if turned else (paper.breadth_mm, paper.length_mm)
    left = (wide / 2,) if columns == 1 else (wide - TILE_MARGIN_MM, TILE_MARGIN_MM)
    top = (tall / 2,) if rows == 1 else (TILE_MARGIN_MM, tall - TILE_MARGIN_MM)
    return tuple(
        SheetPage(wide, tall, column, row, columns, rows, (left[column], top[row]))
        for row in range(rows)
        for column in range(columns)
    )
