"""The forecast over a store: lots, what was weighed in a year, the runs under way and the plans that are named."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from moldwright.log.lot_events import LotDiscarded, LotReceived
from moldwright.materials import Library
from moldwright.plan.mixes import StuffKey
from moldwright.plan.needs import NeedUnit
from moldwright.plan.plan import Plan
from moldwright.records.shop import Shop
from moldwright.records.stock.catalog import Offer, material, offers
from moldwright.records.stock.demand import StillNeeded, WorkAhead, needed_by_plan, needs_of, together
from moldwright.records.stock.forecast import Outlook, Row, outlooks, year_back
from moldwright.records.stock.lot import EVER
from moldwright.records.stock.runs import work_ahead
from moldwright.records.stock.shelf import OnShelf, lot_events, lots_within, shelves_of
from moldwright.records.stock.weighed import weighed_by


@dataclass(frozen=True, slots=True)
class Forecast:
    """Every material's outlook, and the runs under way. `once`: plans that were named though they are under way: what
    their runs need yet is counted, and no second time."""

    outlooks: tuple[Outlook, ...]
    runs: tuple[WorkAhead, ...]
    once: tuple[str, ...] = ()


def forecast(shop: Shop, library: Library, today: str, now_ms: int, plans: Iterable[Plan] = ()) -> Forecast:
    """How long each material lasts.

    Parameters
    ----------
    shop : the store.
    library : the sheets, for densities.
    today : the shop's date, ISO 8601.
    now_ms : milliseconds since 1970-01-01 UTC.
    plans : of work ahead that is not begun.
    """
    runs, step = work_ahead(shop, now_ms), year_back(today)
    plans, under_way = tuple(plans), {run.plan_hash for run in runs if not run.still}
    fresh = [plan for plan in plans if plan.plan_hash not in under_way]
    needs = together([*(run.needs for run in runs), *(needed_by_plan(needs_of(plan)) for plan in fresh)])
    with shop.reading() as connection:
        sums = weighed_by(connection, dict.fromkeys(lots_within(connection, LotReceived), EVER), step)
        gone = lots_within(connection, LotDiscarded) - sums.keys()
        events = lot_events(connection, gone)
        shelves = shelves_of(connection, events, today)
    rows = _in_grams(needs, _densities(library, shelves))
    return Forecast(
        outlooks(shelves, events, sums, rows, today), runs, tuple(plan.name for plan in plans if plan not in fresh)
    )


def outlooks_of(found: Forecast, wanted: str) -> tuple[Outlook, ...]:
    """The outlooks of one material, or of all.

    Parameters
    ----------
    found : the forecast.
    wanted : the material as it was typed, "" for all.

    Raises InputRefused ("unknown-material", "several-materials").
    """
    rows = found.outlooks
    if not wanted.strip():
        return rows
    key = material(wanted, [Offer(row.stuff) for row in rows]).stuff.key
    return tuple(row for row in rows if row.stuff.key == key)


def _densities(library: Library, shelves: Iterable[OnShelf]) -> Mapping[StuffKey, float]:
    known = {each.stuff.key: each.density_g_ml for each in offers(library)}
    told = {shelf.lot.stuff.key: shelf.lot.received.density_g_ml for shelf in shelves}
    every = {**known, **{key: density for key, density in told.items() if density is not None}}
    return {key: density for key, density in every.items() if density is not None}


def _in_grams(needs: Mapping[Row, StillNeeded], densities: Mapping[StuffKey, float]) -> Mapping[Row, StillNeeded]:
    """What a shop without a scale needs in milliliters, in grams where the density is known: as lots are told."""
    return together([[_weighed(need, densities.get(need.key)) for need in needs.values()]])


def _weighed(need: StillNeeded, density_g_ml: float | None) -> StillNeeded:
    if need.unit is not NeedUnit.MILLILITER or density_g_ml is None:
        return need
    return replace(need, unit=NeedUnit.GRAM, amount=need.amount * density_g_ml)
