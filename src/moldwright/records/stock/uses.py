"""Every weighing of a lot, and where it went."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, select

from moldwright.log.event import Event
from moldwright.log.ids import EventId, LotId, RunId
from moldwright.log.run_events import Weighed
from moldwright.records.shop import Shop
from moldwright.records.stock.lot import Moment
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT

AT_ONCE = 500
"""Ids of one statement."""


@dataclass(frozen=True, slots=True)
class LotWeighed:
    """One weighing of a lot in a run."""

    at: Moment
    run: RunId
    lot: LotId
    weighed: Weighed

    @property
    def mass_g(self) -> float:
        """What went into the cup [g]."""
        return self.weighed.mass_g


def weighings_of(shop: Shop, lot: LotId) -> tuple[LotWeighed, ...]:
    """All weighings of a lot in the order in which they happened, but for those that a line goes through.

    Parameters
    ----------
    shop : the store.
    lot : which.
    """
    order = select(EVENT).where(EVENT.c.lot == lot).order_by(EVENT.c.at_ms, EVENT.c.id)
    with shop.reading() as connection:
        events = [event_of(row) for row in connection.execute(order)]
        gone = lines_through(connection, [event.id for event in events])
    return tuple(lot_weighed(event, event.body) for event in events if _of_lot(event) and event.id not in gone)


def lot_weighed(event: Event, body: object) -> LotWeighed:
    """A weighing of a lot by its event.

    Parameters
    ----------
    event : whose body it is.
    body : the weighing, with its lot.
    """
    assert isinstance(body, Weighed)
    assert body.lot is not None
    return LotWeighed((event.at_ms, event.id), RunId(event.subject), body.lot, body)


def _of_lot(event: Event) -> bool:
    return isinstance(event.body, Weighed) and event.body.lot is not None


def lines_through(connection: Connection, ids: Iterable[EventId]) -> frozenset[EventId]:
    """Which of these events are struck out.

    Parameters
    ----------
    connection : of `Shop.reading`.
    ids : of the events.
    """
    asked = list(ids)
    found: set[EventId] = set()
    for start in range(0, len(asked), AT_ONCE):
        part = asked[start : start + AT_ONCE]
        lines = connection.execute(select(EVENT.c.undoes).where(EVENT.c.undoes.in_(part))).scalars()
        found |= {EventId(line) for line in lines if line is not None}
    return frozenset(found)
