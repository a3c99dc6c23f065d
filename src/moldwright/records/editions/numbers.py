"""Giving numbers: the claim's row and the event that tells it in one transaction, so that none is given twice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, select

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.any_events import Undone
from moldwright.log.codes import short_code
from moldwright.log.edition_events import NumberGiven, Series
from moldwright.log.event import About
from moldwright.log.ids import EditionId, NumberedId, RunId
from moldwright.log.run_events import Started
from moldwright.records.clock import BenchClock
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.editions.held import HeldEdition, held
from moldwright.records.shop import Shop
from moldwright.records.store.tables import NUMBER
from moldwright.records.told import line_told
from moldwright.records.within import events_naming, events_within, hold, struck_within
from moldwright.words.speaker import say


@dataclass(frozen=True, slots=True)
class CastTold:
    """A cast: the run and its number in the run, from 1."""

    run: RunId
    turn: int


def give_number(
    shop: Shop,
    clock: BenchClock,
    id_: EditionId,
    series: Series = Series.NUMBERED,
    number: int | None = None,
    cast: CastTold | None = None,
) -> NumberedPiece:
    """Give a piece its number, for good.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which edition.
    series : numbered, or artist's proof.
    number : the chosen one, None: the next free.
    cast : the cast that the piece is, None for one older than the records.

    Raises InputRefused ("number-outside", "cast-unknown"), RecordConflict ("number-given", "edition-full",
    "cast-numbered").
    """
    with held(shop, clock, id_) as hand:
        if cast is not None:
            _check_cast(hand.connection, cast)
        taken = _taken(hand.connection, id_, series)
        chosen = _next(hand.edition, series, taken) if number is None else number
        _check_number(hand, series, chosen, taken)
        piece = NumberedId(clock.new_id())
        run, turn = (cast.run, cast.turn) if cast else (None, 0)
        event = hand.write(NumberGiven(series, chosen, piece, run, turn))
        return NumberedPiece(piece, series, chosen, hand.edition.most(series), event.id, event.at_ms, run, turn)


def void_number(shop: Shop, clock: BenchClock, id_: EditionId, piece: NumberedId, why: str = "") -> None:
    """Draw a line through a number: the piece is void, and the number stays spent.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which edition.
    piece : which of its pieces.
    why : in words.
    """
    told = line_told(why, "a reason", may_lack=True)
    with held(shop, clock, id_) as hand:
        hand.write(Undone(hand.piece(piece).given, told))


def _taken(connection: Connection, id_: EditionId, series: Series) -> Mapping[int, NumberedId]:
    """Whose the numbers are, by the one table that decides it."""
    order = select(NUMBER.c.number, NUMBER.c.piece).where(NUMBER.c.edition == id_, NUMBER.c.series == series.value)
    return {number: NumberedId(piece) for number, piece in connection.execute(order)}


def _next(edition: Edition, series: Series, taken: Mapping[int, NumberedId]) -> int:
    free = next((each for each in range(1, edition.most(series) + 1) if each not in taken), None)
    if free is None:
        remedy = "Every number is spent; an edition does not grow."
        raise RecordConflict("edition-full", len(taken), edition.most(series), f"{series} pieces", remedy)
    return free


def _check_number(hand: HeldEdition, series: Series, number: int, taken: Mapping[int, NumberedId]) -> None:
    most = hand.edition.most(series)
    if not 1 <= number <= most:
        remedy = (
            say("Take one of 1 to {most}.", most=most)
            if most
            else say("This edition has no {series} pieces.", series=series)
        )
        raise InputRefused("number-outside", number, f"1 to {most}", "", remedy)
    if number in taken:
        free = next((each for each in range(1, most + 1) if each not in taken), None)
        remedy = "No number is free." if free is None else say("The next free one is {free}.", free=free)
        whose = f"{number}/{most} is given to piece {short_code(taken[number])}"
        raise RecordConflict("number-given", whose, "a number that nobody has had", "", remedy)


def _check_cast(connection: Connection, cast: CastTold) -> None:
    """One cast has one number at most, in all editions together."""
    hold(connection, cast.run)
    events = events_within(connection, cast.run)
    started = next((event.body for event in events if isinstance(event.body, Started)), None)
    turns = max((getattr(event.body, "turn", 0) for event in events), default=0)
    most = max(started.casts, turns) if started else 0
    if not 1 <= cast.turn <= most:
        remedy = "Casts of a run are counted from 1; a cast older than the records is numbered without a run."
        raise InputRefused("cast-unknown", f"cast {cast.turn}", say("1 to {most} of this run", most=most), "", remedy)
    given = events_naming(connection, About.EDITION, ("number-given",), cast.run)
    void = struck_within(connection, given)
    for event in given:
        match event.body:
            case NumberGiven(_, number, piece, cast.run, cast.turn) if event.id not in void:
                remedy = "One cast has one number: strike that one out first if it is wrong."
                whose = f"cast {cast.turn} is number {number}, piece {short_code(piece)}"
                raise RecordConflict("cast-numbered", whose, "a cast without a number", "", remedy)
