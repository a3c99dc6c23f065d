"""A list as an answer that a browser saves."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from starlette.responses import Response

from moldwright.told.csv_text import Cell, csv_text


def csv_answer(name: str, heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> Response:
    """A table for a spreadsheet, to be saved and not shown.

    Parameters
    ----------
    name : of the file: one of ours, never what a caller wrote.
    heads : the columns' names.
    rows : cells in the columns' order.
    """
    told = {"Content-Disposition": f'attachment; filename="{name}"', "Cache-Control": "no-store"}
    return Response(csv_text(heads, rows), media_type="text/csv; charset=utf-8", headers=told)
