"""What is to be settled on the shelf: lots that expire, that expired and stand there still, and what runs short."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from moldwright.materials.library import library
from moldwright.records.clock import now_ms
from moldwright.records.shop import Shop
from moldwright.records.stock.ahead import forecast
from moldwright.records.stock.forecast import Outlook
from moldwright.records.stock.left import LotState
from moldwright.records.stock.shelf import OnShelf, on_shelf
from moldwright.told.amounts import show_amount, show_amounts
from moldwright.told.lot_words import name_of
from moldwright.units.system import UnitSystem
from moldwright.web.words.said import say

SOON_DAYS = 30
"""A lot that expires within so many days is told: our own."""
MOST = 12
DONE = frozenset((LotState.USED_UP, LotState.DISCARDED))


@dataclass(frozen=True, slots=True)
class ToSettle:
    """A doubt: about what, and what it is."""

    about: str
    text: str


def to_settle(shop: Shop, today: date, units: UnitSystem) -> tuple[ToSettle, ...]:
    """What waits for a decision, what is expired first.

    Parameters
    ----------
    shop : the records.
    today : the shop's date.
    units : of who reads.
    """
    soon = (today + timedelta(days=SOON_DAYS)).isoformat()
    shelf = [each for each in on_shelf(shop, today.isoformat(), gone=False) if each.state not in DONE]
    lots = sorted((each for each in shelf if each.expires and each.expires <= soon), key=lambda each: each.expires)
    short = (each for each in _short(shop, today) if each.short.likely)
    return (*(_lot(each, today, units) for each in lots[:MOST]), *(_missing(each, units) for each in short))


def _short(shop: Shop, today: date) -> tuple[Outlook, ...]:
    return forecast(shop, library(), today.isoformat(), now_ms()).outlooks


def _lot(each: OnShelf, today: date, units: UnitSystem) -> ToSettle:
    left = show_amount(each.left.amount, each.lot.received.unit, units)
    past = each.expires < today.isoformat()
    said = (
        say("expired on %(day)s; %(left)s stand there still.")
        if past
        else say("expires on %(day)s; %(left)s are left.")
    )
    return ToSettle(name_of(each.lot), said % {"day": each.expires, "left": left})


def _missing(each: Outlook, units: UnitSystem) -> ToSettle:
    told = {"short": show_amounts(each.short, each.unit, units), "left": show_amount(each.left, each.unit, units)}
    said = say("%(short)s are missing for the runs under way; %(left)s are here.") % told
    return ToSettle(each.stuff.name or each.stuff.id, said)
