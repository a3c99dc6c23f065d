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
from moldwright.words.marked import words
from moldwright.words.speaker import say, say_count

CHANGED_SINCE = words("Something else is asked for since its plan was made: plan it again.")


def piece_line(known: PieceKnown) -> str:
    """A piece in a line, for a list, without its name and code.

    Parameters
    ----------
    known : the piece.
    """
    piece = known.piece
    whom = say("for {whom}", whom=piece.whom) if piece.whom else ""
    due = say("due {due}", due=piece.due) if piece.due else ""
    return " · ".join(filter(None, (say(known.stage.value), casts_words(known), whom, due)))


def casts_words(known: PieceKnown) -> str:
    """How many casts are asked for, "" where that cannot be read.

    Parameters
    ----------
    known : the piece.
    """
    if known.count is None:
        return ""
    return say_count("{num} cast", "{num} casts", known.count, num=known.count)


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
            return say("taken in as {name}, {files}", name=name, files=_files(len(files)))
        case CommissionChanged(_, files, why):
            return say("something else is asked for, {files}{why}", files=_files(len(files)), why=_why(why))
        case PiecePlanned(plan, asked, version):
            by = say(" by version {version}", version=version) if version else ""
            return say(
                "planned{by}: plan {plan}, for what {code} asks",
                by=by,
                plan=plan[:12],
                code=short_code(asked),
            )
        case PiecePutAway(why):
            return say("put away{why}", why=_why(why))
        case PieceTakenBack(why):
            return say("taken back{why}", why=_why(why))
        case _:
            return happened_anywhere(body)


def _files(count: int) -> str:
    return say_count("{num} file", "{num} files", count, num=count)


def _why(why: str) -> str:
    return f": {why}" if why else ""
