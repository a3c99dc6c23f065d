"""Where pieces go: reserved, sold, broken, in the shop again; and a line through such a move."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from moldwright.errors import RecordConflict
from moldwright.log.any_events import Undone
from moldwright.log.edition_events import CertificateMade, PieceMoved, PieceState
from moldwright.log.ids import EditionId, NumberedId
from moldwright.records.clock import BenchClock
from moldwright.records.editions.edition import NumberedPiece
from moldwright.records.editions.held import held
from moldwright.records.shop import Shop
from moldwright.records.told import day_of, day_told, line_told
from moldwright.ways import Deed

LEADS_TO: Mapping[PieceState, frozenset[PieceState]] = MappingProxyType(
    {
        PieceState.KEPT: frozenset((PieceState.RESERVED, PieceState.SOLD, PieceState.BROKEN)),
        PieceState.RESERVED: frozenset((PieceState.SOLD, PieceState.BROKEN, PieceState.KEPT)),
        PieceState.SOLD: frozenset((PieceState.BROKEN, PieceState.KEPT)),
        PieceState.BROKEN: frozenset((PieceState.KEPT,)),
    }
)
"""Where a piece can go from where it is: what two benches sell at once is sold once."""


def move_piece(
    shop: Shop, clock: BenchClock, id_: EditionId, piece: NumberedId, state: PieceState, whom: str = "", on: str = ""
) -> PieceMoved:
    """Write down that a piece is reserved, sold, broken, or in the shop again.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which edition.
    piece : which of its pieces.
    state : where it is now.
    whom : for or to whom; may be left out, and is printed nowhere but in the shop's own list.
    on : since which day, ISO 8601; "" for today.

    Raises RecordConflict ("piece-elsewhere", "piece-void").
    """
    name = line_told(whom, "a name", may_lack=True)
    with held(shop, clock, id_) as hand:
        found = hand.piece(piece)
        if state not in LEADS_TO[found.state]:
            raise _elsewhere(found, state)
        moved = PieceMoved(piece, state, name, day_told(on, day_of(clock.now())))
        hand.write(moved)
        return moved


def strike_move(shop: Shop, clock: BenchClock, id_: EditionId, piece: NumberedId, why: str = "") -> None:
    """Draw a line through a piece's last move; it is where it was before.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which edition.
    piece : which of its pieces.
    why : in words.

    Raises RecordConflict ("piece-unmoved").
    """
    told = line_told(why, "a reason", may_lack=True)
    with held(shop, clock, id_) as hand:
        found = hand.piece(piece)
        if found.moved is None:
            remedy = "Nothing is to be put back. Its number is taken from it otherwise"
            told = f"number {found.number}"
            raise RecordConflict("piece-unmoved", told, "a piece that went somewhere", "", remedy, Deed.VOID_NUMBER)
        hand.write(Undone(found.moved, told))


def certificate_made(shop: Shop, clock: BenchClock, id_: EditionId, piece: NumberedId, maker: str = "") -> None:
    """Write down that a certificate was printed.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which edition.
    piece : which of its pieces.
    maker : whose work it says it is.
    """
    whose = line_told(maker, "a maker", may_lack=True)
    with held(shop, clock, id_) as hand:
        hand.write(CertificateMade(hand.piece(piece).id, whose))


def _elsewhere(piece: NumberedPiece, wanted: PieceState) -> RecordConflict:
    whom = f", {piece.whom}" if piece.whom else ""
    since = f" since {piece.on}" if piece.on else ""
    from_ = "a piece that is " + " or ".join(state for state, goes in LEADS_TO.items() if wanted in goes)
    kept = piece.state is PieceState.KEPT
    remedy = "Nothing is to be written down." if kept else "If it is in the shop again, write that down first"
    way = None if kept else Deed.BRING_BACK
    return RecordConflict("piece-elsewhere", f"{piece.state}{whom}{since}", from_, "", remedy, way)
