"""Which lot a part is taken from, and what is to be said of one before it is poured."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import Enum

from moldwright.errors import InputRefused
from moldwright.log.codes import URN, short_code
from moldwright.log.event import Event
from moldwright.log.ids import LotId
from moldwright.log.run_events import Weighed
from moldwright.log.standing import standing
from moldwright.plan.mixes import StuffKey
from moldwright.plan.plan import Plan
from moldwright.records.stock.choose import in_turn, partner
from moldwright.records.stock.left import USABLE, LotState
from moldwright.records.stock.shelf import OnShelf
from moldwright.text.shown import short
from moldwright.ways import Deed


class LotDoubt(Enum):
    """Why a lot should not be poured."""

    OTHER_STUFF = 1
    NOT_USABLE = 2
    TOO_LITTLE = 3


@dataclass(frozen=True, slots=True)
class LotFor:
    """A lot for a part, and what is to be said of it first; `left_g`: of it, None where it is not counted in grams."""

    shelf: OnShelf
    doubts: tuple[LotDoubt, ...]
    left_g: float | None


def lot_proposed(
    plan: Plan, events: Iterable[Event], shelves: Sequence[OnShelf], stuff: StuffKey, wanted_g: float
) -> LotFor | None:
    """The lot to take: the one that this run took last as long as it may be used, else that of the kit whose other
    part was taken, else the one that is to be used up first; None where the shop has none.

    Parameters
    ----------
    plan : of the run.
    events : of the run.
    shelves : every lot of the shop as it stands today.
    stuff : of what the part is.
    wanted_g : how much of it goes in [g].
    """
    own = [shelf for shelf in shelves if _is_of(shelf, stuff)]
    usable = in_turn(own)
    taken = _taken(plan, events, shelves)
    last = [shelf for shelf in taken if shelf in usable]
    kit = [match for other in taken if not _is_of(other, stuff) and (match := partner(other, usable)) is not None]
    chosen = next(iter([*reversed(last), *reversed(kit), *usable]), None)
    return None if chosen is None else told_of(chosen, stuff, wanted_g)


def held_back(shelves: Iterable[OnShelf], stuff: StuffKey) -> tuple[LotFor, ...]:
    """Lots of a material that stand there and may not be used: expired or recalled.

    Parameters
    ----------
    shelves : every lot of the shop as it stands today.
    stuff : of what the part is.
    """
    there = (shelf for shelf in shelves if _is_of(shelf, stuff) and shelf.left.amount > 0.0)
    held = (shelf for shelf in there if shelf.state in (LotState.EXPIRED, LotState.RECALLED))
    return tuple(told_of(shelf, stuff, 0.0) for shelf in held)


def told_of(shelf: OnShelf, stuff: StuffKey, wanted_g: float) -> LotFor:
    """A lot with what is to be said of it before it is poured.

    Parameters
    ----------
    shelf : as it stands.
    stuff : of what the part is.
    wanted_g : how much of it goes in [g].
    """
    grams = shelf.lot.grams
    left_g = None if grams is None else shelf.left.amount * grams
    doubts = [LotDoubt.OTHER_STUFF] if not _is_of(shelf, stuff) else []
    doubts += [LotDoubt.NOT_USABLE] if shelf.state not in USABLE else []
    short_of = shelf.state in USABLE and left_g is not None and left_g < wanted_g
    return LotFor(shelf, (*doubts, *([LotDoubt.TOO_LITTLE] if short_of else [])), left_g)


def lot_named(shelves: Iterable[OnShelf], stuff: StuffKey, written: str) -> OnShelf:
    """The lot that is meant by what stands on its label: the supplier's number, its short code or its id.

    Parameters
    ----------
    shelves : every lot of the shop.
    stuff : of what the part is: of two with one number its own is meant.
    written : as typed.

    Raises InputRefused ("lot-unknown", "lot-of-several").
    """
    wanted = written.strip().casefold().removeprefix(URN)
    found = [shelf for shelf in shelves if wanted and wanted in _names(shelf)]
    own = [shelf for shelf in found if _is_of(shelf, stuff)] or found
    if not own:
        remedy = "Type the number or the code on its label, or put a new one on the shelf"
        raise InputRefused("lot-unknown", short(written), "a lot of this shop", "", remedy, Deed.ADD_LOT)
    if len(own) > 1:
        told = ", ".join(short_code(shelf.lot.id) for shelf in own)
        raise InputRefused("lot-of-several", short(written), told, "", "Type the code on its label.")
    return own[0]


def _names(shelf: OnShelf) -> tuple[str, ...]:
    code = short_code(shelf.lot.id).casefold()
    return shelf.lot.id, code, code.replace("-", ""), *([shelf.lot.number.casefold()] if shelf.lot.number else [])


def _is_of(shelf: OnShelf, stuff: StuffKey) -> bool:
    return shelf.lot.stuff.key == stuff


def _taken(plan: Plan, events: Iterable[Event], shelves: Iterable[OnShelf]) -> list[OnShelf]:
    """The lots that the run took, each once, the last one last."""
    known = {shelf.lot.id: shelf for shelf in shelves}
    lots: dict[LotId, None] = {}
    for event in standing(events):
        if isinstance(event.body, Weighed) and event.body.lot in known:
            lots.pop(event.body.lot, None)
            lots[event.body.lot] = None
    return [known[lot] for lot in lots]
