"""A lot's whole story, and the same from the other end: what it went into, and which lots are in a cast."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Connection, or_, select

from moldwright.bench.frame import frame_of
from moldwright.errors import InputRefused
from moldwright.log.event import About, Event
from moldwright.log.ids import LotId, MoldId, PlanId, RunId, SubjectId
from moldwright.log.run_events import Weighed
from moldwright.plan.mixes import MixPlan
from moldwright.records.editions.edition import NumberedPiece
from moldwright.records.editions.read import editions, piece_meant
from moldwright.records.find import find
from moldwright.records.shop import Shop
from moldwright.records.stock.left import Deviation, deviations
from moldwright.records.stock.lot import fold_lot
from moldwright.records.stock.runs import planned_needs
from moldwright.records.stock.shelf import OnShelf, lot_on_shelf
from moldwright.records.stock.used_in import RUN_KINDS, LotUse, uses_in_run
from moldwright.records.stock.uses import AT_ONCE, weighings_of
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT
from moldwright.records.within import events_naming


@dataclass(frozen=True, slots=True)
class MadeOfIt:
    """A numbered piece that a lot is in, or that was drawn from a mold that it is in (`drawn`)."""

    edition: str
    piece: NumberedPiece
    drawn: bool


@dataclass(frozen=True, slots=True)
class LotStory:
    """A lot and all that was made of it: `counts` against what the log said, `uses` cup by cup, `molds` of the register
    that it is in, numbered `pieces` that it is in or that were drawn from these molds."""

    shelf: OnShelf
    counts: tuple[Deviation, ...]
    uses: tuple[LotUse, ...]
    molds: tuple[MoldId, ...]
    pieces: tuple[MadeOfIt, ...]

    @property
    def unpoured(self) -> tuple[LotUse, ...]:
        """What of it stands in cups still."""
        return tuple(use for use in self.uses if use.unpoured)

    @property
    def wrong(self) -> tuple[LotUse, ...]:
        """Weighings that name this lot though the plan takes another material there."""
        return tuple(use for use in self.uses if use.right is False)


def lot_story(shop: Shop, id_: LotId, today: str) -> LotStory:
    """A lot's whole story.

    Parameters
    ----------
    shop : the store.
    id_ : the lot's.
    today : the shop's date, ISO 8601.

    Raises InputRefused ("lot-struck-out").
    """
    shelf = lot_on_shelf(shop, id_, today)
    weighings = weighings_of(shop, id_)
    counts = deviations(shelf.lot, [(each.at, each.mass_g) for each in weighings])
    runs = _runs(shop, dict.fromkeys(each.run for each in weighings), EVENT.c.lot == id_)
    mixes = _mixes(shop, runs)
    stuffs = {id_: shelf.lot.stuff}
    every = (use for run, events in runs.items() for use in uses_in_run(run, events, stuffs, mixes))
    uses = tuple(sorted(every, key=lambda use: (use.first_ms, use.run)))
    molds = tuple(dict.fromkeys(use.mold for use in uses if use.mold is not None))
    return LotStory(shelf, counts, uses, molds, _pieces(shop, uses, molds))


def lots_in(shop: Shop, run: RunId, turn: int) -> tuple[LotUse, ...]:
    """Which lots are in a cast of a run, or with turn 0 in its mold, cup by cup.

    Parameters
    ----------
    shop : the store.
    run : which.
    turn : the cast's number in the run, 0: the mold.
    """
    events = _runs(shop, [run], EVENT.c.lot.is_not(None)).get(run, ())
    named = {event.body.lot for event in events if isinstance(event.body, Weighed)} - {None}
    folded = (fold_lot(shop.events_of(lot)) for lot in sorted(named, key=str) if lot is not None)
    stuffs = {lot.id: lot.stuff for lot in folded if lot is not None}
    found = uses_in_run(run, events, stuffs, _mixes(shop, {run: events}))
    return tuple(use for use in found if use.cup.turn == turn)


def cast_meant(shop: Shop, what: str, cast: int | None) -> tuple[RunId, int]:
    """The cast that is meant, or the mold.

    Parameters
    ----------
    shop : the store.
    what : a numbered piece, or a run, as it was typed.
    cast : the cast's number in the run; 0 is its mold; None where a piece is meant.

    Raises InputRefused ("not-kept", "cast-not-known").
    """
    if cast is not None:
        return RunId(find(shop, About.RUN, what)), cast
    _, piece = piece_meant(shop, what)
    if piece.run is None:
        remedy = "It is older than the records, or its cast was not told when it got its number."
        raise InputRefused("cast-not-known", what, "a piece whose cast is known", "", remedy)
    return piece.run, piece.turn


def _runs(shop: Shop, runs: Iterable[RunId], weighed: ColumnElement[bool]) -> dict[RunId, tuple[Event, ...]]:
    """What bears on lots of each run, and of its weighings those that are wanted."""
    asked = list(runs)
    found: dict[RunId, list[Event]] = {run: [] for run in asked}
    with shop.reading() as connection:
        for start in range(0, len(asked), AT_ONCE):
            for event in _events(connection, asked[start : start + AT_ONCE], weighed):
                found[RunId(event.subject)].append(event)
    return {run: tuple(events) for run, events in found.items()}


def _events(connection: Connection, runs: Iterable[RunId], weighed: ColumnElement[bool]) -> Iterable[Event]:
    order = select(EVENT).where(EVENT.c.subject.in_(list(runs)), or_(EVENT.c.kind.in_(RUN_KINDS), weighed))
    return (event_of(row) for row in connection.execute(order))


def _mixes(shop: Shop, runs: Mapping[RunId, Iterable[Event]]) -> dict[PlanId, tuple[MixPlan, ...]]:
    plans = dict.fromkeys(plan for events in runs.values() for plan in frame_of(events).plans)
    return {plan: planned_needs(shop.plan_text(plan)).mixes for plan in plans}


def _pieces(shop: Shop, uses: Iterable[LotUse], molds: Iterable[MoldId]) -> tuple[MadeOfIt, ...]:
    casts = {(use.run, use.cup.turn) for use in uses if use.cup.turn}
    own = {use.run for use in uses if not use.cup.turn}
    with shop.reading() as connection:
        drawn_in = own | {run for mold in molds for run in _casting_from(connection, mold)}
    found = []
    for edition in editions(shop):
        for piece in edition.pieces:
            made = (piece.run, piece.turn) in casts
            if not piece.void and (made or piece.run in drawn_in):
                found.append(MadeOfIt(edition.name, piece, not made))
    return tuple(found)


def _casting_from(connection: Connection, mold: MoldId) -> Iterable[RunId]:
    """Runs that say that they cast from a mold."""
    kinds = ("started", "mold-registered")
    return [RunId(SubjectId(event.subject)) for event in events_naming(connection, About.RUN, kinds, mold)]
