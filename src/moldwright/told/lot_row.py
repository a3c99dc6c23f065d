"""A lot as a list tells it."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.log.codes import short_code
from moldwright.log.ids import LotId
from moldwright.records.stock.left import LotState
from moldwright.records.stock.shelf import OnShelf
from moldwright.told.amounts import show_amount
from moldwright.told.lot_words import heeds_of, name_of
from moldwright.words.marked import words

TAKE_FIRST = words("take this first")


@dataclass(frozen=True, slots=True)
class LotRow:
    """A lot as a list tells it.

    `left`: "" of what was discarded; `part`: what is left of what came in, 0 to 1, to draw it; `first`: it is the one
    to take; `heeds`: what must be known before it is used.
    """

    id: LotId
    code: str
    name: str
    kind: str
    left: str
    part: float
    state: LotState
    expires: str
    stored: str
    number: str
    supplier: str
    first: bool
    heeds: tuple[str, ...]


def lot_row(shelf: OnShelf, units: str, first: bool = False) -> LotRow:
    """A lot as a list tells it.

    Parameters
    ----------
    shelf : the lot as it stands.
    units : "metric" or "us".
    first : whether it is the one to take.
    """
    lot, left = shelf.lot, shelf.left.amount
    return LotRow(
        lot.id,
        short_code(lot.id),
        name_of(lot),
        lot.stuff.kind,
        "" if shelf.state is LotState.DISCARDED else show_amount(left, lot.unit, units),
        min(left / lot.received.amount, 1.0),
        shelf.state,
        shelf.expires,
        lot.stored,
        lot.number,
        lot.received.supplier,
        first,
        tuple(heeds_of(shelf, units)),
    )


def row_of(shelf: OnShelf, units: str, first: bool) -> str:
    """The same as lines of a terminal.

    Parameters
    ----------
    shelf : the lot as it stands.
    units : "metric" or "us".
    first : whether it is the one to take.
    """
    row = lot_row(shelf, units, first)
    keeps = f"keeps to {row.expires}" if row.expires else ""
    told = [
        keeps,
        row.stored,
        f"number {row.number}" if row.number else "",
        TAKE_FIRST if row.first else "",
    ]
    line = f"{row.code}  {row.left:>14}  {row.state.value:<9}  {' · '.join(part for part in told if part)}"
    return "\n".join([f"  {line.rstrip()}", *(f"      ! {heed}" for heed in row.heeds)])
