"""Whether anything was written about a run since somebody looked, without reading any of it."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import func, select

from moldwright.log.event import About, Event
from moldwright.log.ids import RunId
from moldwright.records.shop import Shop
from moldwright.records.store.tables import EVENT


def run_mark(shop: Shop, run: RunId) -> str:
    """A mark of all entries of a run: another one as soon as there is one more.

    Parameters
    ----------
    shop : the store.
    run : which.
    """
    order = select(func.count(), func.max(EVENT.c.id)).where(EVENT.c.subject == run)
    with shop.reading() as connection:
        count, newest = connection.execute(order).one()
    return f"{count}-{newest or ''}"


def lots_mark(shop: Shop) -> int:
    """A mark of all entries about lots: another one as soon as there is one more.

    Parameters
    ----------
    shop : the store.
    """
    order = select(func.count()).where(EVENT.c.about == About.LOT.value)
    with shop.reading() as connection:
        return int(connection.execute(order).scalar_one())


def mark_of(events: Sequence[Event]) -> str:
    """The same of entries that were read already.

    Parameters
    ----------
    events : all of a run.
    """
    return f"{len(events)}-{max((event.id for event in events), default='')}"
