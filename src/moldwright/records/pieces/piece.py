"""A piece as its events tell it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from moldwright.log.any_events import Attached
from moldwright.log.event import Event
from moldwright.log.ids import EventId, FileHash, PieceId, PlanId
from moldwright.log.piece_events import (
    CommissionChanged,
    PieceFile,
    PiecePlanned,
    PiecePutAway,
    PieceTakenBack,
    PieceTakenIn,
)
from moldwright.log.standing import standing


@dataclass(frozen=True, slots=True)
class PlannedAs:
    """A plan of a piece: for the commission of the event `asked`, made by `version` of Moldwright, when [ms]."""

    plan: PlanId
    asked: EventId
    version: str
    at_ms: int


@dataclass(frozen=True, slots=True)
class TakenPiece:
    """What the shop was asked to copy.

    Parameters
    ----------
    id, name, whom, due : as it was taken in.
    asked, commission, files : the event that holds the commission that stands, its text, and its files.
    taken_in_ms : when [ms].
    plans : those that were made for it, the oldest first.
    put_away : why, None: it is in the shop.
    attached : files that were laid to it later.
    """

    id: PieceId
    name: str
    whom: str
    due: str
    asked: EventId
    commission: str
    files: tuple[PieceFile, ...]
    taken_in_ms: int
    plans: tuple[PlannedAs, ...] = ()
    put_away: str | None = None
    attached: tuple[FileHash, ...] = ()

    @property
    def plan(self) -> PlannedAs | None:
        """The latest plan."""
        return self.plans[-1] if self.plans else None

    @property
    def changed_since(self) -> bool:
        """Whether something else is asked for than what the latest plan was made for."""
        return self.plan is not None and self.plan.asked != self.asked


def piece_of(events: Iterable[Event]) -> TakenPiece | None:
    """The piece; None where no taking in stands.

    Parameters
    ----------
    events : of it, in any order, struck-out ones among them.
    """
    found: TakenPiece | None = None
    stands = standing(events)
    for event in (*_beginnings(stands), *stands):
        found = _after(found, event) if found is not None else _begun(event)
    return found


def _beginnings(stands: Iterable[Event]) -> list[Event]:
    """The taking in comes first, whatever a clock said."""
    return [event for event in stands if isinstance(event.body, PieceTakenIn)][:1]


def _begun(event: Event) -> TakenPiece | None:
    match event.body:
        case PieceTakenIn(name, commission, files, whom, due):
            return TakenPiece(PieceId(event.subject), name, whom, due, event.id, commission, files, event.at_ms)
    return None


def _after(piece: TakenPiece, event: Event) -> TakenPiece:
    match event.body:
        case CommissionChanged(commission, files):
            return replace(piece, asked=event.id, commission=commission, files=files)
        case PiecePlanned(plan, asked, version):
            return replace(piece, plans=(*piece.plans, PlannedAs(plan, asked, version, event.at_ms)))
        case PiecePutAway(why):
            return replace(piece, put_away=why)
        case PieceTakenBack():
            return replace(piece, put_away=None)
        case Attached(file):
            return replace(piece, attached=(*piece.attached, file))
    return piece
