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
from moldwright.words.marked import words
from moldwright.words.speaker import say

DISPOSAL = words("How it is disposed of: its safety data sheet and local rules.")


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
            return say("On the shelf: {short}.", short=short)
        case LotOpened():
            keeps = say("It keeps to {expires}.", expires=shelf.expires) if shelf.expires else ""
            return say("Open: {short}. {keeps}", short=short, keeps=keeps).strip()
        case LotMoved():
            return say("{short}: stands {stored}.", short=short, stored=shelf.lot.stored)
        case LotDiscarded():
            return say("Gone: {short}. {disposal}", short=short, disposal=say(DISPOSAL))
        case LotRecalled():
            return say(RECALLED)
        case LotUsed():
            return say("Left: {short}.", short=short)
        case LotCounted() if written.counted is not None:
            return counted_words(written.counted, shelf.lot.unit, units)
        case _:
            return say("Written down: {short}.", short=short)


def struck_words(body: Body, unit: NeedUnit, units: str) -> str:
    """What a line was drawn through.

    Parameters
    ----------
    body : of the entry.
    unit : the lot's.
    units : "metric" or "us".
    """
    return say("Struck out: {happened}. It stays readable and counts in nothing.", happened=happened(body, unit, units))


def short_words(shelf: OnShelf, units: str) -> str:
    """A lot in short: what is left, of what, its code.

    Parameters
    ----------
    shelf : the lot as it stands.
    units : "metric" or "us".
    """
    there = (
        ""
        if shelf.state is LotState.DISCARDED
        else say("{amount} of ", amount=show_amount(shelf.left.amount, shelf.lot.unit, units))
    )
    return f"{there}{name_of(shelf.lot)}, {short_code(shelf.lot.id)}"
