"""Rows of the shopping list."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, floor

from moldwright.commission.orders import Commission
from moldwright.materials import Library
from moldwright.mold.volumes import MoldVolumes
from moldwright.plan.plan import BandagePlan, CoatPlan, MixPlan, NeedPlan, PartPlan
from moldwright.quantities.chosen import Chosen
from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class NeedScope:
    """What the shopping list is summed from."""

    commission: Commission
    library: Library
    chosen: Chosen
    volumes: MoldVolumes
    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    bandage: BandagePlan | None
    mixes: tuple[MixPlan, ...]
    patch_test: bool


def row(id_: str, name: str, amount: Range, unit: str, for_: str) -> NeedPlan:
    """One row; whole pieces are rounded up, masses and volumes to 0.1.

    Parameters
    ----------
    id_ : the material's id
    name : what is bought
    amount : how much, in `unit`
    unit : "g", "ml", "each", "pair" or "m"
    for_ : "rubber", "shell", "casting", "finishing" or "protection"

    Source: arithmetic.

    >>> row("band", "band", Range(1.2, 1.5, 2.5), "each", "shell").amount
    Range(low=1.0, likely=2.0, high=3.0)
    """
    if unit in ("each", "pair"):
        amount = Range(float(floor(amount.low)), float(ceil(amount.likely - 1e-9)), float(ceil(amount.high - 1e-9)))
    else:
        amount = Range(round(amount.low, 1), round(amount.likely, 1), round(amount.high, 1))
    return NeedPlan(id_, name, amount, unit, for_)


def each(count: int) -> Range:
    """So many pieces, exactly.

    Parameters
    ----------
    count : how many, >= 0

    Source: arithmetic.
    """
    return Range.exactly(float(count))


def used(scope: NeedScope, id_: str, uses: int, for_: str) -> Iterable[NeedPlan]:
    """A consumable for so many uses, as its sheet tells; nothing for none.

    Parameters
    ----------
    scope : where the library is
    id_ : the consumable's id
    uses : how often, >= 0
    for_ : the list's group

    Source: the sheet's rate per use (common practice, no source).
    """
    if uses > 0:
        sheet = scope.library.consumable(id_)
        yield row(id_, sheet.name, sheet.rate_per_use.range * uses, sheet.unit, for_)


def merged(rows: Iterable[NeedPlan]) -> tuple[NeedPlan, ...]:
    """Rows of the same thing in the same group added up, in the order of their first mention.

    Parameters
    ----------
    rows : the list so far

    Source: arithmetic.
    """
    together: dict[tuple[str, str], NeedPlan] = {}
    for need in rows:
        key = (need.id, need.for_)
        known = together.get(key)
        amount = need.amount if known is None else known.amount + need.amount
        together[key] = row(need.id, need.name, amount, need.unit, need.for_)
    return tuple(together.values())
