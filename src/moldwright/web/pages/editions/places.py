"""An edition's numbers as a drawn row of places, each with what is said of it, and what may be done at one."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.log.edition_events import PieceState, Series
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.editions.pieces import LEADS_TO
from moldwright.told.edition_words import SERIES, place_words
from moldwright.web.words.marked import Words, words
from moldwright.words.speaker import say

FREE, VOID = "free", "void"
DRAWN = {PieceState.KEPT: "kept", PieceState.RESERVED: "reserved", PieceState.SOLD: "sold", PieceState.BROKEN: "broken"}
"""How a place is drawn, by where its piece is."""
SAID = {
    FREE: words("free"),
    "kept": words("in the shop"),
    "reserved": words("reserved"),
    "sold": words("sold"),
    "broken": words("broken"),
    VOID: words("void"),
}
ACTS = {
    PieceState.RESERVED: words("Reserve it"),
    PieceState.SOLD: words("Sold"),
    PieceState.BROKEN: words("Broken"),
    PieceState.KEPT: words("In the shop again"),
}


@dataclass(frozen=True, slots=True)
class NumberPlace:
    """One place: its number, how it is drawn, what is said of it, and whether it is the chosen one."""

    number: int
    drawn: str
    told: str
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """A series with all its places; `key` names it in an address, `counts`: so many are drawn so."""

    key: str
    called: str
    places: tuple[NumberPlace, ...]
    counts: tuple[tuple[str, Words, int], ...]


@dataclass(frozen=True, slots=True)
class ChosenPlace:
    """The chosen place; `piece` None where its number is free, `moves`: where the piece may go from where it is."""

    series: Series
    number: int
    piece: NumberedPiece | None
    told: str
    moves: tuple[tuple[str, Words], ...]


def place_rows(edition: Edition, chosen: tuple[Series, int] | None) -> tuple[PlaceRow, ...]:
    """The rows of an edition that have places.

    Parameters
    ----------
    edition : it.
    chosen : which place is chosen.
    """
    return tuple(_row(edition, series, chosen) for series in Series if edition.most(series))


def _row(edition: Edition, series: Series, chosen: tuple[Series, int] | None) -> PlaceRow:
    pieces = {piece.number: piece for piece in edition.pieces if piece.series is series}
    last = max(edition.most(series), *pieces, 0)
    places = tuple(_place(number, pieces.get(number), (series, number) == chosen) for number in range(1, last + 1))
    counts = tuple((drawn, said, sum(place.drawn == drawn for place in places)) for drawn, said in SAID.items())
    return PlaceRow(series.name.lower(), say(SERIES[series]), places, tuple(each for each in counts if each[2]))


def _place(number: int, piece: NumberedPiece | None, chosen: bool) -> NumberPlace:
    return NumberPlace(number, drawn_as(piece), "" if piece is None else place_words(piece), chosen)


def drawn_as(piece: NumberedPiece | None) -> str:
    """How a place is drawn.

    Parameters
    ----------
    piece : whose number it is, None for a free one.
    """
    if piece is None:
        return FREE
    return VOID if piece.void else DRAWN[piece.state]


def chosen_place(edition: Edition, chosen: tuple[Series, int] | None) -> ChosenPlace | None:
    """The chosen place; None where none is, or it has no such number.

    Parameters
    ----------
    edition : it.
    chosen : series and number.
    """
    if chosen is None:
        return None
    series, number = chosen
    piece = next((each for each in edition.pieces if (each.series, each.number) == chosen), None)
    if piece is None and not 1 <= number <= edition.most(series):
        return None
    goes = LEADS_TO[piece.state] if piece is not None and not piece.void else frozenset()
    moves = tuple((state.value, said) for state, said in ACTS.items() if state in goes)
    return ChosenPlace(series, number, piece, "" if piece is None else place_words(piece), moves)
