"""A list as a file for a spreadsheet."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from io import StringIO
from pathlib import Path

from moldwright.disk.whole_file import write_whole
from moldwright.text.harmless import harmless

FORMULA = ("=", "+", "-", "@")
"""What a spreadsheet may take for a formula where a cell begins with it."""
Cell = str | int | float | None


def write_csv(path: Path, heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> None:
    """Write a list: commas, CR LF, UTF-8; words that a spreadsheet would reckon with get an apostrophe in front.

    Parameters
    ----------
    path : the file; one that is there is replaced, whole or not at all.
    heads : the columns' names.
    rows : cells in the columns' order.

    Source: RFC 4180, 2.
    """
    text = StringIO()
    writer = csv.writer(text)
    writer.writerow(heads)
    writer.writerows([_cell(each) for each in row] for row in rows)
    write_whole(path, text.getvalue().encode())


def _cell(value: Cell) -> str | int | float:
    if value is None:
        return ""
    if not isinstance(value, str):
        return value
    words = harmless(value)
    return f"'{words}" if words.startswith(FORMULA) else words
