"""The lots of a shop with what is left of each."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.event import About, Event
from moldwright.log.ids import LotId
from moldwright.log.kinds import NAMES
from moldwright.records.shop import Shop
from moldwright.records.stock.left import USABLE, Left, LotState, expires, left_of, state_of
from moldwright.records.stock.lot import Lot, fold_lot, fold_lots
from moldwright.records.stock.weighed import weighed_since


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


def on_shelf(shop: Shop, today: str) -> tuple[OnShelf, ...]:
    """Every lot of the shop, those that are gone too, in the order in which they were entered.

    Parameters
    ----------
    shop : the store.
    today : the shop's date, ISO 8601.
    """
    lots = fold_lots(lot_events(shop))
    with shop.reading() as connection:
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
        remedy = "A line goes through its receipt: add it anew (`moldwright lot add`)."
        raise InputRefused("lot-struck-out", short_code(id_), "a lot that came in", "", remedy)
    with shop.reading() as connection:
        sums = weighed_since(connection, {lot.id: lot.counts[-1].at})
    return _standing(lot, sums.get(lot.id, 0.0), today)


def lot_events(shop: Shop) -> tuple[Event, ...]:
    """All events about lots; the kinds are named so that the database finds them by its index.

    Parameters
    ----------
    shop : the store.
    """
    return shop.events_about(About.LOT, sorted(NAMES.values()))


def _standing(lot: Lot, weighed_g: float, today: str) -> OnShelf:
    left = left_of(lot, weighed_g)
    return OnShelf(lot, left, state_of(lot, left, today), expires(lot))
