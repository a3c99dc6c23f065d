"""What a certificate may say of a piece: only what was recorded; what nobody recorded is left out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from moldwright.errors import RecordConflict
from moldwright.log.edition_events import Series
from moldwright.log.event import Event
from moldwright.log.ids import LotId, MoldId, NumberedId, PlanId, RunId
from moldwright.log.lot_events import LotReceived
from moldwright.log.run_events import MoldRegistered, Replanned, Started, Weighed
from moldwright.log.standing import standing
from moldwright.materials.words import Kind
from moldwright.plan.mixes import StuffKey
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.molds.casts import drawn_casts, measured_of
from moldwright.records.molds.mold import mold_of
from moldwright.records.molds.plan_facts import CAST, MoldPlan, PlansRead
from moldwright.records.shop import Shop


@dataclass(frozen=True, slots=True)
class CertificateFacts:
    """What is recorded of a piece; None and "" for what is not.

    Parameters
    ----------
    piece : its id, which the code holds.
    edition, series, number, of : its number, of how many when it was given.
    size, proofs : of the whole edition.
    material : in the maker's words, as the edition was opened with.
    materials : resin and powder of the cast: of the lots that were weighed into it, else of its plan.
    cast_ms : when it came out of the mold [ms].
    mass_g, height_mm : as they were measured.
    mold : the name of the mold that it came out of.
    """

    piece: NumberedId
    edition: str
    series: Series
    number: int
    of: int
    size: int
    proofs: int
    material: str = ""
    materials: tuple[str, ...] = ()
    cast_ms: int | None = None
    mass_g: float | None = None
    height_mm: float | None = None
    mold: str = ""


def certificate_facts(shop: Shop, edition: Edition, piece: NumberedPiece) -> CertificateFacts:
    """What is recorded of a piece.

    Parameters
    ----------
    shop : the store.
    edition, piece : which.

    Raises RecordConflict ("piece-void").
    """
    if piece.void:
        remedy = "Its number was struck out and stays spent: give the cast another number."
        raise RecordConflict("piece-void", f"number {piece.number}", "a piece with its number", "", remedy)
    facts = CertificateFacts(
        piece=piece.id,
        edition=edition.name,
        series=piece.series,
        number=piece.number,
        of=piece.of,
        size=edition.size,
        proofs=edition.proofs,
        material=edition.material,
    )
    return facts if piece.run is None else _of_cast(shop, facts, piece.run, piece.turn)


def _of_cast(shop: Shop, facts: CertificateFacts, run: RunId, turn: int) -> CertificateFacts:
    events = standing(shop.events_of(run))
    plan = PlansRead(shop).get(_plan(events))
    drawn = drawn_casts(events, plan.out) if plan else ()
    mass_g, height_mm = measured_of(events, turn)
    return replace(
        facts,
        materials=_materials(shop, events, turn, plan),
        cast_ms=next((cast.at_ms for cast in drawn if cast.turn == turn), None),
        mass_g=mass_g,
        height_mm=height_mm,
        mold=_mold(shop, events),
    )


def _plan(events: Sequence[Event]) -> PlanId | None:
    plans = [event.body.plan for event in events if isinstance(event.body, Started | Replanned)]
    return plans[-1] if plans else None


def _mold(shop: Shop, events: Sequence[Event]) -> str:
    """The name of the mold that the run casts from, or made and registered."""
    started = [event.body.mold for event in events if isinstance(event.body, Started)]
    made = [event.body.mold for event in events if isinstance(event.body, MoldRegistered)]
    ids: list[MoldId] = [id_ for id_ in (*started, *made) if id_ is not None]
    found = (mold_of(shop.events_of(id_)) for id_ in ids)
    return next((mold.name for mold in found if mold is not None), "")


def _materials(shop: Shop, events: Sequence[Event], turn: int, plan: MoldPlan | None) -> tuple[str, ...]:
    """Powder first. A lot's material by the plan's name for it, else as the lot was received."""
    lots = [event.body.lot for event in events if isinstance(event.body, Weighed) and event.body.cup.turn == turn]
    named = [_material(shop, lot, plan) for lot in dict.fromkeys(lots) if lot is not None]
    found = sorted((each for each in named if each is not None), key=lambda each: CAST.index(each[0]))
    if not found and plan is not None:
        return tuple(name for kind in CAST for name in plan.names(kind))
    return tuple(dict.fromkeys(name for _, name in found))


def _material(shop: Shop, lot: LotId, plan: MoldPlan | None) -> tuple[Kind, str] | None:
    """None for what only colors the cast, and for a lot whose receipt is not here."""
    bodies = [event.body for event in standing(shop.events_of(lot)) if isinstance(event.body, LotReceived)]
    if not bodies or bodies[-1].stuff.kind not in {str(kind) for kind in CAST}:
        return None
    stuff = bodies[-1].stuff
    known = plan.cast if plan else {}
    return Kind(stuff.kind), known.get(StuffKey(stuff.kind, stuff.id)) or stuff.name or stuff.id
