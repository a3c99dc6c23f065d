"""Which events stand: those that no line goes through."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.log.any_events import Undone
from moldwright.log.event import Event, order_of
from moldwright.log.ids import EventId


def standing(events: Iterable[Event]) -> tuple[Event, ...]:
    """What counts of a subject's events: each once, in the order in which they happened.

    What has a line through it is left out, and so are the lines: a line through a line takes nothing back, what was
    struck out by mistake is written once more.

    Parameters
    ----------
    events : of one subject or of several, in any order, some perhaps twice.
    """
    once = {event.id: event for event in events}
    gone = struck(once.values())
    kept = (event for event in once.values() if event.id not in gone and not isinstance(event.body, Undone))
    return tuple(sorted(kept, key=order_of))


def struck(events: Iterable[Event]) -> frozenset[EventId]:
    """Ids of what has a line through it.

    Parameters
    ----------
    events : any; those of other subjects do no harm.
    """
    return frozenset(event.body.event for event in events if isinstance(event.body, Undone))
