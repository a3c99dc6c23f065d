"""The events, one by one: each can be read, says in its columns what its body says, and has a time that can be."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from sqlalchemy import Connection, Row, and_, func, select
from sqlalchemy.exc import DBAPIError

from moldwright.errors import InputRefused
from moldwright.log.any_events import Unread
from moldwright.log.event import Event
from moldwright.records.check.finding import Amiss, Found
from moldwright.records.clock import now_ms
from moldwright.records.doubts import TimeDoubt, doubt_of
from moldwright.records.shop import Shop
from moldwright.records.store.rows import event_of, row_of
from moldwright.records.store.tables import EVENT

BLOCK = 1000
EARLIEST_MS = 946_684_800_000
"""2000-01-01 UTC. Our own choice."""
DOUBTED = {TimeDoubt.AHEAD: Amiss.AHEAD, TimeDoubt.SET_BACK: Amiss.SET_BACK}


def event_cases(shop: Shop) -> Iterator[Found]:
    """What is amiss with single events.

    Parameters
    ----------
    shop : the store.
    """
    now = now_ms()
    with shop.reading() as connection:
        for found in _rows(connection):
            yield from [found] if isinstance(found, tuple) and isinstance(found[0], Amiss) else _of_row(found, now)


def line_cases(shop: Shop) -> Iterator[Found]:
    """Lines through events that are not there, or belong to something else.

    Parameters
    ----------
    shop : the store.
    """
    struck = EVENT.alias("struck")
    order = select(EVENT.c.id, struck.c.id.label("struck")).where(EVENT.c.undoes.is_not(None))
    order = order.join(struck, struck.c.id == EVENT.c.undoes, isouter=True)
    order = order.where(struck.c.id.is_(None) | (struck.c.subject != EVENT.c.subject))
    with shop.reading() as connection:
        for row in connection.execute(order):
            yield (Amiss.EARLY_LINE if row.struck is None else Amiss.STRAY_LINE), row.id


def _rows(connection: Connection) -> Iterator[Any]:
    """All rows, block by block; of a block that cannot be read row by row, and what is left is a case."""
    last = connection.execute(select(func.max(EVENT.c.arrival))).scalar() or 0
    for low in range(0, last + 1, BLOCK):
        try:
            yield from _between(connection, low, low + BLOCK)
        except DBAPIError:
            for arrival in range(low, min(low + BLOCK, last + 1)):
                try:
                    yield from _between(connection, arrival, arrival + 1)
                except DBAPIError:
                    yield Amiss.UNREADABLE, f"row {arrival}"


def _between(connection: Connection, low: int, high: int) -> list[Row[Any]]:
    order = select(EVENT).where(and_(EVENT.c.arrival >= low, EVENT.c.arrival < high)).order_by(EVENT.c.arrival)
    with connection.begin_nested():
        return list(connection.execute(order))


def _of_row(row: Row[Any], now: int) -> Iterator[Found]:
    try:
        event = event_of(row)
        again = row_of(event)
    except InputRefused as refused:
        yield Amiss.UNREADABLE, f"{row.id}: {refused.actual}"
        return
    wrong = [name for name, value in again.items() if name != "body" and getattr(row, name) != value]
    if wrong or not _holds(row.body, again["body"]):
        yield Amiss.ALTERED, f"{row.id}: {', '.join(wrong or ['body'])}"
    yield from _of_time(event, now)
    if isinstance(event.body, Unread):
        yield Amiss.UNKNOWN, row.kind


def _of_time(event: Event, now: int) -> Iterator[Found]:
    doubt = doubt_of(event, now)
    if doubt is not None:
        yield DOUBTED[doubt.what], f"{event.id} by {event.bench}"
    elif event.at_ms < EARLIEST_MS:
        yield Amiss.EARLY, f"{event.id} by {event.bench}"


def _holds(kept: str, again: str) -> bool:
    """Whether a body's text is what it is read as; fields that came later may lack, newer ones are passed over."""
    return kept == again or _within(json.loads(kept), json.loads(again))


def _within(kept: Any, again: Any) -> bool:
    if isinstance(again, dict) and isinstance(kept, dict):
        return all(_within(kept[key], value) for key, value in again.items() if key in kept)
    if isinstance(again, list) and isinstance(kept, list):
        return len(kept) == len(again) and all(map(_within, kept, again))
    return bool(kept == again)
