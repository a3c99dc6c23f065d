"""What is written down about lots: thin operations that check, append, and say how the lot then stands."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from math import isfinite

from moldwright.errors import InputRefused
from moldwright.log.any_events import Noted
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import LotId, SubjectId
from moldwright.log.lot_events import LotCounted, LotDiscarded, LotMoved, LotOpened, LotRecalled, LotReceived, LotUsed
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop
from moldwright.records.stock.left import Deviation, deviations
from moldwright.records.stock.shelf import OnShelf, lot_on_shelf
from moldwright.records.stock.uses import weighings_of
from moldwright.records.told import day_told, line_told

MOST = 1e8
"""More than any shop keeps of anything, in grams, milliliters or pieces: our own."""
LEAST = 1e-6
"""Less than any scale shows: our own."""
MOST_DAYS = 36_500
LONGEST_ID, LONGEST_NOTE = 80, 2000
"""Characters of a material's id, as a plan may name it, and of a note: our own."""


@dataclass(frozen=True, slots=True)
class Written:
    """A lot after something was written down about it, and the event of that.

    `counted`: what a count found, None for anything else.
    """

    shelf: OnShelf
    event: Event
    counted: Deviation | None = None


def receive(shop: Shop, clock: BenchClock, receipt: LotReceived, today: str) -> Written:
    """A lot comes in.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    receipt : what it is.
    today : the shop's date, ISO 8601.

    Raises InputRefused ("amount-out-of-range", "day-unclear", "text-unusable", "life-out-of-range").
    """
    told = checked_receipt(receipt)
    id_ = LotId(SubjectId(clock.new_id()))
    event = clock.event(About.LOT, id_, told)
    shop.append([event])
    return Written(lot_on_shelf(shop, id_, today), event)


def checked_receipt(receipt: LotReceived) -> LotReceived:
    """A receipt as it is kept, refused where it cannot be.

    Parameters
    ----------
    receipt : what was told.

    Raises InputRefused ("amount-out-of-range", "day-unclear", "text-unusable", "life-out-of-range").
    """
    receipt = _lines(receipt)
    if receipt.life_days is not None and not 0 <= receipt.life_days <= MOST_DAYS:
        remedy = "Write for how many days it keeps once it is open."
        raise InputRefused("life-out-of-range", receipt.life_days, MOST_DAYS, "days", remedy)
    if receipt.density_g_ml is not None:
        _refuse_amount(receipt.density_g_ml, least=LEAST)
    _refuse_amount(receipt.amount, least=LEAST)
    return receipt


def write(shop: Shop, clock: BenchClock, id_: LotId, body: Body, today: str, at_ms: int | None = None) -> Written:
    """Something happens to a lot.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    id_ : the lot's.
    body : what.
    today : the shop's date, ISO 8601.
    at_ms : when, None: now.

    Raises InputRefused ("amount-out-of-range", "day-unclear", "text-unusable", "lot-struck-out").
    """
    kept = _checked(body)
    lot_on_shelf(shop, id_, today)
    event = clock.event(About.LOT, id_, kept, at_ms)
    shop.append([event])
    shelf = lot_on_shelf(shop, id_, today)
    if not isinstance(body, LotCounted):
        return Written(shelf, event)
    found = deviations(shelf.lot, [(use.at, use.mass_g) for use in weighings_of(shop, id_)])
    return Written(shelf, event, next(each for each in found if each.at == (event.at_ms, event.id)))


def _refuse_amount(amount: float, least: float) -> None:
    if not (isfinite(amount) and least <= amount <= MOST):
        remedy = "Write an amount that a shelf holds, with its unit: 1.2 kg, 500 ml, 12 each."
        raise InputRefused("amount-out-of-range", amount, f"{least:g} to {MOST:g}", "", remedy)


def _day(written: str) -> str:
    """A day as it is kept, "" for none."""
    return day_told(written, date.min) if written.strip() else ""


def _lines(receipt: LotReceived) -> LotReceived:
    """The receipt with every word a line of its own, nothing in it that steers."""
    stuff = replace(receipt.stuff, name=line_told(receipt.stuff.name, "a name", may_lack=True))
    return replace(
        receipt,
        stuff=replace(stuff, id=line_told(stuff.id, "a material", longest=LONGEST_ID)),
        number=line_told(receipt.number, "the number on the label", may_lack=True),
        supplier=line_told(receipt.supplier, "the supplier", may_lack=True),
        stored=line_told(receipt.stored, "where it stands", may_lack=True),
        on=_day(receipt.on),
        expires=_day(receipt.expires),
    )


def _checked(body: Body) -> Body:
    """What happens to a lot, refused where it cannot be."""
    match body:
        case LotUsed(amount, why):
            _refuse_amount(amount, least=LEAST)
            body = LotUsed(amount, line_told(why, "a reason", may_lack=True))
        case LotCounted(amount):
            _refuse_amount(amount, least=0.0)
        case LotOpened(on):
            body = LotOpened(_day(on))
        case LotMoved(stored):
            body = LotMoved(line_told(stored, "where it stands"))
        case LotDiscarded(why):
            body = LotDiscarded(line_told(why, "a reason", may_lack=True))
        case LotRecalled(why):
            body = LotRecalled(line_told(why, "a reason"))
        case Noted():
            body = replace(body, text=line_told(body.text, "a note", longest=LONGEST_NOTE))
    return body
