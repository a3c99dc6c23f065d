"""Where the pages of a joined sheet are cut and laid on each other, as shapes on the sheet."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.photos.sheet.layout import INK_RGB, MARGIN_MM, PAPER_RGB, PhotoSheet
from moldwright.photos.sheet.pages import SheetPage
from moldwright.sheets.photo_words import photo_words
from moldwright.sheets.shapes import Disc, Note, Place, Shape, Wire

LINE_MM, REGISTER_MM, ARM_MM, WORDS_PT = 0.2, 3.0, 5.0, 8.0
TOLD_MM, LEADING_MM = 30.0, 4.0
"""How far from the joint a page's name stands, between two rings of the middle."""
REGISTER_SHARES = (-0.36, -0.22, 0.22, 0.36)
"""Where the register marks stand along a joint, as shares of the clear middle."""


def joints(sheet: PhotoSheet, page: SheetPage) -> Iterator[Shape]:
    """Lines to cut or to lay an edge on, register marks that close over the joint, and the page's name.

    Parameters
    ----------
    sheet : the sheet.
    page : one of its pages; a page that is the whole sheet has none.
    """
    if page.columns * page.rows == 1:
        return
    wide, long = (side / 2 - MARGIN_MM for side in (sheet.size.breadth_mm, sheet.size.length_mm))
    if page.columns > 1:
        yield from _joint((0.0, -long), (0.0, long), sheet.middle_mm[1], cut=page.column == 0)
    if page.rows > 1:
        yield from _joint((-wide, 0.0), (wide, 0.0), sheet.middle_mm[0], cut=page.row == 0)
    yield from _told(sheet, page)


def _joint(start: Place, end: Place, middle_mm: float, cut: bool) -> Iterator[Shape]:
    yield Wire((start, end), LINE_MM, INK_RGB, dashed=cut)
    across = (1.0, 0.0) if start[0] == end[0] else (0.0, 1.0)
    for share in REGISTER_SHARES:
        x, y = share * middle_mm * across[1], share * middle_mm * across[0]
        yield Disc((x, y), REGISTER_MM, LINE_MM, INK_RGB)
        arm = ((x - ARM_MM * across[0], y - ARM_MM * across[1]), (x + ARM_MM * across[0], y + ARM_MM * across[1]))
        yield Wire(arm, LINE_MM, INK_RGB)


def _told(sheet: PhotoSheet, page: SheetPage) -> Iterator[Shape]:
    """Which page this is and what to do with its edges, beside its joints."""
    words = photo_words()["pages"]
    number, count = page_number(page), page.columns * page.rows
    where = words["half" if page.columns == 1 else "quarter"][f"{page.row}{page.column}"]
    lines = [words["name"].format(number=number, count=count, where=where)]
    if page.columns > 1:
        lines.append(words["cut-right"] if page.column == 0 else words["lay-left"].format(page=number - 1))
    if page.rows > 1:
        under = number - page.columns
        lines.append(words["cut-back"] if page.row == 0 else words["lay-front"].format(page=under))
    x = 0.0 if page.columns == 1 else (page.column - 0.5) * sheet.middle_mm[0] / 2
    y = TOLD_MM + LEADING_MM * len(lines) if page.row else -TOLD_MM
    for k, line in enumerate(lines):
        yield Note((x, y - LEADING_MM * k), line, WORDS_PT, color=INK_RGB, bold=k == 0, ground=PAPER_RGB)


def page_number(page: SheetPage) -> int:
    """A page's number, the front left one 1.

    Parameters
    ----------
    page : of a joined sheet.
    """
    return page.row * page.columns + page.column + 1
