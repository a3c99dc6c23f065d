"""An edition in hand: read within a transaction that others wait for, and written to after all that is there."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from sqlalchemy import Connection

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EditionId, NumberedId
from moldwright.records.clock import BenchClock
from moldwright.records.editions.edition import Edition, NumberedPiece, edition_of
from moldwright.records.shop import Shop, append_within
from moldwright.records.within import events_within, hold
from moldwright.ways import Deed


@dataclass(frozen=True, slots=True)
class HeldEdition:
    """An edition that nobody else can write to until the transaction ends; `last_ms`: of its newest event."""

    connection: Connection
    clock: BenchClock
    edition: Edition
    last_ms: int

    def write(self, body: Body) -> Event:
        """Add an event behind all that is there, whatever this bench's clock says: the order of an edition's events
        is the order in which they were decided.

        Parameters
        ----------
        body : what happened.
        """
        event = self.clock.event(About.EDITION, self.edition.id, body)
        if event.at_ms <= self.last_ms:
            event = self.clock.event(About.EDITION, self.edition.id, body, self.last_ms + 1)
        append_within(self.connection, [event])
        return event

    def piece(self, id_: NumberedId) -> NumberedPiece:
        """One of its pieces that is not void.

        Parameters
        ----------
        id_ : which.

        Raises InputRefused ("not-kept"), RecordConflict ("piece-void").
        """
        found = next((piece for piece in self.edition.pieces if piece.id == id_), None)
        if found is None:
            raise InputRefused("not-kept", id_, "a piece of this edition", "", "Look which there are", Deed.SEE_NUMBERS)
        if found.void:
            remedy = "Its number was struck out and stays spent: give the cast another number."
            raise RecordConflict("piece-void", f"number {found.number}", "a piece with its number", "", remedy)
        return found


@contextmanager
def held(shop: Shop, clock: BenchClock, id_: EditionId) -> Iterator[HeldEdition]:
    """An edition in hand, until the body ends; then all that it wrote is kept, or nothing where it raised.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which edition.

    Raises InputRefused ("not-kept").
    """
    with shop.writing() as connection:
        hold(connection, id_)
        events = events_within(connection, id_)
        edition = edition_of(events)
        if edition is None:
            remedy = "Look which there are"
            raise InputRefused("not-kept", id_, "an edition of this shop", "", remedy, Deed.SEE_EDITIONS)
        yield HeldEdition(connection, clock, edition, events[-1].at_ms)
