"""A list as a file for a spreadsheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from moldwright.disk.whole_file import write_whole
from moldwright.told.csv_text import Cell, csv_text


def write_csv(path: Path, heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> None:
    """Write a list.

    Parameters
    ----------
    path : the file, in UTF-8; one that is there is replaced, whole or not at all.
    heads : the columns' names.
    rows : cells in the columns' order.
    """
    write_whole(path, csv_text(heads, rows).encode())
