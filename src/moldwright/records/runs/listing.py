"""All runs of a shop in a line each, without folding any of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from moldwright.bench.acts import Act
from moldwright.bench.frame import frame_of
from moldwright.log.event import About, Event
from moldwright.log.ids import PlanId, RunId, SubjectId
from moldwright.log.run_events import Done, Started
from moldwright.log.standing import standing
from moldwright.records.shop import Shop
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT

FRAME = ("started", "replanned", "ended", "undone")
COUNTED = 100
"""Runs under way of which it is counted what is done, the newest first: more are under way in no shop; our own."""


@dataclass(frozen=True, slots=True)
class RunRow:
    """A run in a line.

    Parameters
    ----------
    id : the run's.
    started : how it was started.
    started_ms : when.
    plan : by which it goes on.
    last_ms : when the last thing happened in it.
    ended_ms : when it ended, None: it is under way.
    done : so many acts are done; counted of the newest that are under way.
    last_done : the one that was done last.
    """

    id: RunId
    started: Started
    started_ms: int
    plan: PlanId
    last_ms: int
    ended_ms: int | None = None
    done: int = 0
    last_done: Act | None = None


def runs(shop: Shop, ended: bool = True) -> tuple[RunRow, ...]:
    """All runs, the one in which something happened last first.

    Parameters
    ----------
    shop : the store.
    ended : those too in which nothing more will be done.
    """
    with shop.reading() as connection:
        of = None if ended else _under_way(connection)
        frames = _by_run(_events(connection, FRAME, of))
        last = _last_ms(connection, of)
        found = [row for run, events in frames.items() if (row := _row(run, events, last)) is not None]
        rows = sorted((row for row in found if ended or row.ended_ms is None), key=lambda row: (-row.last_ms, row.id))
        counted = [row.id for row in rows if row.ended_ms is None][:COUNTED]
        done = _by_run(_events(connection, ("done", "undone"), counted))
    return tuple(_with_done(row, done.get(row.id, ())) for row in rows)


def _under_way(connection: Connection) -> list[SubjectId]:
    """Runs with no end that stands."""
    lines = select(EVENT.c.undoes).where(EVENT.c.undoes.is_not(None))
    of_run = EVENT.c.about == About.RUN.value
    ended = select(EVENT.c.subject).where(of_run, EVENT.c.kind == "ended", EVENT.c.id.not_in(lines))
    order = select(EVENT.c.subject).where(of_run, EVENT.c.kind == "started", EVENT.c.subject.not_in(ended)).distinct()
    return [SubjectId(run) for run in connection.execute(order).scalars()]


def _events(connection: Connection, kinds: tuple[str, ...], of: Sequence[SubjectId] | None = None) -> Iterable[Event]:
    order = select(EVENT).where(EVENT.c.about == About.RUN.value, EVENT.c.kind.in_(kinds))
    order = order if of is None else order.where(EVENT.c.subject.in_(of))
    return [event_of(row) for row in connection.execute(order)]


def _by_run(events: Iterable[Event]) -> Mapping[SubjectId, list[Event]]:
    found: dict[SubjectId, list[Event]] = {}
    for event in events:
        found.setdefault(event.subject, []).append(event)
    return found


def _last_ms(connection: Connection, of: Sequence[SubjectId] | None) -> Mapping[SubjectId, int]:
    """The newest time of each run; one look into the index of times for each."""
    started = select(EVENT.c.subject).where(EVENT.c.about == About.RUN.value, EVENT.c.kind == "started").distinct()
    every = (started if of is None else started.where(EVENT.c.subject.in_(of))).subquery()
    newest = select(func.max(EVENT.c.at_ms)).where(EVENT.c.subject == every.c.subject).scalar_subquery()
    return {SubjectId(run): int(at) for run, at in connection.execute(select(every.c.subject, newest))}


def _row(run: SubjectId, events: Iterable[Event], last: Mapping[SubjectId, int]) -> RunRow | None:
    """None where no start stands."""
    frame = frame_of(events)
    if frame.started is None or frame.started_ms is None or frame.plan is None:
        return None
    newest = last.get(run, frame.started_ms)
    return RunRow(RunId(run), frame.started, frame.started_ms, frame.plan, newest, frame.ended_ms)


def _with_done(row: RunRow, events: Iterable[Event]) -> RunRow:
    acts = [Act(e.body.step, e.body.turn) for e in standing(events) if isinstance(e.body, Done)]
    if not acts:
        return row
    done = len(set(acts))
    return RunRow(row.id, row.started, row.started_ms, row.plan, row.last_ms, row.ended_ms, done, acts[-1])
