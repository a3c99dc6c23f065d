"""The pieces of a shop, each with how far it is, and one piece's whole story."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from sqlalchemy import Connection, select

from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.event import About, Event
from moldwright.log.ids import EditionId, EventId, FileHash, MoldId, PieceId, PlanId
from moldwright.log.standing import struck
from moldwright.records.files.kinds import PHOTOS
from moldwright.records.find import find
from moldwright.records.pieces.named import photo_names
from moldwright.records.pieces.piece import TakenPiece, piece_of
from moldwright.records.pieces.runs import PieceRun, runs_by_plan
from moldwright.records.shop import Shop
from moldwright.records.store.tables import FILE
from moldwright.records.within import all_within, events_within
from moldwright.text.shown import short
from moldwright.ways import Deed
from moldwright.words.speaker import say

FEW = 500


class PieceStage(StrEnum):
    """How far a piece is."""

    TAKEN_IN = "taken in"
    PLANNED = "planned"
    UNDER_WAY = "run under way"
    DONE = "done"
    PUT_AWAY = "put away"


@dataclass(frozen=True, slots=True)
class PieceKnown:
    """A piece with what is known of it.

    Parameters
    ----------
    piece : itself.
    count : casts that are asked for; None where its commission cannot be read by this version.
    runs : of any of its plans, the first in front.
    picture : a photo of it that is kept: the one laid to it last, else the first of its commission.
    """

    piece: TakenPiece
    count: int | None
    runs: tuple[PieceRun, ...]
    picture: FileHash | None

    @property
    def stage(self) -> PieceStage:
        """How far it is: it is done when every run of it has ended."""
        if self.piece.put_away is not None:
            return PieceStage.PUT_AWAY
        if any(run.ended_ms is None for run in self.runs):
            return PieceStage.UNDER_WAY
        if self.runs:
            return PieceStage.DONE
        return PieceStage.PLANNED if self.piece.plans else PieceStage.TAKEN_IN

    @property
    def molds(self) -> tuple[MoldId, ...]:
        """The molds that its runs made or cast from."""
        return tuple(dict.fromkeys(run.mold for run in self.runs if run.mold is not None))

    @property
    def editions(self) -> tuple[EditionId, ...]:
        """The editions that its runs are for."""
        return tuple(dict.fromkeys(run.edition for run in self.runs if run.edition is not None))


@dataclass(frozen=True, slots=True)
class PieceStory:
    """A piece, all `events` that were written of it, and which of them are struck out."""

    known: PieceKnown
    events: tuple[Event, ...]
    gone: frozenset[EventId]


def pieces(shop: Shop, away: bool = False) -> tuple[PieceKnown, ...]:
    """The pieces in the shop: what is promised soonest first, then what was taken in last.

    Parameters
    ----------
    shop : the store.
    away : those too that are put away.
    """
    with shop.reading() as connection:
        every = [piece for piece in _every(connection) if away or piece.put_away is None]
        found = _known(connection, every)
    return tuple(sorted(found, key=lambda each: (each.piece.due or "9", -each.piece.taken_in_ms, each.piece.id)))


def piece_story(shop: Shop, id_: PieceId) -> PieceStory:
    """All there is of a piece.

    Parameters
    ----------
    shop : the store.
    id_ : which.

    Raises InputRefused ("not-kept").
    """
    with shop.reading() as connection:
        events = events_within(connection, id_)
        piece = piece_of(events)
        if piece is None:
            remedy = "Look which there are"
            raise InputRefused("not-kept", short(id_), "a piece of this shop", "", remedy, Deed.SEE_PIECES)
        (known,) = _known(connection, [piece])
    return PieceStory(known, events, struck(events))


def piece_meant(shop: Shop, written: str) -> PieceId:
    """The piece that is meant.

    Parameters
    ----------
    shop : the store.
    written : its name, its id or its short code.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    wanted = written.strip().casefold()
    with shop.reading() as connection:
        named = [piece for piece in _every(connection) if piece.name.casefold() == wanted]
    if len(named) > 1:
        codes = ", ".join(short_code(piece.id) for piece in named)
        raise InputRefused(
            "code-of-several", short(written), "one piece", "", say("Write its code: {codes}.", codes=codes)
        )
    return named[0].id if named else PieceId(find(shop, About.PIECE, written))


def _every(connection: Connection) -> Iterator[TakenPiece]:
    for _, events in groupby(all_within(connection, About.PIECE), key=lambda event: event.subject):
        piece = piece_of(events)
        if piece is not None:
            yield piece


def _known(connection: Connection, every: Collection[TakenPiece]) -> list[PieceKnown]:
    runs = runs_by_plan(connection, frozenset(planned.plan for piece in every for planned in piece.plans))
    photos = _photos(connection, {file for piece in every for file in _files(piece)})
    return [_one(piece, runs, photos) for piece in every]


def _one(piece: TakenPiece, runs: Mapping[PlanId, tuple[PieceRun, ...]], photos: Collection[FileHash]) -> PieceKnown:
    mine = {run.id: run for planned in piece.plans for run in runs.get(planned.plan, ())}
    in_order = tuple(sorted(mine.values(), key=lambda run: (run.started_ms, run.id)))
    by_name = {each.name: each.file for each in piece.files}
    try:
        order = commission_from_toml(piece.commission)
        count, seen = order.edition.count, [by_name[name] for name in photo_names(order, by_name)]
    except InputRefused:
        count, seen = None, []
    picture = next((file for file in (*reversed(piece.attached), *seen) if file in photos), None)
    return PieceKnown(piece, count, in_order, picture)


def _files(piece: TakenPiece) -> Iterator[FileHash]:
    yield from piece.attached
    yield from (each.file for each in piece.files)


def _photos(connection: Connection, files: Collection[FileHash]) -> frozenset[FileHash]:
    """Which of some kept files are photos."""
    kinds, every = [kind.value for kind in PHOTOS.values()], sorted(files)
    found: set[FileHash] = set()
    for start in range(0, len(every), FEW):
        order = select(FILE.c.hash).where(FILE.c.hash.in_(every[start : start + FEW]), FILE.c.type.in_(kinds))
        found |= {FileHash(file) for file in connection.execute(order).scalars()}
    return frozenset(found)
