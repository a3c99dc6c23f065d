"""Reading rows of the sheets into a run: lots by their labels, numbers by their edition, then the log, all at once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from moldwright.bench.boxes import BoxOf
from moldwright.errors import InputRefused
from moldwright.log.edition_events import Series
from moldwright.log.ids import LotId, RunId
from moldwright.plan.mixes import MixPart
from moldwright.records.clock import BenchClock
from moldwright.records.runs.lots import lot_named
from moldwright.records.runs.numbered import number_cast
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.runs.paper import PaperEntry, bodies_of_paper
from moldwright.records.runs.paper_keep import PaperKept, keep_paper
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import OnShelf, on_shelf
from moldwright.text.shown import short

NUMBER = re.compile(r"(?P<proof>(?:artist's )?proof\s+|ap\s*)?(?P<number>\d{1,6})(?:\s*/\s*\d+)?", re.IGNORECASE)


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
    entries = [entry for entry in entries if entry.text.strip()]
    before = open_run(shop, run, clock.now())
    shelves = list[OnShelf]()

    def lot_of(written: str, part: MixPart) -> LotId:
        shelves.extend(() if shelves else on_shelf(shop, day.isoformat()))
        return lot_named(shelves, part.stuff, written).lot.id

    numbers = _numbers(before, entries)
    rest = [entry for entry in entries if entry not in numbers]
    told = bodies_of_paper(before, rest, day, lot_of)
    for entry in numbers:
        _give(shop, clock, before, entry)
    return keep_paper(shop, clock, run, told)


def _numbers(run: OpenRun, entries: Sequence[PaperEntry]) -> list[PaperEntry]:
    """Boxes whose number the edition gives."""
    started = run.state.frame.started
    if started is None or started.edition is None:
        return []
    found = [entry for entry in entries if entry.row.box is not None and entry.row.box.kind is BoxOf.NUMBER]
    for entry in found:
        if NUMBER.fullmatch(entry.text.strip()) is None:
            remedy = "Write the number as it stands on the piece: 7, 7/24, proof 1. Nothing was written."
            where = entry.where or entry.row.key
            raise InputRefused("paper-unreadable", f"{where}: {short(entry.text)}", "a number", "", remedy)
    return found


def _give(shop: Shop, clock: BenchClock, run: OpenRun, entry: PaperEntry) -> None:
    told = NUMBER.fullmatch(entry.text.strip())
    assert told is not None
    assert entry.row.box is not None
    boxes = run.state.boxes
    box = entry.row.box
    if any((each.step, each.box, each.turn) == (box.step, box.key, box.turn) for each in boxes):
        return
    series = Series.PROOF if told["proof"] else Series.NUMBERED
    number_cast(shop, clock, run, replace(box), series, int(told["number"]))
