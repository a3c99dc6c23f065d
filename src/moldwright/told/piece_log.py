"""The log of a piece: what was written of itself and of its runs, in words, the newest first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from moldwright.log.any_events import Attached, Undone
from moldwright.log.codes import short_code
from moldwright.log.event import Event
from moldwright.log.ids import EventId, FileHash, RunId
from moldwright.log.piece_events import PieceTakenIn
from moldwright.log.run_events import Started
from moldwright.log.standing import struck
from moldwright.records.pieces.listing import PieceStory
from moldwright.records.runs.opened import OpenRun
from moldwright.sheets.bench_words import BenchWords
from moldwright.told.any_words import moment
from moldwright.told.bench.entry_words import said_of
from moldwright.told.csv_text import Cell
from moldwright.told.piece_words import piece_happened
from moldwright.units.system import UnitSystem

LOG_HEADS = ("at", "code", "run", "what", "struck_out", "bench", "by")
KEPT_WHOLE = (Started, PieceTakenIn, Undone)
"""Entries through which no line goes here: a beginning, and a line."""


@dataclass(frozen=True, slots=True)
class LogLine:
    """An entry in words.

    Parameters
    ----------
    id, at_ms, bench, by : of the entry.
    run : whose it is, None: of the piece itself.
    told : what happened.
    gone : a line goes through it.
    strikable : a line may go through it.
    file : a kept file that it lays to the run or the piece.
    """

    id: EventId
    at_ms: int
    bench: str
    by: str
    run: RunId | None
    told: str
    gone: bool
    strikable: bool
    file: FileHash | None

    @property
    def code(self) -> str:
        """By which it is struck out."""
        return short_code(self.id)


def piece_log(story: PieceStory, runs: Sequence[OpenRun], units: UnitSystem) -> tuple[LogLine, ...]:
    """All entries of a piece and its runs.

    Parameters
    ----------
    story : the piece.
    runs : its runs.
    units : the reader's.
    """
    own = (_line(event, None, piece_happened(event.body), event.id in story.gone) for event in story.events)
    every = (*own, *(line for run in runs for line in _of_run(run, units)))
    return tuple(sorted(every, key=lambda line: (line.at_ms, line.id), reverse=True))


def _of_run(run: OpenRun, units: UnitSystem) -> Iterator[LogLine]:
    words, gone = BenchWords(replace(run.plan, units=units)), struck(run.events)
    for event in run.events:
        yield _line(event, run.id, said_of(words, event.body), event.id in gone)


def _line(event: Event, run: RunId | None, told: str, gone: bool) -> LogLine:
    body = event.body
    file = body.file if isinstance(body, Attached) else None
    strikable = not gone and not isinstance(body, KEPT_WHOLE)
    return LogLine(event.id, event.at_ms, event.bench, event.by, run, told, gone, strikable, file)


def log_cells(line: LogLine) -> Sequence[Cell]:
    """An entry under `LOG_HEADS`.

    Parameters
    ----------
    line : it.
    """
    run = "" if line.run is None else short_code(line.run)
    return (moment(line.at_ms), line.code, run, line.told, "struck out" if line.gone else "", line.bench, line.by)
