"""An event as a row of its table and back."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Row

from moldwright.log.any_events import Undone
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, SubjectId
from moldwright.log.json_text import body_of, body_text, kind_of
from moldwright.log.run_events import Weighed


def row_of(event: Event) -> dict[str, Any]:
    """The columns of an event.

    Parameters
    ----------
    event : any.
    """
    body = event.body
    return {
        "id": event.id,
        "about": event.about.value,
        "subject": event.subject,
        "kind": kind_of(body),
        "at_ms": event.at_ms,
        "bench": event.bench,
        "by": event.by,
        "body": body_text(body),
        **_found_by(body),
    }


def _found_by(body: Body) -> dict[str, Any]:
    """What the database itself looks for."""
    weighed = body.lot is not None if isinstance(body, Weighed) else False
    return {
        "lot": body.lot if isinstance(body, Weighed) and weighed else None,
        "mass_g": body.mass_g if isinstance(body, Weighed) and weighed else None,
        "undoes": body.event if isinstance(body, Undone) else None,
    }


def event_of(row: Row[Any]) -> Event:
    """The event that a row holds.

    Parameters
    ----------
    row : of `EVENT`.
    """
    body = body_of(row.kind, row.body)
    return Event(EventId(row.id), About(row.about), SubjectId(row.subject), row.at_ms, row.bench, row.by, body)
