"""What every page of a piece has at hand: the piece, its code, its bar."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.log.codes import short_code
from moldwright.records.pieces.listing import PieceKnown, PieceStory, piece_meant, piece_story
from moldwright.records.pieces.piece import TakenPiece
from moldwright.records.shop import Shop


@dataclass(frozen=True, slots=True)
class OfPiece:
    """A piece as its pages show it; `templates/piece.html` wants it under the name `of`."""

    story: PieceStory

    @property
    def known(self) -> PieceKnown:
        """It, with its runs, molds and editions."""
        return self.story.known

    @property
    def piece(self) -> TakenPiece:
        """Itself."""
        return self.story.known.piece

    @property
    def code(self) -> str:
        """Its short code."""
        return short_code(self.piece.id)

    @property
    def path(self) -> str:
        """Where its first page is; those of its bar begin with it."""
        return f"/pieces/{self.code}"


def of_piece(shop: Shop, written: str) -> OfPiece:
    """The piece that a path means.

    Parameters
    ----------
    shop : the records.
    written : its code, id or name.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    return OfPiece(piece_story(shop, piece_meant(shop, written)))
