"""What is told once something was written down about a lot."""

from __future__ import annotations

from moldwright.log.codes import short_code
from moldwright.log.event import Body
from moldwright.log.lot_events import LotCounted, LotDiscarded, LotMoved, LotOpened, LotRecalled, LotReceived, LotUsed
from moldwright.plan.needs import NeedUnit
from moldwright.records.stock.keep import Written
from moldwright.records.stock.left import LotState
from moldwright.records.stock.shelf import OnShelf
from moldwright.told.amounts import show_amount
from moldwright.told.lot_story import RECALLED
from moldwright.told.lot_words import counted_words, happened, name_of

DISPOSAL = "How it is disposed of: its safety data sheet and local rules."


def done_words(written: Written, units: str) -> str:  # noqa: PLR0911
    """What was done, in a sentence or two.

    Parameters
    ----------
    written : what was written down, and how the lot then stands.
    units : "metric" or "us".
    """
    shelf = written.shelf
    short = short_words(shelf, units)
    match written.event.body:
        case LotReceived():
            return f"On the shelf: {short}."
        case LotOpened():
            return f"Open: {short}. {f'It keeps to {shelf.expires}.' if shelf.expires else ''}".strip()
        case LotMoved():
            return f"{short}: stands {shelf.lot.stored}."
        case LotDiscarded():
            return f"Gone: {short}. {DISPOSAL}"
        case LotRecalled():
            return RECALLED
        case LotUsed():
            return f"Left: {short}."
        case LotCounted() if written.counted is not None:
            return counted_words(written.counted, shelf.lot.unit, units)
        case _:
            return f"Written down: {short}."


def struck_words(body: Body, unit: NeedUnit, units: str) -> str:
    """What a line was drawn through.

    Parameters
    ----------
    body : of the entry.
    unit : the lot's.
    units : "metric" or "us".
    """
    return f"Struck out: {happened(body, unit, units)}. It stays readable and counts in nothing."


def short_words(shelf: OnShelf, units: str) -> str:
    """A lot in short: what is left, of what, its code.

    Parameters
    ----------
    shelf : the lot as it stands.
    units : "metric" or "us".
    """
    there = "" if shelf.state is LotState.DISCARDED else f"{show_amount(shelf.left.amount, shelf.lot.unit, units)} of "
    return f"{there}{name_of(shelf.lot)}, {short_code(shelf.lot.id)}"
