"""The shop to try the desk in: the demo's piece, some lots and an edition, in records that are thrown away."""

from __future__ import annotations

from datetime import date, timedelta

from moldwright.log.lot_events import LotReceived
from moldwright.materials.library import library
from moldwright.records.clock import BenchClock
from moldwright.records.editions.open import open_edition
from moldwright.records.shop import Shop
from moldwright.records.stock.catalog import offers
from moldwright.records.stock.keep import receive
from moldwright.web.inside import Inside
from moldwright.web.long_work.job import WorkKind
from moldwright.web.words.said import say

LOTS = {
    "addition-cure-a10-slow-a": 400,
    "addition-cure-a10-slow-b": 400,
    "urethane-standard-a": 20,
    "urethane-standard-b": 20,
    "bronze": 0,
}
"""Materials of which there is a lot, and the days until it expires; 0: it does not."""
AMOUNT = 2500.0
CASTS = 12


def fill_trial(inside: Inside, today: date) -> None:
    """Fill an empty shop to try the desk in; its piece is planned as long work.

    Parameters
    ----------
    inside : the shop.
    today : the shop's date.
    """
    if inside.work.files.every():
        return
    clock = BenchClock(inside.settings.bench, last_ms=inside.shop.last_ms(inside.settings.bench))
    _lots(inside.shop, clock, today)
    open_edition(inside.shop, clock, say("Otter on a stone"), CASTS)
    inside.work.ask(WorkKind.DEMO, say("Otter on a stone"), "demo", {})


def _lots(shop: Shop, clock: BenchClock, today: date) -> None:
    for number, offer in enumerate(offers(library()), start=1):
        days = LOTS.get(offer.stuff.id)
        if days is None:
            continue
        expires = (today + timedelta(days=days)).isoformat() if days else ""
        lot = LotReceived(offer.stuff, AMOUNT, offer.unit, today.isoformat(), f"TRY-{number:02d}", expires=expires)
        receive(shop, clock, lot, today.isoformat())
