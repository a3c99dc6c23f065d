"""An edition and its pieces, folded from events."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from moldwright.log.edition_events import (
    CertificateMade,
    EditionOpened,
    EditionResized,
    NumberGiven,
    PieceMoved,
    PieceState,
    Series,
)
from moldwright.log.event import Event, order_of
from moldwright.log.ids import EditionId, EventId, NumberedId, RunId
from moldwright.log.standing import standing, struck


@dataclass(frozen=True, slots=True)
class NumberedPiece:
    """A numbered piece.

    Parameters
    ----------
    id : its own, which a certificate's code holds.
    series, number, of : its number, of how many there were when it was given, as it is cut on the base.
    given, given_ms : the event that gave it, and when [ms].
    run, turn : the cast that it is, None for one older than the records.
    state, whom, on : where it is, for or to whom, and since which day.
    moved : the event that brought it there, None where nothing did.
    void : its number was struck out: it stays spent, and the piece is none of the edition.
    certificates_ms : when certificates were made [ms].
    """

    id: NumberedId
    series: Series
    number: int
    of: int
    given: EventId
    given_ms: int
    run: RunId | None = None
    turn: int = 0
    state: PieceState = PieceState.KEPT
    whom: str = ""
    on: str = ""
    moved: EventId | None = None
    void: bool = False
    certificates_ms: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Edition:
    """An edition.

    Parameters
    ----------
    id, name, material : what it is; the material in the maker's words.
    size, proofs : numbers, and artist's proofs.
    opened_ms : since when [ms].
    pieces : all that ever had a number, numbers first, then proofs, in their order.
    """

    id: EditionId
    name: str
    size: int
    proofs: int
    material: str
    opened_ms: int
    pieces: tuple[NumberedPiece, ...] = field(default=())

    def most(self, series: Series) -> int:
        """How many numbers a series has.

        Parameters
        ----------
        series : which.
        """
        return self.size if series is Series.NUMBERED else self.proofs

    def spent(self, series: Series) -> frozenset[int]:
        """Its numbers that somebody had once: none is ever given again.

        Parameters
        ----------
        series : which.
        """
        return frozenset(piece.number for piece in self.pieces if piece.series is series)

    def left(self, series: Series) -> int:
        """How many of its numbers nobody has had.

        Parameters
        ----------
        series : which.
        """
        return self.most(series) - len(self.spent(series))

    def counted(self, state: PieceState) -> int:
        """How many pieces are there; those whose number was struck out are none.

        Parameters
        ----------
        state : where.
        """
        return sum(piece.state is state and not piece.void for piece in self.pieces)


def edition_of(events: Iterable[Event]) -> Edition | None:
    """The edition that events tell; None where none was opened, or its opening was struck out.

    Parameters
    ----------
    events : of one edition, in any order, some perhaps twice.
    """
    every = sorted({event.id: event for event in events}.values(), key=order_of)
    stand = standing(every)
    numbered = any(isinstance(event.body, NumberGiven) for event in every)
    opened = next(((e, e.body) for e in (every if numbered else stand) if isinstance(e.body, EditionOpened)), None)
    if opened is None:
        return None
    event, body = opened
    sizes = [(e.body.size, e.body.proofs) for e in every if isinstance(e.body, EditionResized)]
    size, proofs = sizes[-1] if sizes else (body.size, body.proofs)
    pieces = _pieces(every, stand, body)
    return Edition(EditionId(event.subject), body.name, size, proofs, body.material, event.at_ms, pieces)


def _pieces(every: Sequence[Event], stand: Sequence[Event], opened: EditionOpened) -> tuple[NumberedPiece, ...]:
    """A number that is struck out stays its piece's."""
    gone, found = struck(every), dict[NumberedId, NumberedPiece]()
    most = {Series.NUMBERED: opened.size, Series.PROOF: opened.proofs}
    for event in every:
        match event.body:
            case EditionResized(size, proofs):
                most = {Series.NUMBERED: size, Series.PROOF: proofs}
            case NumberGiven(series, number, piece, run, turn):
                void, of = event.id in gone, most[series]
                found[piece] = NumberedPiece(piece, series, number, of, event.id, event.at_ms, run, turn, void=void)
    for event in stand:
        match event.body:
            case PieceMoved(id_) | CertificateMade(id_) if id_ in found:
                found[id_] = _after(found[id_], event)
    return tuple(sorted(found.values(), key=lambda piece: (piece.series is Series.PROOF, piece.number)))


def _after(piece: NumberedPiece, event: Event) -> NumberedPiece:
    match event.body:
        case PieceMoved(_, state, whom, on):
            return replace(piece, state=state, whom=whom, on=on, moved=event.id)
        case _:
            return replace(piece, certificates_ms=(*piece.certificates_ms, event.at_ms))
