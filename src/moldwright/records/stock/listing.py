"""The shelf as it is looked through: lots by material in their turn, searched, of one kind or state, in some order."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Any

from moldwright.log.codes import short_code
from moldwright.log.ids import LotId
from moldwright.plan.mixes import StuffKey
from moldwright.records.clock import today
from moldwright.records.shop import Shop
from moldwright.records.stock.catalog import Offer, material
from moldwright.records.stock.choose import LATEST, in_turn
from moldwright.records.stock.left import LotState
from moldwright.records.stock.shelf import OnShelf, on_shelf
from moldwright.text.looked_for import says_all

GONE = (LotState.DISCARDED, LotState.USED_UP)


class LotOrder(StrEnum):
    """In which order lots are listed."""

    MATERIAL = "material"
    EXPIRY = "expiry"
    LEFT = "left"
    PLACE = "place"
    NEWEST = "newest"


@dataclass(frozen=True, slots=True)
class ListedLots:
    """The lots of one material: those to use in their turn, then the others; `first`: where there is a choice."""

    shelves: tuple[OnShelf, ...]
    first: LotId | None


@dataclass(frozen=True, slots=True)
class LotsAsked:
    """Which lots are meant.

    Parameters
    ----------
    text : words that all stand in what is told of the lot, in any order and case; "" for any.
    kind : of its material, "" for any.
    state : in which it is, None for any that is not gone.
    order : in which they are listed.
    gone : those too that are discarded or used up.
    """

    text: str = ""
    kind: str = ""
    state: LotState | None = None
    order: LotOrder = LotOrder.MATERIAL
    gone: bool = False


@dataclass(frozen=True, slots=True)
class ListedLot:
    """A lot in a list; `first`: it is the one to take of its material, where there is a choice."""

    shelf: OnShelf
    first: bool


def listed(shop: Shop, wanted: str, all_: bool) -> tuple[ListedLots, ...]:
    """Lots by material, each material's in their turn.

    Parameters
    ----------
    shop : the store.
    wanted : one material, "" for all.
    all_ : those that are gone too.

    Raises InputRefused ("unknown-material", "several-materials").
    """
    shelves = on_shelf(shop, today(), gone=all_)
    if wanted.strip():
        stuffs = {shelf.lot.stuff.key: Offer(shelf.lot.stuff) for shelf in shelves}
        key = material(wanted, stuffs.values()).stuff.key
        shelves = tuple(shelf for shelf in shelves if shelf.lot.stuff.key == key)
    return grouped(shelves, all_)


def grouped(shelves: Iterable[OnShelf], all_: bool) -> tuple[ListedLots, ...]:
    """Lots by material, each material's in their turn.

    Parameters
    ----------
    shelves : the lots.
    all_ : those that are gone too.
    """
    groups: dict[StuffKey, list[OnShelf]] = {}
    for shelf in sorted(shelves, key=lambda shelf: (shelf.lot.stuff.kind, shelf.lot.stuff.id)):
        if all_ or shelf.state not in GONE or shelf.left.over:
            groups.setdefault(shelf.lot.stuff.key, []).append(shelf)
    return tuple(_in_turn(group) for group in groups.values())


def _in_turn(group: Iterable[OnShelf]) -> ListedLots:
    shelves = list(group)
    ready = in_turn(shelves)
    rest = [shelf for shelf in shelves if shelf not in ready]
    return ListedLots((*ready, *rest), ready[0].lot.id if len(ready) > 1 else None)


def lots_asked(shelves: Iterable[OnShelf], asked: LotsAsked) -> tuple[ListedLot, ...]:
    """The lots that are meant, in the order that is meant; which of a material is to be taken is told of all its lots.

    Parameters
    ----------
    shelves : all lots.
    asked : which, and how.
    """
    gone = asked.gone or asked.state in GONE
    every = [ListedLot(s, s.lot.id == group.first) for group in grouped(shelves, gone) for s in group.shelves]
    kept = [each for each in every if _is_meant(each.shelf, asked) and says_all(_told(each.shelf), asked.text)]
    order = ORDERS.get(asked.order)
    return tuple(sorted(kept, key=lambda each: order(each.shelf)) if order else kept)


def _is_meant(shelf: OnShelf, asked: LotsAsked) -> bool:
    right = not asked.kind or shelf.lot.stuff.kind == asked.kind
    return right and (asked.state is None or shelf.state is asked.state)


def _told(shelf: OnShelf) -> str:
    lot = shelf.lot
    code = short_code(lot.id)
    told = (lot.stuff.name, lot.stuff.id, lot.stuff.kind, lot.number, lot.received.supplier, lot.stored, code,
            code.replace("-", ""), shelf.state.value, *lot.notes)  # fmt: skip
    return "\n".join(told)


def _backwards(shelf: OnShelf) -> tuple[int, ...]:
    return tuple(-ord(each) for each in f"{shelf.lot.received.on} {shelf.lot.id}")


ORDERS: Mapping[LotOrder, Callable[[OnShelf], Any]] = MappingProxyType(
    {
        LotOrder.EXPIRY: lambda shelf: shelf.expires or LATEST,
        LotOrder.LEFT: lambda shelf: (shelf.lot.unit, shelf.left.amount),
        LotOrder.PLACE: lambda shelf: (not shelf.lot.stored, shelf.lot.stored.casefold()),
        LotOrder.NEWEST: _backwards,
    }
)
"""What lots are ordered by; those of no other order stand by material, each in its turn. A tie keeps that order."""
