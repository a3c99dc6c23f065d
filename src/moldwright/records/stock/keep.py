"""What is written down about lots: thin operations that check, append, and say how the lot then stands."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import isfinite

from moldwright.errors import InputRefused
from moldwright.log.event import About, Body
from moldwright.log.ids import LotId, SubjectId
from moldwright.log.lot_events import LotCounted, LotOpened, LotReceived, LotUsed
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop
from moldwright.records.stock.left import Deviation, deviations
from moldwright.records.stock.shelf import OnShelf, lot_on_shelf
from moldwright.records.stock.uses import weighings_of
from moldwright.text.shown import short

MOST = 1e8
"""More than any shop keeps of anything, in grams, milliliters or pieces: our own."""
MOST_DAYS = 36_500


@dataclass(frozen=True, slots=True)
class Written:
    """A lot after something was written down about it; `counted`: what a count found, None for anything else."""

    shelf: OnShelf
    counted: Deviation | None = None


def receive(shop: Shop, clock: BenchClock, receipt: LotReceived, today: str) -> Written:
    """A lot comes in.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    receipt : what it is.
    today : the shop's date, ISO 8601.

    Raises InputRefused ("amount-out-of-range", "date-unclear", "material-unnamed", "life-out-of-range").
    """
    if not receipt.stuff.id.strip():
        remedy = "Name it by its id (`moldwright materials list`), or a free one with --name."
        raise InputRefused("material-unnamed", "no name", "a material", "", remedy)
    if receipt.life_days is not None and not 0 <= receipt.life_days <= MOST_DAYS:
        remedy = "Write for how many days it keeps once it is open."
        raise InputRefused("life-out-of-range", receipt.life_days, MOST_DAYS, "days", remedy)
    if receipt.density_g_ml is not None:
        _refuse_amount(receipt.density_g_ml, least=1e-3)
    for day in (receipt.on, receipt.expires):
        _refuse_date(day)
    _refuse_amount(receipt.amount, least=1e-6)
    id_ = LotId(SubjectId(clock.new_id()))
    shop.append([clock.event(About.LOT, id_, receipt)])
    return Written(lot_on_shelf(shop, id_, today))


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

    Raises InputRefused ("amount-out-of-range", "date-unclear", "lot-struck-out").
    """
    if isinstance(body, LotUsed):
        _refuse_amount(body.amount, least=1e-6)
    if isinstance(body, LotCounted):
        _refuse_amount(body.amount, least=0.0)
    if isinstance(body, LotOpened):
        _refuse_date(body.on)
    lot_on_shelf(shop, id_, today)
    event = clock.event(About.LOT, id_, body, at_ms)
    shop.append([event])
    shelf = lot_on_shelf(shop, id_, today)
    if not isinstance(body, LotCounted):
        return Written(shelf)
    found = deviations(shelf.lot, [(use.at, use.mass_g) for use in weighings_of(shop, id_)])
    return Written(shelf, next(each for each in found if each.at == (event.at_ms, event.id)))


def _refuse_amount(amount: float, least: float) -> None:
    if not (isfinite(amount) and least <= amount <= MOST):
        remedy = "Write an amount that a shelf holds, with its unit: 1.2 kg, 500 ml, 12 each."
        raise InputRefused("amount-out-of-range", amount, f"{least:g} to {MOST:g}", "", remedy)


def _refuse_date(written: str) -> None:
    try:
        plain = not written or date.fromisoformat(written).isoformat() == written
    except ValueError:
        plain = False
    if not plain:
        raise InputRefused("date-unclear", short(written), "a date", "", "Write it as 2026-11-27.")
