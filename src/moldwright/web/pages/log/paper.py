"""A run's sheets as boxes on the screen, sheet by sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from moldwright.bench.boxes import BoxOf
from moldwright.errors import InputRefused
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.paper import PaperEntry, rows_by_key
from moldwright.records.runs.paper_keep import logged_of
from moldwright.records.runs.paper_rows import PaperRow, RowKind, paper_rows
from moldwright.sheets.bench_words import BenchWords
from moldwright.text.shown import short
from moldwright.told.bench.paper_words import row_words, said_on_paper
from moldwright.words.speaker import in_house_marks

MEASURED = (BoxOf.THICKNESS, BoxOf.AIR, BoxOf.CAST_MASS, BoxOf.CAST_HEIGHT)
"""Boxes of figures."""


@dataclass(frozen=True, slots=True)
class PaperSheet:
    """One sheet: its date's row, and the others."""

    title: str
    rows: tuple[PaperRow, ...]


def sheets_of(run: OpenRun) -> tuple[PaperSheet, ...]:
    """The sheets of a run.

    Parameters
    ----------
    run : which.
    """
    return tuple(_sheets(run))


def _sheets(run: OpenRun) -> Iterator[PaperSheet]:
    words, together = BenchWords(run.plan), list[PaperRow]()
    for row in paper_rows(run):
        if row.kind is RowKind.DATE and together:
            yield _sheet(words, together)
            together = []
        together.append(row)
    if together:
        yield _sheet(words, together)


def _sheet(words: BenchWords, rows: Sequence[PaperRow]) -> PaperSheet:
    first = rows[0]
    cast = f", cast {first.act.turn}" if first.act.turn else ""
    last = rows[-1].number
    steps = f"step {first.number}" if last == first.number else f"steps {first.number} to {last}"
    return PaperSheet(f"{steps}{cast}", tuple(row for row in rows if row.kind is not RowKind.DATE))


def first_open(run: OpenRun, sheets: Sequence[PaperSheet]) -> int:
    """The sheet to go on with: the one behind the last row of which the log holds something.

    Parameters
    ----------
    run : which.
    sheets : its own.
    """
    held = [n for n, sheet in enumerate(sheets) if any(logged_of(row, run) for row in sheet.rows)]
    last = held[-1] if held else 0
    whole = bool(held) and all(logged_of(row, run) for row in sheets[last].rows if row.kind is RowKind.TICK)
    return min(last + whole, len(sheets) - 1)


def told_row(run: OpenRun, row: PaperRow, now_ms: int) -> dict[str, object]:
    """A row in words, with what the log holds of it.

    Parameters
    ----------
    run : which.
    row : of its sheets.
    now_ms : the moment.
    """
    words = BenchWords(run.plan)
    there = [said_on_paper(words, row, event, now_ms) for event in logged_of(row, run)]
    return {
        "key": row.key,
        "kind": row.kind.name.lower(),
        "number": row.number,
        "cast": row.act.turn,
        "told": row_words(words, row),
        "there": there,
    }


def entries_of(run: OpenRun, typed: Mapping[str, str]) -> tuple[PaperEntry, ...]:
    """What was typed, in the order of the sheets; each told by what its row is called.

    Parameters
    ----------
    run : which.
    typed : text by the row's key.

    Raises InputRefused ("form-unreadable").
    """
    rows, words = rows_by_key(paper_rows(run)), BenchWords(run.plan)
    strange = next((key for key in typed if key not in rows), None)
    if strange is not None:
        remedy = "Reload the page: the run has changed. Nothing was written."
        raise InputRefused("form-unreadable", short(strange, 40), "rows of this run's sheets", "", remedy)
    return tuple(
        PaperEntry(row, _in_house(row, typed[key]), row_words(words, row))
        for key, row in rows.items()
        if typed.get(key, "").strip()
    )


def _in_house(row: PaperRow, text: str) -> str:
    """Figures in the marks of the house; a lot's number behind one, and what is in a box of words, as they stand."""
    if row.kind is RowKind.PART:
        figure, space, lot = text.strip().partition(" ")
        return f"{in_house_marks(figure)}{space}{lot}"
    measured = row.kind is RowKind.CUP or (row.box is not None and row.box.kind in MEASURED)
    return in_house_marks(text) if measured else text
