"""One thing that happened, as somebody wrote it down. Events are added, never changed and never taken out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.log.ids import EventId, SubjectId


class About(StrEnum):
    """What an event is about."""

    RUN = "run"
    LOT = "lot"
    MOLD = "mold"
    EDITION = "edition"
    RECIPE = "recipe"
    PIECE = "piece"


@dataclass(frozen=True, slots=True)
class Body:
    """What happened; a class for each kind of event."""


@dataclass(frozen=True, slots=True)
class Event:
    """One event.

    Parameters
    ----------
    id : a UUID of version 7, made where the event was written; ids of one bench rise, whatever its clock does.
    about, subject : what it is about, and which one.
    at_ms : when it happened, in milliseconds since 1970-01-01 UTC; of what is typed in afterwards when it was done.
    bench : the device that wrote it.
    by : who did it, "" where nobody said.
    body : what happened.
    """

    id: EventId
    about: About
    subject: SubjectId
    at_ms: int
    bench: str
    by: str
    body: Body


def order_of(event: Event) -> tuple[int, str]:
    """Where an event belongs among the others of its subject: by when it happened, then by its id.

    Parameters
    ----------
    event : any.
    """
    return event.at_ms, event.id
