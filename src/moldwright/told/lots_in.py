"""Which lots are in a cast or a mold, for the terminal and for pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from moldwright.log.codes import short_code
from moldwright.log.ids import LotId
from moldwright.records.clock import today
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import lot_on_shelf
from moldwright.records.stock.used_in import LotUse
from moldwright.told.lot_story import StoryLine, use_line
from moldwright.words.marked import words

NONE_IN = words("No lot is named by what was weighed into it.")


@dataclass(frozen=True, slots=True)
class LotIn:
    """A lot that is in it.

    Parameters
    ----------
    lot : which.
    code, name, number : how it is called; `number` as its label has it, "" for none.
    line : how much of it went where.
    """

    lot: LotId
    code: str
    name: str
    number: str
    line: StoryLine


def lots_told(shop: Shop, uses: Iterable[LotUse], units: str) -> Iterator[LotIn]:
    """Lots by what went of them into a cast or a mold.

    Parameters
    ----------
    shop : the store.
    uses : as `lots_in` found them.
    units : "metric" or "us".
    """
    for use in uses:
        lot = lot_on_shelf(shop, use.lot, today()).lot
        yield LotIn(use.lot, short_code(use.lot), lot.stuff.name or lot.stuff.id, lot.number, use_line(use, units))
