"""What is told of a lot: as a row, as lines, as JSON."""

from __future__ import annotations

from typing import Any

from moldwright.log.codes import short_code
from moldwright.log.event import Body, Event
from moldwright.log.ids import FileHash
from moldwright.log.lot_events import (
    LotCounted,
    LotDiscarded,
    LotMoved,
    LotOpened,
    LotPapers,
    LotRecalled,
    LotReceived,
    LotUsed,
)
from moldwright.plan.needs import NeedUnit
from moldwright.records.stock.left import Deviation, LotState
from moldwright.records.stock.lot import Lot
from moldwright.records.stock.shelf import OnShelf
from moldwright.told.amounts import show_amount
from moldwright.told.any_words import behind, entry_line, happened_anywhere
from moldwright.units import show_mass
from moldwright.words.speaker import say


def shelf_tree(shelf: OnShelf) -> dict[str, Any]:
    """A lot as JSON tells it: amounts in its unit, days as ISO 8601.

    Parameters
    ----------
    shelf : the lot as it stands.
    """
    lot, received = shelf.lot, shelf.lot.received
    return {
        "id": lot.id,
        "code": short_code(lot.id),
        "kind": lot.stuff.kind,
        "material": lot.stuff.id,
        "name": lot.stuff.name,
        "unit": lot.unit.value,
        "left": shelf.left.amount,
        "over": shelf.left.over,
        "state": shelf.state.value,
        "expires": shelf.expires,
        "stored": lot.stored,
        "number": lot.number,
        "supplier": received.supplier,
        "received": received.on,
        "amount": received.amount,
        "opened": lot.opened,
        "life_days": received.life_days,
        "density_g_ml": received.density_g_ml,
        "weighed": shelf.left.weighed,
        "not_counted_g": shelf.left.aside_g,
        "recalled": lot.recalled,
        "discarded": lot.discarded,
        "notes": list(lot.notes),
        "certificate": lot.certificate,
        "data_sheet": lot.sheet,
    }


def name_of(lot: Lot) -> str:
    """What a lot is of, for people.

    Parameters
    ----------
    lot : the lot.
    """
    return lot.stuff.name or lot.stuff.id


def warnings(shelf: OnShelf, units: str) -> list[str]:
    """The same as lines of a terminal.

    Parameters
    ----------
    shelf : the lot as it stands.
    units : "metric" or "us".
    """
    return [f"! {heed}" for heed in heeds_of(shelf, units)]


def heeds_of(shelf: OnShelf, units: str) -> list[str]:
    """What must be known before a lot is used.

    Parameters
    ----------
    shelf : the lot as it stands.
    units : "metric" or "us".
    """
    lot, left = shelf.lot, shelf.left
    lines = []
    if lot.recalled is not None:
        lines.append(say("recalled: {recalled}. Not to be used; look at what was made of it.", recalled=lot.recalled))
    if shelf.state is LotState.EXPIRED:
        lines.append(
            say(
                "expired on {expires}: its data sheet tells whether and how it may be tested and used.",
                expires=shelf.expires,
            )
        )
    if left.over:
        over = show_amount(left.over, lot.unit, units)
        lines.append(say("the log says {over} more were used than there were: count it.", over=over))
    if left.aside_g:
        aside = show_mass(left.aside_g, units)
        lines.append(
            say(
                "{aside} were weighed of it; they do not count, as its density is not known: count it by hand.",
                aside=aside,
            )
        )
    return lines


def title_of(lot: Lot) -> str:
    """A lot's material with what the lists call it.

    Parameters
    ----------
    lot : the lot.
    """
    return f"{name_of(lot)}  ({' '.join(filter(None, (lot.stuff.kind, lot.stuff.id)))})"


def facts_of(shelf: OnShelf, units: str) -> list[tuple[str, str]]:
    """What is known of a lot: what each is called, and the words; what nobody told is left out.

    Parameters
    ----------
    shelf : the lot as it stands.
    units : "metric" or "us".
    """
    lot, received = shelf.lot, shelf.lot.received
    life = (
        say("{life_days} days once it is open", life_days=received.life_days) if received.life_days is not None else ""
    )
    rows = [
        (say("code"), short_code(lot.id)),
        (say("left"), show_amount(shelf.left.amount, lot.unit, units)),
        (say("state"), say(shelf.state.value)),
        (say("keeps to"), shelf.expires or say("not known")),
        (say("keeps"), life),
        (say("opened"), lot.opened),
        (say("stands"), lot.stored),
        (say("number"), lot.number),
        (say("supplier"), received.supplier),
        (say("came in"), say("{amount} on {on}", amount=show_amount(received.amount, lot.unit, units), on=received.on)),
        (say("papers"), ", ".join(text for text, _ in papers_of(lot))),
        (say("discarded"), lot.discarded or (say("yes") if lot.discarded is not None else "")),
        *((say("note"), note) for note in lot.notes),
    ]
    return [(name, text) for name, text in rows if text]


def papers_of(lot: Lot) -> list[tuple[str, FileHash]]:
    """The papers that are kept with a lot: what each is, and its file.

    Parameters
    ----------
    lot : the lot.
    """
    named = ((say("certificate"), lot.certificate), (say("safety data sheet"), lot.sheet))
    told = [(name, file) for name, file in named if file is not None]
    return [*told, *((each.text or say("a file"), each.file) for each in lot.files)]


def lines_of(shelf: OnShelf, units: str) -> list[str]:
    """A lot told at length, as lines of a terminal.

    Parameters
    ----------
    shelf : the lot as it stands.
    units : "metric" or "us".
    """
    shown = [f"  {name:<10} {text}" for name, text in facts_of(shelf, units)]
    return [title_of(shelf.lot), *shown, *(f"  {line}" for line in warnings(shelf, units))]


def counted_words(counted: Deviation, unit: NeedUnit, units: str) -> str:
    """What a count found.

    Parameters
    ----------
    counted : found and said.
    unit : the lot's.
    units : "metric" or "us".
    """
    said, found = (show_amount(max(each, 0.0), unit, units) for each in (counted.said, counted.found))
    if counted.more == 0.0:
        return say("As the log said: {found}.", found=found)
    off = show_amount(abs(counted.more), unit, units)
    told = say("less than nothing") if counted.said < 0 else said
    if counted.more > 0:
        return say(
            "{found} on the shelf, {told} by the log: {off} more. It counts from here.", found=found, told=told, off=off
        )
    return say(
        "{found} on the shelf, {told} by the log: {off} less. It counts from here.", found=found, told=told, off=off
    )


def event_line(event: Event, unit: NeedUnit, units: str, gone: bool) -> str:
    """One line of a lot's log, with the code by which it is struck out.

    Parameters
    ----------
    event : of the lot.
    unit : the lot's.
    units : "metric" or "us".
    gone : whether a line goes through it.
    """
    return f"  {entry_line(event, happened(event.body, unit, units), gone)}"


def happened(body: Body, unit: NeedUnit, units: str) -> str:  # noqa: PLR0911
    """What happened to a lot, in words.

    Parameters
    ----------
    body : of an event.
    unit : the lot's.
    units : "metric" or "us".
    """
    match body:
        case LotReceived(amount=amount):
            return say("came in, {amount}", amount=show_amount(amount, unit, units))
        case LotOpened(on):
            return say("opened on {on}", on=on)
        case LotCounted(amount):
            return say("counted, {amount}", amount=show_amount(amount, unit, units))
        case LotUsed(amount, why):
            return say("used, {amount}{why}", amount=show_amount(amount, unit, units), why=behind(why))
        case LotMoved(stored):
            return say("moved to {stored}", stored=stored)
        case LotPapers():
            return say("papers kept with it")
        case LotDiscarded(why):
            return say("discarded{why}", why=behind(why))
        case LotRecalled(why):
            return say("recalled: {why}", why=why)
        case _:
            return happened_anywhere(body)
