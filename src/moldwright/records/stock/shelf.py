"""The lots of a shop with what is left of each."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, select

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import LotId, SubjectId
from moldwright.log.kinds import NAMES
from moldwright.log.lot_events import LotDiscarded
from moldwright.records.shop import Shop
from moldwright.records.stock.left import USABLE, Left, LotState, expires, left_of, state_of
from moldwright.records.stock.lot import Lot, fold_lot, fold_lots
from moldwright.records.stock.weighed import weighed_since
from moldwright.records.store.append import AT_ONCE
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT
from moldwright.ways import Deed


@dataclass(frozen=True, slots=True)
class OnShelf:
    """A lot as it stands on a day. `expires`: the day to which it keeps, "" where nobody knows."""

    lot: Lot
    left: Left
    state: LotState
    expires: str

    @property
    def usable(self) -> bool:
        """Whether some of it may go into a cup."""
        return self.state in USABLE


def on_shelf(shop: Shop, today: str, gone: bool = True) -> tuple[OnShelf, ...]:
    """Every lot of the shop in the order in which they were entered.

    Parameters
    ----------
    shop : the store.
    today : the shop's date, ISO 8601.
    gone : those too that were discarded.
    """
    with shop.reading() as connection:
        without = frozenset[LotId]() if gone else lots_within(connection, LotDiscarded)
        return shelves_of(connection, lot_events(connection, without), today)


def shelves_of(connection: Connection, events: Iterable[Event], today: str) -> tuple[OnShelf, ...]:
    """The lots that some events tell of, with what runs weighed of them.

    Parameters
    ----------
    connection : of `Shop.reading`.
    events : all of those lots.
    today : the shop's date, ISO 8601.
    """
    lots = fold_lots(events)
    sums = weighed_since(connection, {lot.id: lot.counts[-1].at for lot in lots})
    return tuple(_standing(lot, sums.get(lot.id, 0.0), today) for lot in lots)


def lot_on_shelf(shop: Shop, id_: LotId, today: str) -> OnShelf:
    """One lot as it stands.

    Parameters
    ----------
    shop : the store.
    id_ : the lot's.
    today : the shop's date, ISO 8601.

    Raises InputRefused ("lot-struck-out").
    """
    lot = fold_lot(shop.events_of(id_))
    if lot is None:
        remedy = "A line goes through its receipt: put it on the shelf anew"
        raise InputRefused("lot-struck-out", short_code(id_), "a lot that came in", "", remedy, Deed.ADD_LOT)
    with shop.reading() as connection:
        sums = weighed_since(connection, {lot.id: lot.counts[-1].at})
    return _standing(lot, sums.get(lot.id, 0.0), today)


def lot_events(connection: Connection, without: Collection[LotId] = ()) -> tuple[Event, ...]:
    """The events about lots, in the order in which they happened.

    Parameters
    ----------
    connection : of `Shop.reading`.
    without : lots of which none is read.
    """
    order = select(EVENT).where(EVENT.c.about == About.LOT.value).order_by(EVENT.c.at_ms, EVENT.c.id)
    return tuple(event_of(row) for row in connection.execute(order) if row.subject not in without)


def lots_within(connection: Connection, kind: type[Body]) -> frozenset[LotId]:
    """Lots of which an event of a kind stands, that is not struck out.

    Parameters
    ----------
    connection : of `Shop.reading`.
    kind : which.
    """
    lines = select(EVENT.c.undoes).where(EVENT.c.undoes.is_not(None))
    order = select(EVENT.c.subject).where(EVENT.c.about == About.LOT.value, EVENT.c.kind == NAMES[kind])
    found = connection.execute(order.where(EVENT.c.id.not_in(lines)).distinct()).scalars()
    return frozenset(LotId(SubjectId(lot)) for lot in found)


def known_lots(shop: Shop, lots: Collection[LotId]) -> frozenset[LotId]:
    """Those of some lots of which the shop has an entry.

    Parameters
    ----------
    shop : the store.
    lots : their ids.
    """
    wanted, found = sorted(lots), set()
    with shop.reading() as connection:
        for start in range(0, len(wanted), AT_ONCE):
            some = EVENT.c.subject.in_(wanted[start : start + AT_ONCE])
            order = select(EVENT.c.subject).where(EVENT.c.about == About.LOT.value, some).distinct()
            found |= {LotId(SubjectId(lot)) for lot in connection.execute(order).scalars()}
    return frozenset(found)


def weighed_more(shelf: OnShelf, mass_g: float, today: str) -> OnShelf:
    """A lot as it stands once some more of it was weighed.

    Parameters
    ----------
    shelf : as it stands.
    mass_g : how much more [g].
    today : the shop's date, ISO 8601.
    """
    before_g = shelf.left.aside_g if shelf.lot.grams is None else shelf.left.weighed * shelf.lot.grams
    return _standing(shelf.lot, before_g + mass_g, today)


def _standing(lot: Lot, weighed_g: float, today: str) -> OnShelf:
    left = left_of(lot, weighed_g)
    return OnShelf(lot, left, state_of(lot, left, today), expires(lot))
