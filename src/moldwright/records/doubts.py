"""Times that make no sense: events are kept whatever their clock said, and what is doubtful is told."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from moldwright.log.event import Event
from moldwright.log.ids import EventId
from moldwright.log.uuid7 import time_ms
from moldwright.records.clock import SLIGHT_MS


class TimeDoubt(StrEnum):
    """What is odd about an event's time."""

    AHEAD = "it lies in the future"
    SET_BACK = "its bench had written at a later time already"


@dataclass(frozen=True, slots=True)
class Doubt:
    """One event whose time is doubtful; `by_ms`: how far off, `bench`: whose clock to look at."""

    event: EventId
    bench: str
    what: TimeDoubt
    by_ms: int


def doubts(events: Iterable[Event], now_ms: int) -> tuple[Doubt, ...]:
    """Those of some events whose times make no sense at this time.

    Parameters
    ----------
    events : any.
    now_ms : what this machine's clock says, in milliseconds since 1970-01-01 UTC.

    An id rises with its bench's clock and never falls; where it is ahead of now but its event is not, that clock was
    set back.
    """
    return tuple(found for event in events if (found := doubt_of(event, now_ms)) is not None)


def doubt_of(event: Event, now_ms: int) -> Doubt | None:
    """What is odd about one event's time, None for nothing.

    Parameters
    ----------
    event : any.
    now_ms : as `doubts`.
    """
    ahead, written_ahead = event.at_ms - now_ms, time_ms(event.id) - now_ms
    if ahead > SLIGHT_MS:
        return Doubt(event.id, event.bench, TimeDoubt.AHEAD, ahead)
    if written_ahead > SLIGHT_MS:
        return Doubt(event.id, event.bench, TimeDoubt.SET_BACK, written_ahead)
    return None
