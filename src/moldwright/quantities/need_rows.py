"""Rows of the shopping list."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import ceil, floor

from moldwright.commission.orders import Commission
from moldwright.materials import Library
from moldwright.materials.kinds import Coating, Consumable
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.mixes import MixPlan
from moldwright.plan.mold import BandagePlan
from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.quantities.chosen import Chosen
from moldwright.quantities.rubber import RubberQuantities
from moldwright.ranges import Range

WHOLE = (NeedUnit.EACH, NeedUnit.PAIR)


@dataclass(frozen=True, slots=True)
class NeedScope:
    """What the shopping list is summed from."""

    commission: Commission
    library: Library
    chosen: Chosen
    measures: MoldMeasures
    rubber: RubberQuantities
    bandage: BandagePlan | None
    mixes: tuple[MixPlan, ...]
    patch_test: bool


def row(id_: str, material: str, amount: Range, unit: NeedUnit, for_: NeedGroup) -> NeedPlan:
    """One row; whole pieces are rounded up, masses and volumes to 0.1.

    Parameters
    ----------
    id_ : the material's id
    material : its sheet's name, "" where it has no sheet
    amount : how much, in `unit`
    unit : what it is counted in
    for_ : the list's group

    Source: arithmetic.

    >>> row("band", "band", Range(1.2, 1.5, 2.5), NeedUnit.EACH, NeedGroup.SHELL).amount
    Range(low=1.0, likely=2.0, high=3.0)
    """
    if unit in WHOLE:
        amount = Range(float(floor(amount.low)), float(ceil(amount.likely - 1e-9)), float(ceil(amount.high - 1e-9)))
    else:
        amount = Range(round(amount.low, 1), round(amount.likely, 1), round(amount.high, 1))
    return NeedPlan(id_, material, amount, unit, for_)


def each(count: int) -> Range:
    """So many pieces, exactly.

    Parameters
    ----------
    count : how many, >= 0

    Source: arithmetic.
    """
    return Range.exactly(float(count))


def used(scope: NeedScope, id_: str, uses: int, for_: NeedGroup) -> Iterable[NeedPlan]:
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
        yield consumed(sheet, sheet.rate_per_use.range * uses, for_)


def consumed(sheet: Consumable, amount: Range, for_: NeedGroup) -> NeedPlan:
    """So much of a consumable.

    Parameters
    ----------
    sheet : the consumable's
    amount : in the sheet's own unit
    for_ : the list's group

    Source: arithmetic.
    """
    return row(sheet.id, sheet.name, amount, NeedUnit(sheet.unit), for_)


def coated(coating: Coating, area_m2: float, for_: NeedGroup) -> NeedPlan:
    """A release, sealer or wax for an area: `coverage x coats x area`.

    Parameters
    ----------
    coating : its sheet
    area_m2 : what is covered [m2]
    for_ : the list's group

    Source: the sheet.
    """
    layer, coats = coating.coverage_g_m2, coating.coats
    amount = Range(
        layer.low * coats.low * area_m2, layer.likely * coats.likely * area_m2, layer.high * coats.high * area_m2
    )
    return row(coating.id, coating.name, amount, NeedUnit.GRAM, for_)


def merged(rows: Iterable[NeedPlan]) -> tuple[NeedPlan, ...]:
    """Rows of the same thing in the same group added up, in the order of their first mention.

    Parameters
    ----------
    rows : the list so far

    Source: arithmetic.
    """
    together: dict[tuple[str, NeedGroup], NeedPlan] = {}
    for need in rows:
        key = (need.id, need.for_)
        known = together.get(key)
        amount = need.amount if known is None else known.amount + need.amount
        rounded = row(need.id, need.material, amount, need.unit, need.for_)
        together[key] = replace(need, amount=rounded.amount)
    return tuple(together.values())
