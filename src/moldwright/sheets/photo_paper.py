"""The PDF that is printed before a piece is photographed: its sheet, and the page that tells how."""

from __future__ import annotations

from typing import Any

from moldwright.photos.sheet.layout import PAPER_RGB
from moldwright.photos.sheet.sizes import US, SheetSize
from moldwright.sheets.photo_howto import howto_data
from moldwright.sheets.photo_sheet import sheet_data
from moldwright.sheets.photo_words import photo_words
from moldwright.sheets.typesetting import typeset


def photo_paper(size: SheetSize, paper: SheetSize) -> bytes:
    """The sheet's pages, true to scale, and then the page that tells how to photograph, on A4 or Letter.

    Parameters
    ----------
    size : of the sheet.
    paper : what it is printed on.
    """
    return typeset("photos", paper_data(size, paper), {})


def paper_data(size: SheetSize, paper: SheetSize) -> dict[str, Any]:
    """What the form prints.

    Parameters
    ----------
    size : of the sheet.
    paper : what it is printed on.
    """
    name = photo_words()["sheet"]["which"].format(name=size_name(size))
    ground = "#{:02x}{:02x}{:02x}".format(*PAPER_RGB)
    how = howto_data("letter" if paper in US else "a4")
    return {"title": name, "ground": ground, "pages": sheet_data(size, paper), "how": how}


def size_name(size: SheetSize) -> str:
    """A size as it is called.

    Parameters
    ----------
    size : of a sheet or a paper.

    >>> size_name(SheetSize.ANSI_C)
    'ANSI C'
    """
    return str(photo_words()["sheet"]["size"][size])
