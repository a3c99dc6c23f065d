"""What is asked for each row of the sheets, as it stands there."""

from __future__ import annotations

from moldwright.log.event import Event
from moldwright.log.run_events import BoxWritten, Done, Poured, Weighed
from moldwright.plan.mixes import MeasuredBy
from moldwright.records.runs.boxes import said_in_box
from moldwright.records.runs.paper_rows import PaperRow, RowKind
from moldwright.sheets.bench_words import BenchWords, clock
from moldwright.sheets.need_words import part_name
from moldwright.text.harmless import harmless
from moldwright.told.bench.entry_words import said_of
from moldwright.units import show_range
from moldwright.words.speaker import say


def row_words(words: BenchWords, row: PaperRow) -> str:
    """What a row is, in its sheet's words, without a colon.

    Parameters
    ----------
    words : of the run's plan.
    row : which.
    """
    step = words.plan.steps[row.number - 1]
    cast = say(", cast {turn}", turn=row.act.turn) if row.act.turn else ""
    match row.kind:
        case RowKind.DATE:
            told = say("Date of the sheet from step {number}{cast} on", number=row.number, cast=cast)
        case RowKind.PART:
            told = _part(words, row)
        case RowKind.CUP:
            assert row.cup is not None
            told = say("{cup}, began, left", cup=words.cup(row.cup))
        case RowKind.BOX:
            assert row.box is not None
            told = f"{words.wording.line(row.box.line, step.quantities)}{cast}"
        case RowKind.TICK:
            told = say("{number}{cast} {title}, done", number=row.number, cast=cast, title=words.title(step))
        case RowKind.WAIT:
            assert step.wait_min is not None
            told = say("Wait {wait}, from, to", wait=show_range(step.wait_min * 60.0, "duration"))
    return harmless(told).replace(":", ",")


def _part(words: BenchWords, row: PaperRow) -> str:
    assert row.part is not None
    assert row.cup is not None
    part = row.part
    reads = f" {words.mass(part.scale_reads_g)}" if part.by is not MeasuredBy.MARKS else ""
    return say("{cup}, {part}{reads}, it read, lot", cup=words.cup(row.cup), part=part_name(part), reads=reads)


def said_on_paper(words: BenchWords, row: PaperRow, event: Event, now_ms: int) -> str:
    """What the log holds of a row, as it would stand on the sheet.

    Parameters
    ----------
    words : of the run's plan.
    row : which.
    event : the entry.
    now_ms : the moment.
    """
    body = event.body
    match body:
        case Done(timed=timed):
            return clock(event.at_ms, now_ms) if timed else "x"
        case Poured():
            return say("left {clock}", clock=clock(event.at_ms, now_ms))
        case Weighed() if row.kind is RowKind.CUP:
            return say("began {clock}", clock=clock(event.at_ms, now_ms))
        case Weighed(reads_g=reads, mass_g=mass):
            return words.mass(mass if reads is None else reads)
        case BoxWritten():
            return harmless(body.text)
        case _:
            return said_in_box(body, words.plan.units) or said_of(words, body)
