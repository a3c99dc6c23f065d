"""Which lot to take: the one that expires first, of those that may be used."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from moldwright.log.ids import LotId
from moldwright.records.stock.left import FINE, LotState
from moldwright.records.stock.shelf import OnShelf

LATEST = "9999-12-31"
"""Where nobody knows how long a lot keeps it comes after all others."""
_PART = re.compile(r"[\s._/-]*\(?\b(?:part\s*)?[ab]\)?$", flags=re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Pick:
    """So much of a lot, in its unit; `opens`: its seal must be broken for it."""

    lot: LotId
    amount: float
    opens: bool


@dataclass(frozen=True, slots=True)
class Picked:
    """What to take, one lot after the other; `short`: how much of what is wanted no lot holds."""

    picks: tuple[Pick, ...]
    short: float


def in_turn(shelves: Iterable[OnShelf]) -> tuple[OnShelf, ...]:
    """Lots in the order in which they are to be used: first what expires first, then what is open, then the older one.

    Parameters
    ----------
    shelves : lots of one material; what may not go into a cup is left out.

    Source: first expired, first out: common practice, no source.
    """
    return tuple(sorted((shelf for shelf in shelves if shelf.usable), key=_turn))


def _turn(shelf: OnShelf) -> tuple[str, bool, str, str]:
    sealed = shelf.state is not LotState.OPEN
    return shelf.expires or LATEST, sealed, shelf.lot.received.on, shelf.lot.id


def take(shelves: Iterable[OnShelf], amount: float) -> Picked:
    """So much of a material from its lots in their turn.

    Parameters
    ----------
    shelves : lots of one material in one unit.
    amount : what is wanted, in that unit.

    Source: arithmetic.
    """
    wanted = amount
    picks = []
    for shelf in in_turn(shelves):
        if wanted <= 0.0:
            break
        taken = min(wanted, shelf.left.amount)
        picks.append(Pick(shelf.lot.id, round(taken, FINE), shelf.state is LotState.SEALED))
        wanted = round(wanted - taken, FINE)
    return Picked(tuple(picks), max(wanted, 0.0))


def partner(first: OnShelf, others: Sequence[OnShelf]) -> OnShelf | None:
    """The lot of the other part that belongs to the same kit, as the number on both labels says; None: no number says.

    Parameters
    ----------
    first : a lot of one part.
    others : lots of the other.

    Source: kits are sold with one number, often with the part's letter behind it: common practice, no source.
    """
    kit = kit_of(first.lot.number)
    return next((other for other in in_turn(others) if kit and kit_of(other.lot.number) == kit), None)


def kit_of(number: str) -> str:
    """A label's number without the letter of its part.

    Parameters
    ----------
    number : as it stands on the label.

    >>> kit_of("4711-A"), kit_of("4711 (b)"), kit_of("4711"), kit_of("A")
    ('4711', '4711', '4711', '')
    """
    return _PART.sub("", number.strip()).casefold()
