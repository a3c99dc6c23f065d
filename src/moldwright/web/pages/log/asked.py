"""What is asked of a piece's log, and what it answers."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, Field

from moldwright.web.typed_in import Line

MOST_ROWS = 5000
"""Rows of one sheet at the most; our own, far above any."""


class LogStrike(BaseModel):
    """An entry by its code, of which run ("" of the piece itself), and why a line goes through it."""

    event: Line
    run: Line = ""
    why: Line = ""


class PieceNote(BaseModel):
    """A note on the piece; `file`: a kept photo that goes with it."""

    text: Line = ""
    file: Line = ""


class PaperAsked(BaseModel):
    """What stands on a sheet: its day (ISO 8601), and what was typed for each row, by the row's key."""

    day: Line = ""
    rows: Annotated[dict[str, Annotated[str, Field(max_length=400)]], Field(max_length=MOST_ROWS)]


class PaperTaken(BaseModel):
    """What became of it."""

    new: int
    known: int
    struck: int


class LineTold(BaseModel):
    """An entry; times in ms since 1970-01-01 UTC."""

    id: str
    code: str
    at_ms: int
    bench: str
    by: str
    run: str | None
    told: str
    struck: bool
    file: str | None


class LinesTold(BaseModel):
    """Entries, the newest first."""

    entries: list[LineTold]


class RowTold(BaseModel):
    """A row of a run's sheets; `there`: what the log holds of it."""

    key: str
    kind: str
    number: int
    cast: int
    told: str
    there: list[str]


class RowsTold(BaseModel):
    """All rows of a run's sheets in their order."""

    rows: list[RowTold]
