"""Taking what stands on paper into the log: what is there already adds nothing, what is other is struck out first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import fsum

from moldwright.log.any_events import Undone
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import RunId
from moldwright.log.run_events import BoxWritten, CastMeasured, Done, Gauged, Poured, ShopAir, Weighed
from moldwright.log.standing import standing
from moldwright.plan.mixes import PartKind
from moldwright.records.clock import BenchClock
from moldwright.records.runs.boxes import SheetBox, written_in
from moldwright.records.runs.checked import refuse_unless_of
from moldwright.records.runs.opened import OpenRun, opened_by
from moldwright.records.runs.paper import BEGAN, LEFT, WAIT_TO, DatedBody
from moldwright.records.runs.paper_rows import PaperRow, RowKind
from moldwright.records.shop import Shop, append_within
from moldwright.records.within import events_within, hold

MINUTE_MS = 60_000


@dataclass(frozen=True, slots=True)
class PaperKept:
    """What became of it: entries that are new, those that were there, and those that were struck out for another."""

    new: tuple[Event, ...]
    known: int
    struck: tuple[Event, ...]


def keep_paper(shop: Shop, clock: BenchClock, run: RunId, told: Iterable[DatedBody]) -> PaperKept:
    """Take in what stands on paper, all of it or nothing; once more adds nothing.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    run : which.
    told : what the rows say.

    Raises InputRefused as `refuse_unless_of`.
    """
    told = tuple(told)
    with shop.writing() as connection:
        hold(connection, run)
        before = opened_by(shop, run, events_within(connection, run), clock.now())
        for each in told:
            refuse_unless_of(before, each.body)
        stands = standing(before.events)
        known = [(each, _of_one(each.body, stands)) for each in told if not _there(each, stands)]
        fresh = [(_with_untold(each, old), old) for each, old in known]
        struck = tuple({event.id: event for _, old in fresh for event in old}.values())
        lines = [clock.event(About.RUN, run, Undone(event.id, "other on paper")) for event in struck]
        new = tuple(clock.event(About.RUN, run, each.body, each.at_ms) for each, _ in fresh)
        append_within(connection, [*lines, *new])
    return PaperKept(new, len(told) - len(fresh), struck)


def _with_untold(told: DatedBody, old: Sequence[Event]) -> DatedBody:
    """What the paper does not say of a weighing stays as the log has it: of which lot, on which scale, and when."""
    last = old[-1] if old else None
    if last is None or not isinstance(told.body, Weighed) or not isinstance(last.body, Weighed):
        return told
    body = replace(told.body, lot=told.body.lot or last.body.lot, scale=told.body.scale or last.body.scale)
    if body.timed or not last.body.timed:
        return replace(told, body=body)
    return DatedBody(replace(body, timed=True), last.at_ms)


def logged_of(row: PaperRow, run: OpenRun) -> tuple[Event, ...]:
    """What the log holds of a row, in order; of a date nothing.

    Parameters
    ----------
    row : which.
    run : whose.
    """
    stands = standing(run.events)
    if row.box is not None:
        return _in_box(row.box, stands)
    starter = None if row.cup is None else run.plan.mix(row.cup.mix).starter
    return tuple(event for event in stands if _is_of(row, event.body, starter))


def _in_box(box: SheetBox, stands: Sequence[Event]) -> tuple[Event, ...]:
    bodies = (BoxWritten(box.step, box.key, "", box.turn),)
    return written_in(box, stands) or tuple(e for e in stands if any(_one(e.body, body) for body in bodies))


def _is_of(row: PaperRow, body: Body, starter: PartKind | None) -> bool:  # noqa: PLR0911
    match body:
        case Weighed(cup=cup, part=part):
            if row.kind is RowKind.CUP:
                return body.timed and (cup, part) == (row.cup, starter)
            return row.kind is RowKind.PART and row.part is not None and (cup, part) == (row.cup, row.part.kind)
        case Poured(cup=cup):
            return row.kind is RowKind.CUP and cup == row.cup
        case Done(step=step, turn=turn):
            return row.kind is RowKind.TICK and (step, turn) == (row.act.step, row.act.turn)
        case BoxWritten(step=step, box=box, turn=turn) if (step, turn) == (row.act.step, row.act.turn):
            if row.kind is RowKind.CUP and row.cup is not None:
                return box in (f"{row.cup.mix}.{BEGAN}", f"{row.cup.mix}.{LEFT}")
            return row.kind is RowKind.WAIT and box == WAIT_TO
        case _:
            return False


def _of_one(body: Body, stands: Sequence[Event]) -> list[Event]:
    """Entries that say of the same thing what another one says now."""
    return [event for event in stands if _one(event.body, body)]


def _one(old: Body, new: Body) -> bool:  # noqa: PLR0911
    match old, new:
        case Weighed(), Weighed():
            return (old.cup, old.part) == (new.cup, new.part)
        case Poured(), Poured():
            return old.cup == new.cup
        case Done(), Done():
            return (old.step, old.turn) == (new.step, new.turn)
        case BoxWritten(), BoxWritten():
            return (old.step, old.box, old.turn) == (new.step, new.box, new.turn)
        case Gauged(), Gauged():
            return old.coat == new.coat
        case ShopAir(), ShopAir():
            return (old.step, old.turn) == (new.step, new.turn)
        case CastMeasured(), CastMeasured():
            other = (old.mass_g is None) != (new.mass_g is None) and (old.height_mm is None) != (new.height_mm is None)
            return old.turn == new.turn and not other
        case _:
            return False


def _there(told: DatedBody, stands: Sequence[Event]) -> bool:
    """Whether the log says it already; a time that the paper does not tell is none that the log could lack."""
    old = _of_one(told.body, stands)
    body = told.body
    if not old:
        return False
    match body:
        case Weighed():
            weighed = [event.body for event in old if isinstance(event.body, Weighed)]
            mass = abs(fsum(each.mass_g for each in weighed) - body.mass_g) < 1e-6
            same = mass and body.lot in (None, weighed[-1].lot)
            return same and (not body.timed or _minute(old[-1].at_ms) == _minute(told.at_ms))
        case Done(timed=False):
            return True
        case Done() | Poured():
            untold = isinstance(body, Done) and not getattr(old[-1].body, "timed", True)
            return not untold and _minute(old[-1].at_ms) == _minute(told.at_ms)
        case ShopAir():
            kept = old[-1].body
            return isinstance(kept, ShopAir) and replace(kept, timed=body.timed) == body
        case _:
            return old[-1].body == body


def _minute(at_ms: int) -> int:
    return at_ms // MINUTE_MS
