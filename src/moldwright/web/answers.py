"""Answers that are no page: a table for a spreadsheet, a PDF that was just typeset."""

from __future__ import annotations

from starlette.responses import Response


def csv_answer(text: str, name: str) -> Response:
    """A table, to be saved.

    Parameters
    ----------
    text : as `told/csv_text.py` writes it.
    name : under which it is saved; plain letters of ours.
    """
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
