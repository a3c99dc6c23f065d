"""Reading rows of the sheets into a run: lots by their labels, numbers by their edition, then the log, all at once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from moldwright.bench.boxes import BoxOf
from moldwright.errors import InputRefused
from moldwright.log.edition_events import Series
from moldwright.log.ids import LotId, RunId
from moldwright.plan.mixes import MixPart
from moldwright.records.clock import BenchClock
from moldwright.records.runs.checked import refuse_unless_of
from moldwright.records.runs.lots import lot_named
from moldwright.records.runs.numbered import number_meant, numbered_box
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.runs.paper import DatedBody, PaperEntry, bodies_of_paper
from moldwright.records.runs.paper_keep import PaperKept, keep_paper
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import OnShelf, on_shelf

Numbers = Sequence[tuple[PaperEntry, tuple[Series, int]]]
"""Rows whose number the edition gives, with the number that is meant."""


def paper_in(shop: Shop, clock: BenchClock, run: RunId, entries: Iterable[PaperEntry], day: date) -> PaperKept:
    """Take in rows of a run's sheets: all of them, or nothing where one cannot be read.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    run : which.
    entries : rows in the order of the sheets, with what was typed.
    day : of the first sheet, until one says another.

    Raises InputRefused ("paper-unreadable" and as `refuse_unless_of`), RecordConflict as `give_number`.
    """
    before = open_run(shop, run, clock.now())
    told, numbers = _read(shop, before, entries, day)
    given = [_given(shop, clock, before, entry, meant) for entry, meant in numbers]
    return keep_paper(shop, clock, run, (*told, *given))


def read_paper(shop: Shop, run: OpenRun, entries: Iterable[PaperEntry], day: date) -> None:
    """Read rows of a run's sheets as `paper_in` does, and keep nothing.

    Parameters
    ----------
    shop : the store.
    run : which.
    entries : rows in the order of the sheets, with what was typed.
    day : of the first sheet, until one says another.

    Raises InputRefused ("paper-unreadable" and as `refuse_unless_of`).
    """
    _read(shop, run, entries, day)


def _read(shop: Shop, run: OpenRun, entries: Iterable[PaperEntry], day: date) -> tuple[Sequence[DatedBody], Numbers]:
    """What is to be kept of rows, and the rows whose number the edition gives."""
    written = [entry for entry in entries if entry.text.strip()]
    shelves = list[OnShelf]()

    def lot_of(label: str, part: MixPart) -> LotId:
        shelves.extend(() if shelves else on_shelf(shop, day.isoformat()))
        return lot_named(shelves, part.stuff, label).lot.id

    numbers = _numbers(run, written)
    rest = [entry for entry in written if entry not in [each for each, _ in numbers]]
    told = bodies_of_paper(run, rest, day, lot_of)
    for each in told:
        refuse_unless_of(run, each.body)
    return told, numbers


def _numbers(run: OpenRun, entries: Sequence[PaperEntry]) -> Numbers:
    """Boxes whose number the edition gives."""
    started = run.state.frame.started
    if started is None or started.edition is None:
        return []
    found = [entry for entry in entries if entry.row.box is not None and entry.row.box.kind is BoxOf.NUMBER]
    return [(entry, _meant(entry)) for entry in found]


def _meant(entry: PaperEntry) -> tuple[Series, int]:
    try:
        return number_meant(entry.text)
    except InputRefused as error:
        where = f"{entry.where or entry.row.key}: {error.actual}"
        raise InputRefused("paper-unreadable", where, error.limit, "", error.remedy) from None


def _given(shop: Shop, clock: BenchClock, run: OpenRun, entry: PaperEntry, meant: tuple[Series, int]) -> DatedBody:
    """A number is given for good: last of all, once the rest is known to be kept."""
    assert entry.row.box is not None
    _, body = numbered_box(shop, clock, run, entry.row.box, *meant)
    return DatedBody(body, clock.now())
