"""What is told of an edition and its pieces, in words."""

from __future__ import annotations

from moldwright.log.codes import short_code
from moldwright.log.edition_events import PieceState, Series
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.text.harmless import harmless
from moldwright.words.marked import words
from moldwright.words.speaker import say

SERIES = {Series.NUMBERED: words("numbers"), Series.PROOF: words("artist's proofs")}
"""What the pieces of a series are called together."""


def number_words(piece: NumberedPiece) -> str:
    """A piece's number as it is cut: "7/24", "artist's proof 1/2".

    Parameters
    ----------
    piece : whose.
    """
    number = f"{piece.number}/{piece.of}"
    return number if piece.series is Series.NUMBERED else f"{say(piece.series)} {number}"


def left_words(edition: Edition) -> str:
    """What is left of each of its series: "17 of 24 numbers left".

    Parameters
    ----------
    edition : it.
    """
    return " · ".join(
        say("{left} of {most} {words} left", left=edition.left(series), most=edition.most(series), words=say(called))
        for series, called in SERIES.items()
        if edition.most(series)
    )


def states_words(edition: Edition) -> str:
    """How many of its pieces are where: "3 sold · 1 broken"; "" where none is numbered.

    Parameters
    ----------
    edition : it.
    """
    states = [f"{edition.counted(state)} {say(state)}" for state in PieceState if edition.counted(state)]
    void = sum(piece.void for piece in edition.pieces)
    return " · ".join([*states, *([say("{void} void", void=void)] if void else [])])


def place_words(piece: NumberedPiece) -> str:
    """Where a piece is, since when, for or to whom.

    Parameters
    ----------
    piece : which.
    """
    if piece.void:
        return say("void: its number was struck out and stays spent")
    return harmless(", ".join(filter(None, (say(piece.state.value), piece.whom, piece.on))))


def given_words(edition: Edition, piece: NumberedPiece) -> str:
    """What is told when a number was given.

    Parameters
    ----------
    edition, piece : of the number.
    """
    cast = say(", cast {turn} of run {code}", turn=piece.turn, code=short_code(piece.run)) if piece.run else ""
    number = number_words(piece)
    return harmless(
        say(
            "{name} {number}: piece {code}{cast}. This number is given for good.",
            name=edition.name,
            number=number,
            code=short_code(piece.id),
            cast=cast,
        )
    )
