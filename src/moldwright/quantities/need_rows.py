"""Rows of the shopping list."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import ceil, floor

from moldwright.commission.orders import Commission
from moldwright.materials import Library
from moldwright.materials.compatibility import Trial
from moldwright.materials.kinds import Coating, Consumable, Release, Sheet
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.closure import ClosurePlan
from moldwright.plan.mixes import MixPlan
from moldwright.plan.mold import BandagePlan, MatsPlan, PartingPlan
from moldwright.plan.needs import NeedForm, NeedGroup, NeedPlan, NeedUnit
from moldwright.plan.stand import StandPlan
from moldwright.quantities.cast_doubt import CastDoubt
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
    doubt: CastDoubt
    bandage: BandagePlan | None
    mats: MatsPlan | None
    parting: PartingPlan
    closure: ClosurePlan
    mixes: tuple[MixPlan, ...]
    trials: frozenset[Trial]
    stand: StandPlan | None = None


def row(sheet: Sheet, amount: Range, unit: NeedUnit, for_: NeedGroup) -> NeedPlan:
    """One row for a sheet's material.

    Parameters
    ----------
    sheet : the material's
    amount : how much, in `unit`
    unit : what it is counted in
    for_ : the list's group

    Source: arithmetic.
    """
    return NeedPlan(sheet.kind, sheet.id, sheet.name, shown_amount(amount, unit), unit, for_)


def plain_row(id_: str, amount: Range, unit: NeedUnit, for_: NeedGroup) -> NeedPlan:
    """One row for a thing that has no sheet.

    Parameters
    ----------
    id_ : its id, under which its words stand
    amount : how much, in `unit`
    unit : what it is counted in
    for_ : the list's group

    Source: arithmetic.

    """
    return NeedPlan("", id_, "", shown_amount(amount, unit), unit, for_)


def shown_amount(amount: Range, unit: NeedUnit) -> Range:
    """What the list shows: whole pieces are rounded up, masses and volumes to 0.1.

    Parameters
    ----------
    amount : how much, in `unit`
    unit : what it is counted in

    Source: arithmetic.

    >>> shown_amount(Range(1.2, 1.5, 2.5), NeedUnit.EACH)
    Range(low=1.0, likely=2.0, high=3.0)
    """
    if unit in WHOLE:
        return Range(float(floor(amount.low)), float(ceil(amount.likely - 1e-9)), float(ceil(amount.high - 1e-9)))
    return Range(round(amount.low, 1), round(amount.likely, 1), round(amount.high, 1))


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
    return row(sheet, amount, NeedUnit(sheet.unit), for_)


def coated(coating: Coating, area_m2: float, for_: NeedGroup) -> NeedPlan:
    """A release, sealer or wax for an area.

    Parameters
    ----------
    coating : its sheet
    area_m2 : what is covered [m2]
    for_ : the list's group

    Source: the sheet.
    """
    return row(coating, coating_g(coating, area_m2), NeedUnit.GRAM, for_)


def released(release: Release, area_m2: float, for_: NeedGroup) -> Iterable[NeedPlan]:
    """A release for an area; one that the shop thins as what is bought and what thins it.

    Parameters
    ----------
    release : its sheet
    area_m2 : what is covered [m2]
    for_ : the list's group

    Source: the sheet.
    """
    if release.thinner_pct is None:
        yield coated(release, area_m2, for_)
        return
    laid, thinner = coating_g(release, area_m2), release.thinner_pct.likely / 100.0
    yield replace(row(release, laid * (1.0 - thinner), NeedUnit.GRAM, for_), form=NeedForm.STOCK)
    yield plain_row(f"thinner-{'-'.join(release.carrier.split())}", laid * thinner, NeedUnit.GRAM, for_)


def coating_g(coating: Coating, area_m2: float) -> Range:
    """Mass of a release, sealer or wax on an area [g]: `coverage x coats x area`.

    Parameters
    ----------
    coating : its sheet
    area_m2 : what is covered [m2]

    Source: the sheet.
    """
    layer, coats = coating.coverage_g_m2, coating.coats
    return Range(
        layer.low * coats.low * area_m2, layer.likely * coats.likely * area_m2, layer.high * coats.high * area_m2
    )


def merged(rows: Iterable[NeedPlan]) -> tuple[NeedPlan, ...]:
    """Rows of the same thing in the same group added up, in the order of their first mention.

    Parameters
    ----------
    rows : the list so far

    Source: arithmetic.
    """
    together: dict[tuple[object, ...], NeedPlan] = {}
    for need in rows:
        key = (need.kind, need.id, need.for_, need.size_ml, need.cups_for)
        known = together.get(key, replace(need, amount=Range.exactly(0.0), spare=False))
        amount, spare = known.amount + need.amount, known.spare or need.spare
        together[key] = replace(known, amount=shown_amount(amount, need.unit), spare=spare)
    return tuple(together.values())
