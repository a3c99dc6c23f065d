"""What may be written about anything: a note, a file, a line through an event."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.log.event import Body
from moldwright.log.ids import EventId, FileHash
from moldwright.plan.ids import NOWHERE, StepId


@dataclass(frozen=True, slots=True)
class Noted(Body):
    """A note; `step`, `turn`: where in a run."""

    text: str
    step: StepId = NOWHERE
    turn: int = 0


@dataclass(frozen=True, slots=True)
class Attached(Body):
    """A photo or another file that is kept with it; `text`: what it shows."""

    file: FileHash
    text: str = ""
    step: StepId = NOWHERE
    turn: int = 0


@dataclass(frozen=True, slots=True)
class Undone(Body):
    """A line through an event, which stays readable. Struck out twice is struck out once. `told_by`: of a pour that two
    screens told, the entry that told it before; None where somebody drew the line."""

    event: EventId
    why: str = ""
    told_by: EventId | None = None


@dataclass(frozen=True, slots=True)
class Unread(Body):
    """An event of a kind that this version does not know: kept as it came, as JSON, and counted in nothing."""

    kind: str
    json: str
