"""What is told of a piece: how far it is, and its log, in words."""

from __future__ import annotations

from moldwright.log.codes import short_code
from moldwright.log.event import Body, Event
from moldwright.log.piece_events import (
    CommissionChanged,
    PiecePlanned,
    PiecePutAway,
    PieceTakenBack,
    PieceTakenIn,
)
from moldwright.records.pieces.listing import PieceKnown
from moldwright.told.any_words import entry_line, happened_anywhere

CHANGED_SINCE = "Something else is asked for since its plan was made: plan it again."


def piece_line(known: PieceKnown) -> str:
    """A piece in a line, for a list, without its name and code.

    Parameters
    ----------
    known : the piece.
    """
    piece = known.piece
    whom = f"for {piece.whom}" if piece.whom else ""
    due = f"due {piece.due}" if piece.due else ""
    return " · ".join(filter(None, (known.stage.value, casts_words(known), whom, due)))


def casts_words(known: PieceKnown) -> str:
    """How many casts are asked for, "" where that cannot be read.

    Parameters
    ----------
    known : the piece.
    """
    if known.count is None:
        return ""
    return f"{known.count} cast" if known.count == 1 else f"{known.count} casts"


def piece_log_line(event: Event, gone: bool) -> str:
    """One line of a piece's log, with the code by which it is struck out.

    Parameters
    ----------
    event : of the piece.
    gone : whether a line goes through it.
    """
    return entry_line(event, piece_happened(event.body), gone)


def piece_happened(body: Body) -> str:
    """What happened to a piece, in words.

    Parameters
    ----------
    body : of an event.
    """
    match body:
        case PieceTakenIn(name, _, files):
            return f"taken in as {name}, {_files(len(files))}"
        case CommissionChanged(_, files, why):
            return f"something else is asked for, {_files(len(files))}{_why(why)}"
        case PiecePlanned(plan, asked, version):
            by = f" by version {version}" if version else ""
            return f"planned{by}: plan {plan[:12]}, for what {short_code(asked)} asks"
        case PiecePutAway(why):
            return f"put away{_why(why)}"
        case PieceTakenBack(why):
            return f"taken back{_why(why)}"
        case _:
            return happened_anywhere(body)


def _files(count: int) -> str:
    return f"{count} file" if count == 1 else f"{count} files"


def _why(why: str) -> str:
    return f": {why}" if why else ""
