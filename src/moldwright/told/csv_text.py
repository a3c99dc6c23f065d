"""A list as text for a spreadsheet."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from io import StringIO

from moldwright.text.harmless import harmless

FORMULA = ("=", "+", "-", "@")
"""What a spreadsheet may take for a formula where a cell begins with it."""
Cell = str | int | float | None


def csv_text(heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    """A list: commas, CR LF; words that a spreadsheet would reckon with get an apostrophe in front.

    Parameters
    ----------
    heads : the columns' names.
    rows : cells in the columns' order.

    Source: RFC 4180, 2.

    >>> csv_text(("name", "left"), [("=1+1", 2.5)])
    "name,left\\r\\n'=1+1,2.5\\r\\n"
    """
    text = StringIO()
    writer = csv.writer(text)
    writer.writerow(heads)
    writer.writerows([_cell(each) for each in row] for row in rows)
    return text.getvalue()


def _cell(value: Cell) -> str | int | float:
    if value is None:
        return ""
    if not isinstance(value, str):
        return value
    words = harmless(value)
    return f"'{words}" if words.startswith(FORMULA) else words
