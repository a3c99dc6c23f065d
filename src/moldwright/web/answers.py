"""Answers that are no page: a table for a spreadsheet, a PDF that was just typeset."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from starlette.responses import Response

from moldwright.told.csv_text import Cell, csv_text


def csv_answer(name: str, heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> Response:
    """A table for a spreadsheet, to be saved and not shown.

    Parameters
    ----------
    name : under which it is saved; plain letters of ours.
    heads : the columns' names.
    rows : cells in the columns' order.
    """
    text = csv_text(heads, rows)
    return Response(text.encode(), media_type="text/csv; charset=utf-8", headers=_headers("attachment", name))


def pdf_answer(data: bytes, name: str) -> Response:
    """A PDF, shown where a browser can.

    Parameters
    ----------
    data : its bytes.
    name : under which it is saved; plain letters of ours.
    """
    return Response(data, media_type="application/pdf", headers=_headers("inline", name))


def _headers(how: str, name: str) -> dict[str, str]:
    return {"Content-Disposition": f'{how}; filename="{name}"', "Cache-Control": "no-store"}
