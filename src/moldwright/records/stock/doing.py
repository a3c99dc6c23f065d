"""What happens to lots, as it was typed: read, then written down; and one line through it."""

from __future__ import annotations

from datetime import datetime

from moldwright.errors import InputRefused
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, LotId
from moldwright.log.lot_events import LotCounted, LotOpened, LotReceived, LotUsed
from moldwright.log.standing import struck
from moldwright.plan.needs import NeedUnit
from moldwright.records.clock import BenchClock, today
from moldwright.records.find import find
from moldwright.records.shop import Shop
from moldwright.records.stock.amounts import read_in
from moldwright.records.stock.keep import Written, write
from moldwright.records.stock.shelf import lot_on_shelf, on_shelf
from moldwright.records.strike import strike_out
from moldwright.text.shown import short
from moldwright.ways import Deed


def lot_meant(shop: Shop, written: str) -> LotId:
    """The lot that is meant: by its code, its id, or the number on its label where only one has it.

    Parameters
    ----------
    shop : the store.
    written : as it was typed.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    try:
        return LotId(find(shop, About.LOT, written))
    except InputRefused as refused:
        wanted = written.strip().casefold()
        found = [s.lot.id for s in on_shelf(shop, today()) if wanted and s.lot.number.casefold() == wanted]
        if refused.code != "not-kept" or not found:
            raise
    if len(found) > 1:
        raise InputRefused("code-of-several", short(written), "one lot", "", "Write its code", Deed.SEE_LOTS)
    return found[0]


def happen(shop: Shop, clock: BenchClock, which: str, body: Body) -> Written:
    """Something happens to a lot.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    which : the lot, as it was typed.
    body : what.
    """
    return write(shop, clock, lot_meant(shop, which), body, today())


def open_lot(shop: Shop, clock: BenchClock, which: str, on: str) -> Written:
    """A lot's seal is broken.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    which : the lot, as it was typed.
    on : the day, "" for today.
    """
    return happen(shop, clock, which, LotOpened(on.strip() or today()))


def count_lot(shop: Shop, clock: BenchClock, which: str, told: tuple[str, str, str]) -> Written:
    """A lot is counted.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    which : the lot, as it was typed.
    told : what the scale shows, or the count; what the empty pot weighs, "" where it was weighed without; when, "" for
        now.

    Raises InputRefused ("pot-heavier", "quantity-unclear", "unit-differs", "time-unclear").
    """
    amount, empty, at = told
    lot = lot_on_shelf(shop, lot_meant(shop, which), today()).lot
    found = read_in(amount, lot.unit, "amount", lot.received.density_g_ml)
    pot = read_in(empty, lot.unit, "empty", lot.received.density_g_ml) if empty.strip() else 0.0
    if pot > found:
        remedy = "Weigh it with its pot, and tell apart what the empty pot with its lid weighs."
        raise InputRefused("pot-heavier", round(pot, 3), round(found, 3), lot.unit.value, remedy)
    return write(shop, clock, lot.id, LotCounted(found - pot), today(), moment_told(at))


def use_lot(shop: Shop, clock: BenchClock, which: str, told: tuple[str, str, str]) -> Written:
    """Some of a lot is used outside of any run.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    which : the lot, as it was typed.
    told : how much, for what, when ("" for now).
    """
    amount, why, at = told
    lot = lot_on_shelf(shop, lot_meant(shop, which), today()).lot
    used = read_in(amount, lot.unit, "amount", lot.received.density_g_ml)
    return write(shop, clock, lot.id, LotUsed(used, why), today(), moment_told(at))


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


def strike_lot_entry(shop: Shop, clock: BenchClock, written: str, why: str) -> tuple[Event, NeedUnit]:
    """A line through an event of a lot, and what the lot is counted in.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    written : the event's code or id.
    why : in words.
    """
    event = strike_out(shop, clock, About.LOT, written, why)
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
