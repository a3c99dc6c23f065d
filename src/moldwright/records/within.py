"""Reading and holding within a transaction that then writes: nobody comes between what was read and what is written."""

from __future__ import annotations

from sqlalchemy import Connection, func, select

from moldwright.log.event import About, Event
from moldwright.log.ids import SubjectId
from moldwright.records.store.engine import SQLITE
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT


def hold(connection: Connection, what: str) -> None:
    """Keep others who want to hold the same waiting until this transaction ends, however it ends.

    SQLite lets one transaction write at a time as it is. Who holds several takes an edition before a run.

    Parameters
    ----------
    connection : of `Shop.writing`, nothing read on it yet of what is held.
    what : an id, or a word of ours.
    """
    if connection.dialect.name != SQLITE:
        connection.execute(select(func.pg_advisory_xact_lock(func.hashtextextended(what, 0))))


def events_within(connection: Connection, subject: SubjectId, *kinds: str) -> tuple[Event, ...]:
    """The events of one subject as this transaction sees them, in the order in which they happened.

    Parameters
    ----------
    connection : of `Shop.writing` or `Shop.reading`.
    subject : whose.
    kinds : names of kinds; none: all.
    """
    order = select(EVENT).where(EVENT.c.subject == subject).order_by(EVENT.c.at_ms, EVENT.c.id)
    order = order.where(EVENT.c.kind.in_(kinds)) if kinds else order
    return tuple(event_of(row) for row in connection.execute(order))


def all_within(connection: Connection, about: About) -> tuple[Event, ...]:
    """All events about one sort of thing as this transaction sees them, those of one subject together.

    Parameters
    ----------
    connection : of `Shop.writing` or `Shop.reading`.
    about : which sort.
    """
    order = select(EVENT).where(EVENT.c.about == about.value).order_by(EVENT.c.subject, EVENT.c.at_ms, EVENT.c.id)
    return tuple(event_of(row) for row in connection.execute(order))


def events_naming(connection: Connection, about: About, kinds: tuple[str, ...], id_: str) -> tuple[Event, ...]:
    """Events of some kinds that hold an id in what they tell; whoever asks looks in which field.

    Parameters
    ----------
    connection : of `Shop.writing` or `Shop.reading`.
    about : of which sort of thing.
    kinds : names of kinds.
    id_ : a UUID.
    """
    order = select(EVENT).where(EVENT.c.about == about.value, EVENT.c.kind.in_(kinds))
    order = order.where(EVENT.c.body.contains(id_, autoescape=True)).order_by(EVENT.c.at_ms, EVENT.c.id)
    return tuple(event_of(row) for row in connection.execute(order))


def struck_within(connection: Connection, events: tuple[Event, ...]) -> frozenset[str]:
    """Which of some events have a line through them.

    Parameters
    ----------
    connection : of `Shop.writing` or `Shop.reading`.
    events : any.
    """
    order = select(EVENT.c.undoes).where(EVENT.c.undoes.in_([event.id for event in events]))
    return frozenset(connection.execute(order).scalars())
