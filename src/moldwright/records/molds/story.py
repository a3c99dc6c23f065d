"""One mold's whole story: what was written of it, its runs and casts, the lots in it, what went wrong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from moldwright.log.event import Event
from moldwright.log.ids import EventId, LotId, MoldId
from moldwright.log.lot_events import LotReceived
from moldwright.log.run_events import Weighed
from moldwright.log.standing import standing, struck
from moldwright.materials import Library
from moldwright.records.molds.plan_facts import PlansRead
from moldwright.records.molds.read import MoldKnown, mold_known
from moldwright.records.molds.runs import MoldRun
from moldwright.records.shop import Shop
from moldwright.records.within import events_within


@dataclass(frozen=True, slots=True)
class LotInMold:
    """So much of a lot that is in a mold; `name`, `number`: as the lot was received, "" where nobody wrote it."""

    lot: LotId
    mass_g: float
    name: str = ""
    number: str = ""


@dataclass(frozen=True, slots=True)
class MoldStory:
    """A mold, all `events` that were written of it, which of them are struck out, and the `lots` in its rubber."""

    known: MoldKnown
    events: tuple[Event, ...]
    gone: frozenset[EventId]
    lots: tuple[LotInMold, ...]


def mold_story(shop: Shop, known: Library, today: date, id_: MoldId) -> MoldStory:
    """All there is of a mold.

    Parameters
    ----------
    shop : the store.
    known : the materials' sheets.
    today : the day to reckon from.
    id_ : which.

    Raises InputRefused ("not-kept").
    """
    found = mold_known(shop, known, today, id_)
    made = next((run for run in found.runs if run.made), None)
    lots = _lots(shop, made) if made else ()
    events = shop.events_of(id_)
    return MoldStory(found, events, struck(events), lots)


def _lots(shop: Shop, run: MoldRun) -> tuple[LotInMold, ...]:
    """What was weighed into the cups of rubber of the run that made it; of an unread plan all that a mold takes."""
    plan = PlansRead(shop).get(run.plan)
    masses: dict[LotId, float] = {}
    with shop.reading() as connection:
        for event in standing(events_within(connection, run.id, "weighed", "undone")):
            match event.body:
                case Weighed(cup, _, _, mass_g, _, _, lot) if lot is not None and cup.turn == 0:
                    if plan is None or cup.mix in plan.rubber_mixes:
                        masses[lot] = masses.get(lot, 0.0) + mass_g
    received = {lot: _received(shop, lot) for lot in masses}
    return tuple(_lot(lot, mass_g, received) for lot, mass_g in masses.items())


def _lot(lot: LotId, mass_g: float, received: Mapping[LotId, LotReceived | None]) -> LotInMold:
    found = received[lot]
    return LotInMold(lot, mass_g, found.stuff.name or found.stuff.id, found.number) if found else LotInMold(lot, mass_g)


def _received(shop: Shop, lot: LotId) -> LotReceived | None:
    bodies = (event.body for event in reversed(standing(shop.events_of(lot))))
    return next((body for body in bodies if isinstance(body, LotReceived)), None)
