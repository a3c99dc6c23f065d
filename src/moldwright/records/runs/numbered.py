"""Numbering a cast at its step: the edition gives the number, the run's log has it in the step's box."""

from __future__ import annotations

import re

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.codes import short_code
from moldwright.log.edition_events import Series
from moldwright.log.event import Body
from moldwright.log.ids import EditionId
from moldwright.records.clock import BenchClock
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.editions.numbers import CastTold, give_number
from moldwright.records.editions.read import edition
from moldwright.records.runs.boxes import SheetBox, body_of_box
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.write import Logged, log, refuse_ended
from moldwright.records.shop import Shop
from moldwright.text.shown import short
from moldwright.ways import Deed

_NUMBER = re.compile(r"(?P<proof>(?:artist's )?proof\s+|ap\s*)?(?P<number>\d{1,6})(?:\s*/\s*\d+)?", re.IGNORECASE)


def number_cast(
    shop: Shop,
    clock: BenchClock,
    run: OpenRun,
    box: SheetBox,
    series: Series = Series.NUMBERED,
    number: int | None = None,
) -> tuple[NumberedPiece, Logged]:
    """Give a cast its number, and write it into the box; a cast that has one already keeps it.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    run : which.
    box : of the step that numbers, and its cast.
    series : numbered, or artist's proof.
    number : the chosen one, None: the next free.

    Raises InputRefused ("run-without-edition"), RecordConflict ("cast-numbered" where it has another number already,
    "run-ended") and as `give_number`.
    """
    refuse_ended(run)
    piece, body = numbered_box(shop, clock, run, box, series, number)
    return piece, log(shop, clock, run, body)


def numbered_box(
    shop: Shop, clock: BenchClock, run: OpenRun, box: SheetBox, series: Series, number: int | None
) -> tuple[NumberedPiece, Body]:
    """Give a cast its number, or find the one that it has; what is to be written into the box.

    Parameters
    ----------
    shop, clock, run, box, series, number : as `number_cast`.

    Raises as `number_cast`, but for the run's end.
    """
    id_ = edition_of_run(run)
    known = edition(shop, id_)
    piece = piece_of_cast(known, run, box.turn)
    if piece is None:
        piece = give_number(shop, clock, id_, series, number, CastTold(run.id, box.turn))
    elif number is not None and (piece.series, piece.number) != (series, number):
        remedy = "One cast has one number: strike that one out first if it is wrong"
        whose = f"cast {box.turn} is {number_told(known, piece)}, piece {short_code(piece.id)}"
        raise RecordConflict("cast-numbered", whose, "a cast without a number", "", remedy, Deed.VOID_NUMBER)
    return piece, body_of_box(box, number_told(known, piece), run.plan.units)


def number_meant(written: str) -> tuple[Series, int]:
    """A number as it stands on a piece: "7", "7/24", "proof 1/2".

    Parameters
    ----------
    written : as typed.

    Raises InputRefused ("number-unclear").
    """
    told = _NUMBER.fullmatch(written.strip())
    if told is None:
        remedy = "Write the number as it stands on the piece: 7, 7/24, proof 1. Nothing was written."
        raise InputRefused("number-unclear", short(written), "a number", "", remedy)
    return Series.PROOF if told["proof"] else Series.NUMBERED, int(told["number"])


def edition_of_run(run: OpenRun) -> EditionId:
    """The edition whose numbers a run's casts get.

    Parameters
    ----------
    run : which.

    Raises InputRefused ("run-without-edition").
    """
    started = run.state.frame.started
    if started is None or started.edition is None:
        remedy = "Start the run for an edition, or give the number there"
        raise InputRefused("run-without-edition", run.plan.name, "a run of an edition", "", remedy, Deed.GIVE_NUMBER)
    return started.edition


def piece_of_cast(known: Edition, run: OpenRun, turn: int) -> NumberedPiece | None:
    """The piece that a cast is already; None where it has no number.

    Parameters
    ----------
    known : the edition.
    run : which.
    turn : the cast's number in the run.
    """
    own = (piece for piece in known.pieces if (piece.run, piece.turn) == (run.id, turn) and not piece.void)
    return next(own, None)


def number_told(known: Edition, piece: NumberedPiece) -> str:
    """A number as it is written on the piece: "7/24", "proof 1/2".

    Parameters
    ----------
    known : its edition.
    piece : which.
    """
    told = f"{piece.number}/{known.most(piece.series)}"
    return f"proof {told}" if piece.series is Series.PROOF else told
