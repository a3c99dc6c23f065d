"""What happens to a piece: what the shop was asked to copy, its commission and its plans."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.log.event import Body
from moldwright.log.ids import EventId, FileHash, PlanId


@dataclass(frozen=True, slots=True)
class PieceFile:
    """A kept file by the name that the commission calls it by, with "/" after a folder: "photos/left.jpg"."""

    name: str
    file: FileHash


@dataclass(frozen=True, slots=True)
class PieceTakenIn(Body):
    """A piece is taken in; `commission`: what is asked for, as TOML, which names `files` alone.

    `whom`: for whom, where that may be written; `due`: the day by which it is promised, ISO 8601, "" where nobody said.
    """

    name: str
    commission: str
    files: tuple[PieceFile, ...] = ()
    whom: str = ""
    due: str = ""


@dataclass(frozen=True, slots=True)
class CommissionChanged(Body):
    """Something else is asked for from now on: the whole commission and all of its files anew."""

    commission: str
    files: tuple[PieceFile, ...] = ()
    why: str = ""


@dataclass(frozen=True, slots=True)
class PiecePlanned(Body):
    """A plan was made for it; `asked`: the event that held the commission, `version`: of what planned."""

    plan: PlanId
    asked: EventId
    version: str = ""


@dataclass(frozen=True, slots=True)
class PiecePutAway(Body):
    """It is out of the shop, or nothing more is done for it."""

    why: str = ""


@dataclass(frozen=True, slots=True)
class PieceTakenBack(Body):
    """It is in the shop again."""

    why: str = ""
