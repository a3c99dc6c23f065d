"""What the commands about lots do: they read what was typed, call the records, and return what is then told."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from moldwright.desk.shop_at import opened
from moldwright.errors import InputRefused
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, LotId
from moldwright.log.lot_events import LotCounted, LotReceived, LotUsed
from moldwright.log.standing import struck
from moldwright.making.shop import bench_clock
from moldwright.plan.mixes import StuffKey
from moldwright.plan.needs import NeedUnit
from moldwright.records.find import find
from moldwright.records.shop import Shop
from moldwright.records.stock.catalog import Offer, material
from moldwright.records.stock.choose import in_turn
from moldwright.records.stock.keep import Written, write
from moldwright.records.stock.left import LotState
from moldwright.records.stock.shelf import OnShelf, lot_on_shelf, on_shelf
from moldwright.records.strike import strike_out
from moldwright.text.shown import short
from moldwright.told.amounts import read_in


def today() -> str:
    """The shop's date."""
    return date.today().isoformat()


def lot_meant(shop: Shop, written: str) -> LotId:
    """The lot that is meant: by its code, its id, or the number on its label where only one has it.

    Parameters
    ----------
    shop : the store.
    written : as it was typed.
    """
    try:
        return LotId(find(shop, About.LOT, written))
    except InputRefused as refused:
        wanted = written.strip().casefold()
        found = [s.lot.id for s in on_shelf(shop, today()) if wanted and s.lot.number.casefold() == wanted]
        if refused.code != "not-kept" or not found:
            raise
    if len(found) > 1:
        raise InputRefused("code-of-several", short(written), "one lot", "", "Write its code: moldwright lot list.")
    return found[0]


@dataclass(frozen=True, slots=True)
class Doing:
    """On which store, and by whom."""

    shop: str
    by: str


def happen(doing: Doing, which: str, body: Body) -> Written:
    """Something happens to a lot.

    Parameters
    ----------
    doing : where, and by whom.
    which : the lot, as it was typed.
    body : what.
    """
    with opened(doing.shop) as shop:
        return write(shop, bench_clock(shop, doing.by), lot_meant(shop, which), body, today())


def count(doing: Doing, which: str, amount: str, empty: str, at: str) -> Written:
    """A lot is counted.

    Parameters
    ----------
    doing : where, and by whom.
    which : the lot, as it was typed.
    amount : what the scale shows, or the count.
    empty : what the empty pot weighs, "" where it was weighed without.
    at : when, "" for now.
    """
    with opened(doing.shop) as shop:
        lot = lot_on_shelf(shop, lot_meant(shop, which), today()).lot
        found = read_in(amount, lot.unit, "amount", lot.received.density_g_ml)
        pot = read_in(empty, lot.unit, "--empty", lot.received.density_g_ml) if empty.strip() else 0.0
        if pot > found:
            remedy = "Weigh it with its pot, and tell the empty pot's weight with --empty."
            raise InputRefused("pot-heavier", round(pot, 3), round(found, 3), lot.unit.value, remedy)
        return write(shop, bench_clock(shop, doing.by), lot.id, LotCounted(found - pot), today(), moment_told(at))


def use(doing: Doing, which: str, amount: str, why: str, at: str) -> Written:
    """Some of a lot is used outside of any run.

    Parameters
    ----------
    doing : where, and by whom.
    which : the lot, as it was typed.
    amount : how much.
    why : for what.
    at : when, "" for now.
    """
    with opened(doing.shop) as shop:
        lot = lot_on_shelf(shop, lot_meant(shop, which), today()).lot
        used = read_in(amount, lot.unit, "amount", lot.received.density_g_ml)
        return write(shop, bench_clock(shop, doing.by), lot.id, LotUsed(used, why), today(), moment_told(at))


def moment_told(written: str) -> int | None:
    """A moment by the shop's clock in milliseconds since 1970-01-01 UTC; None for now.

    Parameters
    ----------
    written : "2026-11-27 17:30", "2026-11-27" (noon), "" for now.

    Raises InputRefused ("time-unclear").
    """
    told = written.strip()
    if not told:
        return None
    try:
        found = datetime.fromisoformat(told if len(told) > len("2026-11-27") else f"{told} 12:00")
        return int(found.timestamp() * 1000)
    except (ValueError, OverflowError, OSError):
        remedy = 'Write it as "2026-11-27 17:30".'
        raise InputRefused("time-unclear", short(written), "a day with its time", "", remedy) from None


@dataclass(frozen=True, slots=True)
class ListedLots:
    """The lots of one material: those to use in their turn, then the others; `first`: where there is a choice."""

    shelves: tuple[OnShelf, ...]
    first: LotId | None


def listed(shop: Shop, wanted: str, all_: bool) -> tuple[ListedLots, ...]:
    """Lots by material, each material's in their turn.

    Parameters
    ----------
    shop : the store.
    wanted : one material, "" for all.
    all_ : those that are gone too.
    """
    shelves = on_shelf(shop, today(), gone=all_)
    if wanted.strip():
        stuffs = {shelf.lot.stuff.key: Offer(shelf.lot.stuff) for shelf in shelves}
        key = material(wanted, stuffs.values()).stuff.key
        shelves = tuple(shelf for shelf in shelves if shelf.lot.stuff.key == key)
    gone = () if all_ else (LotState.DISCARDED, LotState.USED_UP)
    groups: dict[StuffKey, list[OnShelf]] = {}
    for shelf in sorted(shelves, key=lambda shelf: (shelf.lot.stuff.kind, shelf.lot.stuff.id)):
        if shelf.state not in gone or shelf.left.over:
            groups.setdefault(shelf.lot.stuff.key, []).append(shelf)
    return tuple(_in_turn(group) for group in groups.values())


def _in_turn(group: Iterable[OnShelf]) -> ListedLots:
    shelves = list(group)
    ready = in_turn(shelves)
    rest = [shelf for shelf in shelves if shelf not in ready]
    return ListedLots((*ready, *rest), ready[0].lot.id if len(ready) > 1 else None)


def strike(doing: Doing, written: str, why: str) -> tuple[Event, NeedUnit]:
    """A line through an event of a lot, and what the lot is counted in.

    Parameters
    ----------
    doing : where, and by whom.
    written : the event's code or id.
    why : in words.
    """
    with opened(doing.shop) as shop:
        event = strike_out(shop, bench_clock(shop, doing.by), About.LOT, written, why)
        bodies = (each.body for each in shop.events_of(event.subject))
        return event, next((body.unit for body in bodies if isinstance(body, LotReceived)), NeedUnit.GRAM)


def log_of(shop: Shop, id_: LotId) -> tuple[tuple[Event, ...], frozenset[EventId]]:
    """All events of a lot, and which of them are struck out.

    Parameters
    ----------
    shop : the store.
    id_ : the lot's.
    """
    events = shop.events_of(id_)
    return events, struck(events)
