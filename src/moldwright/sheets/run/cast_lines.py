"""The log of casts with its lines filled."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from moldwright.log.event import Event
from moldwright.log.run_events import BoxWritten, CastMeasured, Done, LeftOut, Poured, Weighed
from moldwright.plan.plan import Plan
from moldwright.sheets.cast_log import LotColumn, box_columns, cast_log, lot_columns
from moldwright.sheets.run.boxes import Filled, box
from moldwright.sheets.run.shown import RunShown, timed, typed_in
from moldwright.sheets.wording import table

OF_CASTS = (Done, LeftOut, BoxWritten, CastMeasured)


def run_log(shown: RunShown) -> dict[str, Any]:
    """The plan's log of casts, each line with what was written of that cast.

    Parameters
    ----------
    shown : the run.
    """
    started = shown.state.frame.started
    log = cast_log(shown.plan, None if started is None else max(started.casts, 1))
    return log | {"sheets": [[_line(shown, number) for number in sheet] for sheet in log["sheets"]]}


def _line(shown: RunShown, number: str) -> list[str]:
    """A line: the cast's number, then all columns; of a free line nothing."""
    if not number:
        return [""]
    turn = int(number)
    entries = [event for event in shown.stands if _turn(event) == turn]
    if not entries and turn not in shown.numbers:
        return [number]
    lots = [_lots(shown, entries, column) for column in lot_columns(shown.plan)]
    filled = [box(shown, column.step, column.number, turn) for column in box_columns(shown.plan)]
    return [number, _date(shown, entries), *lots, *(each.text for each in filled), _by(entries, filled)]


def _turn(event: Event) -> int:
    """The cast that an entry is about, 0 for none."""
    body = event.body
    if isinstance(body, Weighed | Poured):
        return body.cup.turn
    return body.turn if isinstance(body, OF_CASTS) else 0


def _date(shown: RunShown, entries: Iterable[Event]) -> str:
    """The day on which its first cup came onto the work, else that of what was done last."""
    known = [event for event in entries if timed(event.body)]
    poured = [event.at_ms for event in known if isinstance(event.body, Poured)]
    done = [event.at_ms for event in known if isinstance(event.body, Done)]
    return shown.day(poured[0]) if poured else shown.day(done[-1]) if done else ""


def _lots(shown: RunShown, entries: Iterable[Event], column: LotColumn) -> str:
    cups = {mix.id for mix in _mixes(shown.plan, column)}
    weighed = (event.body for event in entries if isinstance(event.body, Weighed))
    taken = (w.lot for w in weighed if w.lot is not None and w.part is column.part and w.cup.mix in cups)
    return ", ".join(dict.fromkeys(map(shown.lot, taken)))


def _mixes(plan: Plan, column: LotColumn) -> list[Any]:
    return [mix for mix in plan.mixes if mix.for_.kind is column.mix]


def _by(entries: Iterable[Event], filled: Iterable[Filled]) -> str:
    """Who wrote of it, and whether any of it was typed in later."""
    entries = list(entries)
    people = dict.fromkeys(event.by for event in entries if event.by)
    later = any(map(typed_in, entries)) or any(each.typed for each in filled)
    return ", ".join([*people, *([str(table()["run"]["typed"])] if later else [])])
