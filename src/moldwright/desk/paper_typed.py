"""A run's sheets, typed in at the keyboard: one line for each row, in the sheets' order."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from datetime import date

from moldwright.desk.bench_session import refused
from moldwright.errors import MoldwrightError
from moldwright.log.ids import RunId
from moldwright.records.clock import BenchClock
from moldwright.records.runs.opened import open_run
from moldwright.records.runs.paper import SAME, PaperEntry
from moldwright.records.runs.paper_in import paper_in, read_paper
from moldwright.records.runs.paper_keep import logged_of
from moldwright.records.runs.paper_rows import PaperRow, RowKind, paper_rows
from moldwright.records.shop import Shop
from moldwright.records.told import day_of, day_told
from moldwright.sheets.bench_words import BenchWords
from moldwright.told.bench.paper_words import row_words, said_on_paper

DONE_TO = re.compile(r"done to (\d+)(?:/(\d+))?", re.IGNORECASE)
HELP = """\
Enter: nothing was written there.   =  as printed.   x  ticked, or its time: 14:05.
What the scale read, then the lot: 32.6 4711.   Two times: 14:05 14:20; - where one is empty.
done to 14  ticks all steps up to 14.   b  back.   q  stop; --from-paper goes on from here."""


class PaperSession:
    """Where one is on the sheets.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    run : which run.
    """

    def __init__(self, shop: Shop, clock: BenchClock, run: RunId) -> None:
        self.shop, self.clock, self.id = shop, clock, run
        self.run = open_run(shop, run, clock.now())
        self.words, self.rows = BenchWords(self.run.plan), paper_rows(self.run)
        self.day: date = day_of(clock.now())
        self.at, self.new, self.lines, self.keys = self._start(), 0, 0, 0
        self._cup: list[PaperEntry] = []
        self._dated = self.rows[self.at].kind is RowKind.DATE if self.at < len(self.rows) else True
        self.left = False

    def _start(self) -> int:
        """Behind the last row of which the log holds something."""
        last = max((n for n, row in enumerate(self.rows) if logged_of(row, self.run)), default=-1)
        return last + 1

    @property
    def row(self) -> PaperRow | None:
        """The row that is asked for; None behind the last one."""
        return self.rows[self.at] if self.at < len(self.rows) else None

    def asking(self) -> Iterator[str]:
        """What is asked for; what the log holds of it already."""
        row = self.row
        if row is None:
            return
        if not self._dated:
            yield f"Date of this sheet (Enter: {self.day.isoformat()}):"
            return
        known = [said_on_paper(self.words, row, event, self.clock.now()) for event in logged_of(row, self.run)]
        told = f" (there: {', '.join(known)})" if known else ""
        day = f" (Enter: {self.day.isoformat()})" if row.kind is RowKind.DATE else ""
        yield f"{row_words(self.words, row)}{day}{told}:"

    def take(self, text: str) -> Iterator[str]:
        """Write down what stands in a row.

        Parameters
        ----------
        text : as it was typed.
        """
        self.lines, self.keys = self.lines + 1, self.keys + len(text) + 1
        plain = text.strip()
        try:
            yield from self._take(plain)
        except MoldwrightError as error:
            self._cup = [entry for entry in self._cup if self.row is None or entry.row.key != self.row.key]
            yield refused(error)

    def _take(self, plain: str) -> Iterator[str]:
        if plain.casefold() in ("q", "?", "b"):
            yield from self._word(plain.casefold())
        elif not self._dated:
            self.day, self._dated = date.fromisoformat(day_told(plain, self.day)), True
        elif (to := DONE_TO.fullmatch(plain)) is not None:
            yield from self._done_to(int(to[1]), int(to[2] or 0))
        elif (row := self.row) is not None:
            yield from self._row(row, plain)
            self.at += 1

    def _word(self, word: str) -> Iterator[str]:
        if word == "?":
            yield HELP
        elif word == "b":
            self.at = max(self.at - 1, 0)
        else:
            self.left = True
            yield from self._keep(self._cup)

    def _row(self, row: PaperRow, plain: str) -> Iterator[str]:
        if row.kind is RowKind.DATE:
            self.day = date.fromisoformat(day_told(plain, self.day))
            return
        entry = PaperEntry(row, plain)
        self._cup = [each for each in self._cup if each.row.cup == row.cup and each.row.key != row.key]
        if row.kind is RowKind.PART or (row.kind is RowKind.TICK and plain and self._waits(row)):
            read_paper(self.shop, self.run, [*self._cup, entry], self.day)
            self._cup = [*self._cup, entry]
            return
        yield from self._keep([*self._cup, entry])
        self._cup = []

    def _waits(self, row: PaperRow) -> bool:
        """Whether the row behind a tick is its step's wait."""
        behind = self.rows[self.at + 1] if self.at + 1 < len(self.rows) else None
        return behind is not None and behind.kind is RowKind.WAIT and behind.act == row.act

    def _keep(self, entries: list[PaperEntry]) -> Iterator[str]:
        if not any(entry.text for entry in entries):
            return
        kept = paper_in(self.shop, self.clock, self.id, entries, self.day)
        self.run = open_run(self.shop, self.id, self.clock.now())
        self.new += len(kept.new)
        if kept.struck:
            yield f"{len(kept.struck)} struck out that said other."

    def _done_to(self, number: int, turn: int) -> Iterator[str]:
        """Tick every step from here up to a number, and go on behind it."""
        ahead = [n for n, row in enumerate(self.rows) if n >= self.at and row.kind is RowKind.TICK]
        last = max((n for n in ahead if self.rows[n].number <= number and self.rows[n].act.turn == turn), default=None)
        if last is None:
            yield f"Not written: no step up to {number} comes. Type a later one."
            return
        ticks = [PaperEntry(self.rows[n], SAME) for n in ahead if n <= last]
        yield from self._keep([*self._cup, *ticks])
        self._cup, self.at = [], last + 1
        yield f"{len(ticks)} steps are ticked."


def typed_in(session: PaperSession, read: Callable[[float | None], str | None], say: Callable[[str], None]) -> None:
    """Type sheets in, until the last row, `q` or the lines' end.

    Parameters
    ----------
    session : where one is.
    read : the lines.
    say : says a line.
    """
    say(HELP)
    while not session.left and session.row is not None:
        for line in session.asking():
            say(line)
        text = read(None)
        for line in session.take("q" if text is None else text):
            say(line)
    where = "All rows are through" if session.row is None else "Stopped; --from-paper goes on from here"
    say(f"{where}. {session.new} entries are new. {session.lines} lines, {session.keys} keys.")
