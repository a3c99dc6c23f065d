"""Of which lot the next part is taken: the one that somebody chose, else the proposed one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from moldwright.log.ids import LotId
from moldwright.plan.mixes import StuffKey
from moldwright.records.runs.lots import LotFor, held_back, lot_proposed, told_of
from moldwright.records.runs.next_act import NextAct, Press
from moldwright.records.runs.opened import OpenRun
from moldwright.records.stock.shelf import OnShelf


def stuff_of(next_: NextAct) -> StuffKey:
    """Of what the next part is.

    Parameters
    ----------
    next_ : what is next: a part that is weighed.
    """
    assert next_.cup is not None
    assert next_.part is not None
    kind = next_.part.kind
    return next(part.stuff for part in next_.cup.mix.parts if part.kind == kind)


def lot_for(
    run: OpenRun, next_: NextAct, shelves: Sequence[OnShelf], chosen: Mapping[StuffKey, LotId]
) -> LotFor | None:
    """The lot that the next part is taken from; None where none is weighed, or the shop has none.

    Parameters
    ----------
    run : as it stands.
    next_ : what is next.
    shelves : every lot of the shop as it stands today.
    chosen : the lots that somebody chose.
    """
    if next_.press is not Press.WEIGH or next_.cup is None or next_.part is None:
        return None
    stuff = stuff_of(next_)
    shelf = next((each for each in shelves if each.lot.id == chosen.get(stuff)), None)
    if shelf is not None:
        return told_of(shelf, stuff, next_.part.add_g)
    return lot_proposed(run.plan, run.events, shelves, stuff, next_.part.add_g)


def lots_there(next_: NextAct, shelves: Sequence[OnShelf]) -> tuple[LotFor, ...]:
    """Every lot of the next part that stands there, with what is to be said of it.

    Parameters
    ----------
    next_ : what is next.
    shelves : every lot of the shop as it stands today.
    """
    if next_.press is not Press.WEIGH or next_.cup is None or next_.part is None:
        return ()
    stuff = stuff_of(next_)
    own = (each for each in shelves if each.lot.stuff.key == stuff and each.left.amount > 0.0)
    return tuple(told_of(each, stuff, next_.part.add_g) for each in own)


def held_for(next_: NextAct, shelves: Sequence[OnShelf]) -> tuple[LotFor, ...]:
    """Lots of the next part that stand there and may not be used.

    Parameters
    ----------
    next_ : what is next.
    shelves : every lot of the shop as it stands today.
    """
    weighs = next_.press is Press.WEIGH and next_.cup is not None and next_.part is not None
    return held_back(shelves, stuff_of(next_)) if weighs else ()
