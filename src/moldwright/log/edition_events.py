"""What happens to an edition and to its numbered pieces."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.log.event import Body
from moldwright.log.ids import NumberedId, RunId


class Series(StrEnum):
    """Which of an edition's rows of numbers."""

    NUMBERED = "numbered"
    PROOF = "artist's proof"


class PieceState(StrEnum):
    """Where a numbered piece is."""

    KEPT = "in the shop"
    RESERVED = "reserved"
    SOLD = "sold"
    BROKEN = "broken"


@dataclass(frozen=True, slots=True)
class EditionOpened(Body):
    """An edition: so many numbers and so many artist's proofs, never more."""

    name: str
    size: int
    proofs: int = 0
    material: str = ""


@dataclass(frozen=True, slots=True)
class EditionResized(Body):
    """It has another size: any while no number is given, then only a smaller one that holds all given. It stands for
    good, also with a line through it: an edition that shrank may not grow back."""

    size: int
    proofs: int
    why: str = ""


@dataclass(frozen=True, slots=True)
class NumberGiven(Body):
    """A piece has its number, for good; `run`, `turn`: the cast that it is, None for an older one."""

    series: Series
    number: int
    piece: NumberedId
    run: RunId | None = None
    turn: int = 0


@dataclass(frozen=True, slots=True)
class PieceMoved(Body):
    """A piece is reserved, sold, broken, or in the shop again; `whom`: for or to whom, where that may be written."""

    piece: NumberedId
    state: PieceState
    whom: str = ""
    on: str = ""


@dataclass(frozen=True, slots=True)
class CertificateMade(Body):
    """A certificate was printed for a piece; `maker`: whose work it says it is, "" where it says nothing."""

    piece: NumberedId
    maker: str = ""
