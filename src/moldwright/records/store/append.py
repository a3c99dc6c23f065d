"""Events added to the store: each once, in one transaction with whatever belongs to it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import Any, Protocol

from sqlalchemy import Connection, select
from sqlalchemy.dialects import postgresql, sqlite

from moldwright.errors import RecordConflict
from moldwright.log.event import Event
from moldwright.log.ids import EventId
from moldwright.records.clock import now_ms
from moldwright.records.doubts import Doubt, doubts
from moldwright.records.store.engine import SQLITE
from moldwright.records.store.rows import claim_of, event_of, row_of
from moldwright.records.store.tables import EVENT, NUMBER
from moldwright.ways import Deed

AT_ONCE = 500
"""Rows of one statement."""
DOUBTS = "doubts"
"""Where a connection keeps what is doubtful until its transaction is kept."""


@dataclass(frozen=True, slots=True)
class Appended:
    """What became of events that were sent: ids that are new, in their order, and those that were there already.

    `doubts`: of those whose times make no sense; they are kept all the same.
    """

    new: tuple[EventId, ...]
    known: tuple[EventId, ...]
    doubts: tuple[Doubt, ...] = ()


def append_within(connection: Connection, events: Iterable[Event]) -> Appended:
    """Keep events within a transaction that holds more.

    Parameters
    ----------
    connection : of `Shop.writing`.
    events : any.

    They go in by their ids, so that two who send the same ones wait for each other once and not crosswise. A number
    that one gives is taken with it.

    Raises RecordConflict ("event-differs", "number-given"), InputRefused ("event-unwritable").
    """
    sent = sorted(events, key=lambda event: event.id)
    rows = [row_of(event) for event in sent]
    new: list[EventId] = []
    known: list[EventId] = []
    for start in range(0, len(rows), AT_ONCE):
        part = rows[start : start + AT_ONCE]
        order = inserting(connection, EVENT).on_conflict_do_nothing().returning(EVENT.c.id)
        added = {EventId(id_) for id_ in connection.execute(order, part).scalars()}
        again = _again(part, added)
        _refuse_others(connection, again)
        _claim(connection, [event for event in sent[start : start + AT_ONCE] if event.id in added])
        known += [EventId(row["id"]) for row in again]
        new += sorted(added)
    found = doubts(sent, now_ms())
    connection.info.setdefault(DOUBTS, []).extend(found)
    return Appended(tuple(new), tuple(known), found)


def inserting(connection: Connection, table: Any) -> Any:
    """An INSERT that can pass over what is there already, in the words of this database.

    Parameters
    ----------
    connection : whose.
    table : into which.
    """
    return sqlite.insert(table) if connection.dialect.name == SQLITE else postgresql.insert(table)


def _again(sent: Sequence[Mapping[str, Any]], added: set[EventId]) -> list[Mapping[str, Any]]:
    """What was sent but was there already, by this very batch too."""
    left = set(added)
    again = []
    for row in sent:
        if row["id"] in left:
            left.remove(row["id"])
        else:
            again.append(row)
    return again


def kept_of(shop: Reads, ids: Collection[EventId]) -> dict[EventId, Event]:
    """Those of some events that are kept.

    Parameters
    ----------
    shop : the store.
    ids : their ids.
    """
    wanted = sorted(ids)
    found: dict[EventId, Event] = {}
    with shop.reading() as connection:
        for start in range(0, len(wanted), AT_ONCE):
            order = select(EVENT).where(EVENT.c.id.in_(wanted[start : start + AT_ONCE]))
            found |= {EventId(row.id): event_of(row) for row in connection.execute(order)}
    return found


def differs(one: Event, other: Event) -> bool:
    """Whether two events are not the very same, as they are written.

    Parameters
    ----------
    one, other : any.
    """
    return row_of(one) != row_of(other)


class Reads(Protocol):
    """What gives a connection to read one state of a store by."""

    def reading(self) -> AbstractContextManager[Connection]:
        """It."""


def _claim(connection: Connection, new: Sequence[Event]) -> None:
    """A number goes with its event or not at all: the database lets none of an edition be taken twice."""
    order = inserting(connection, NUMBER).on_conflict_do_nothing().returning(NUMBER.c.event)
    for event in new:
        claim = claim_of(event.subject, event.id, event.body)
        if claim and not connection.execute(order, claim).all():
            told = f"{claim['series']} {claim['number']}"
            remedy = "Nothing of it was kept. Take the next free one"
            limit = "a number and a piece that nobody has had"
            raise RecordConflict("number-given", told, limit, "", remedy, Deed.GIVE_NUMBER)


def _refuse_others(connection: Connection, again: Sequence[Mapping[str, Any]]) -> None:
    """What has an id that is kept must be that very event."""
    if not again:
        return
    order = select(EVENT).where(EVENT.c.id.in_([row["id"] for row in again]))
    there = {row.id: row for row in connection.execute(order)}
    for row in again:
        kept = there[row["id"]]
        if any(getattr(kept, name) != value for name, value in row.items()):
            remedy = "Two benches made one id, or one was changed after it was sent: write it down as a new event."
            raise RecordConflict("event-differs", row["id"], f"the {kept.kind} that is kept", "", remedy)
