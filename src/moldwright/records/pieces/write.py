"""What is written of a piece: taken in, asked for anew, planned, put away."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from sqlalchemy import Connection, select

from moldwright.errors import InputRefused
from moldwright.log.any_events import Noted
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, FileHash, PieceId, SubjectId
from moldwright.log.piece_events import (
    CommissionChanged,
    PieceFile,
    PiecePlanned,
    PiecePutAway,
    PieceTakenBack,
    PieceTakenIn,
)
from moldwright.records.clock import BenchClock
from moldwright.records.files.kinds import FileType
from moldwright.records.pieces.named import check_commission
from moldwright.records.pieces.names import check_names
from moldwright.records.pieces.piece import TakenPiece, piece_of
from moldwright.records.shop import Shop, append_within
from moldwright.records.store.tables import FILE
from moldwright.records.told import day_told, line_told
from moldwright.records.within import events_within, hold
from moldwright.text.shown import short
from moldwright.ways import Deed

Files = Mapping[str, FileHash]
"""A piece's files by the names that its commission calls them by."""


def take_in(
    shop: Shop, clock: BenchClock, commission: str, files: Files, name: str = "", whom: str = "", due: str = ""
) -> PieceId:
    """A piece is taken in.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    commission : what is asked for, as TOML; it names nothing but `files`.
    files : kept already.
    name : left out, what the commission calls it.
    whom : for whom; may be left out.
    due : the day by which it is promised, ISO 8601; may be left out.

    Raises InputRefused ("file-name-unusable", "piece-file-missing", "piece-file-other", "file-not-kept-yet",
    "text-unusable", "day-unclear" and those of a commission).
    """
    order = check_commission(commission, _kinds(shop, files))
    called = line_told(name or order.original.called, "what the piece is called")
    told = line_told(whom, "for whom it is", may_lack=True)
    day = day_told(due, date.min) if due.strip() else ""
    id_ = PieceId(SubjectId(clock.new_id()))
    shop.append([clock.event(About.PIECE, id_, PieceTakenIn(called, commission, _listed(files), told, day))])
    return id_


def change(shop: Shop, clock: BenchClock, id_: PieceId, commission: str, files: Files, why: str = "") -> Event:
    """Something else is asked for from now on.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    id_ : the piece's.
    commission, files : as `take_in` takes them, all of it anew.
    why : in words.

    Raises InputRefused ("not-kept" and as `take_in`).
    """
    check_commission(commission, _kinds(shop, files))
    told = line_told(why, "a reason", may_lack=True)
    return _written(shop, clock, id_, CommissionChanged(commission, _listed(files), told))


def planned(
    shop: Shop, clock: BenchClock, id_: PieceId, plan_text: str, version: str, asked: EventId | None = None
) -> Event:
    """A plan was made for it; the plan is kept.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    id_ : the piece's.
    plan_text : of plan.json.
    version : of Moldwright, that planned.
    asked : the event whose commission was planned, None: the one that stands now.

    Raises InputRefused ("not-kept"); what `Shop.keep_plan` raises.
    """
    piece = piece_known(shop, id_)
    plan = shop.keep_plan(plan_text)
    return _written(shop, clock, id_, PiecePlanned(plan, asked or piece.asked, version))


def put_away(shop: Shop, clock: BenchClock, id_: PieceId, why: str = "") -> Event:
    """It is out of the shop.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    id_ : the piece's.
    why : in words.

    Raises InputRefused ("not-kept", "piece-away").
    """
    return _written(shop, clock, id_, PiecePutAway(line_told(why, "a reason", may_lack=True)))


def take_back(shop: Shop, clock: BenchClock, id_: PieceId, why: str = "") -> Event:
    """It is in the shop again.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    id_ : the piece's.
    why : in words.

    Raises InputRefused ("not-kept", "piece-here").
    """
    return _written(shop, clock, id_, PieceTakenBack(line_told(why, "a reason", may_lack=True)))


def note_on_piece(shop: Shop, clock: BenchClock, id_: PieceId, text: str) -> Event:
    """A note on it.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    id_ : the piece's.
    text : the note.

    Raises InputRefused ("not-kept", "text-unusable").
    """
    return _written(shop, clock, id_, Noted(line_told(text, "a note")))


def piece_known(shop: Shop, id_: PieceId) -> TakenPiece:
    """A piece as its events tell it.

    Parameters
    ----------
    shop : the store.
    id_ : the piece's.

    Raises InputRefused ("not-kept").
    """
    with shop.reading() as connection:
        return _known(connection, id_)


def _known(connection: Connection, id_: PieceId) -> TakenPiece:
    found = piece_of(events_within(connection, id_))
    if found is None:
        remedy = "Look which there are"
        raise InputRefused("not-kept", short(id_), "a piece of this shop", "", remedy, Deed.SEE_PIECES)
    return found


def _written(shop: Shop, clock: BenchClock, id_: PieceId, body: Body) -> Event:
    """Nobody puts it away or takes it back meanwhile."""
    with shop.writing() as connection:
        hold(connection, id_)
        piece = _known(connection, id_)
        if isinstance(body, PiecePutAway) and piece.put_away is not None:
            raise InputRefused("piece-away", piece.name, "a piece in the shop", "", "It is put away already.")
        if isinstance(body, PieceTakenBack) and piece.put_away is None:
            raise InputRefused("piece-here", piece.name, "a piece that is put away", "", "It is in the shop.")
        event = clock.event(About.PIECE, id_, body)
        append_within(connection, [event])
    return event


def _listed(files: Files) -> tuple[PieceFile, ...]:
    return tuple(PieceFile(name, files[name]) for name in sorted(files))


def _kinds(shop: Shop, files: Files) -> dict[str, FileType]:
    """What each file is; all must be kept by now."""
    check_names(files)
    order = select(FILE.c.hash, FILE.c.type).where(FILE.c.hash.in_(set(files.values())))
    with shop.reading() as connection:
        kept: dict[str, str] = {row.hash: row.type for row in connection.execute(order)}
    lacking = next((name for name, file in files.items() if file not in kept), None)
    if lacking is not None:
        remedy = "Give the file itself first, then the commission that names it."
        raise InputRefused("file-not-kept-yet", short(lacking), "a file that is kept", "", remedy)
    return {name: FileType(kept[file]) for name, file in files.items()}
