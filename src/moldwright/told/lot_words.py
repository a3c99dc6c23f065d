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
    LotRecalled,
    LotReceived,
    LotUsed,
)
from moldwright.plan.needs import NeedUnit
from moldwright.records.stock.left import Deviation, LotState
from moldwright.records.stock.lot import Lot
from moldwright.records.stock.shelf import OnShelf
from moldwright.told.amounts import show_amount
from moldwright.told.any_words import entry_line, happened_anywhere
from moldwright.units import show_mass


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
        "certificate": received.certificate,
        "data_sheet": received.sheet,
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
        lines.append(f"recalled: {lot.recalled}. Not to be used; look at what was made of it.")
    if shelf.state is LotState.EXPIRED:
        lines.append(f"expired on {shelf.expires}: its data sheet tells whether and how it may be tested and used.")
    if left.over:
        over = show_amount(left.over, lot.unit, units)
        lines.append(f"the log says {over} more were used than there were: count it.")
    if left.aside_g:
        aside = show_mass(left.aside_g, units)
        lines.append(f"{aside} were weighed of it; they do not count, as its density is not known: count it by hand.")
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
    life = f"{received.life_days} days once it is open" if received.life_days is not None else ""
    rows = [
        ("code", short_code(lot.id)),
        ("left", show_amount(shelf.left.amount, lot.unit, units)),
        ("state", shelf.state.value),
        ("keeps to", shelf.expires or "not known"),
        ("keeps", life),
        ("opened", lot.opened),
        ("stands", lot.stored),
        ("number", lot.number),
        ("supplier", received.supplier),
        ("came in", f"{show_amount(received.amount, lot.unit, units)} on {received.on}"),
        ("papers", ", ".join(text for text, _ in papers_of(lot))),
        ("discarded", lot.discarded or ("yes" if lot.discarded is not None else "")),
        *(("note", note) for note in lot.notes),
    ]
    return [(name, text) for name, text in rows if text]


def papers_of(lot: Lot) -> list[tuple[str, FileHash]]:
    """The papers that are kept with a lot: what each is, and its file.

    Parameters
    ----------
    lot : the lot.
    """
    named = (("certificate", lot.received.certificate), ("safety data sheet", lot.received.sheet))
    told = [(name, file) for name, file in named if file is not None]
    return [*told, *((each.text or "a file", each.file) for each in lot.files)]


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
        return f"As the log said: {found}."
    off = show_amount(abs(counted.more), unit, units)
    told = "less than nothing" if counted.said < 0 else said
    return (
        f"{found} on the shelf, {told} by the log: {off} {'more' if counted.more > 0 else 'less'}. It counts from here."
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
            return f"came in, {show_amount(amount, unit, units)}"
        case LotOpened(on):
            return f"opened on {on}"
        case LotCounted(amount):
            return f"counted, {show_amount(amount, unit, units)}"
        case LotUsed(amount, why):
            return f"used, {show_amount(amount, unit, units)}{f': {why}' if why else ''}"
        case LotMoved(stored):
            return f"moved to {stored}"
        case LotDiscarded(why):
            return f"discarded{f': {why}' if why else ''}"
        case LotRecalled(why):
            return f"recalled: {why}"
        case _:
            return happened_anywhere(body)
