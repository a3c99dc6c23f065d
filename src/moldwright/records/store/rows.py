"""An event as a row of its table and back."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Row, String

from moldwright.errors import InputRefused
from moldwright.log.any_events import Undone
from moldwright.log.edition_events import NumberGiven
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, SubjectId
from moldwright.log.json_text import body_of, body_text, kind_of
from moldwright.log.run_events import Weighed
from moldwright.log.uuid7 import is_uuid7
from moldwright.plan.json_text import rounded
from moldwright.records.store.tables import EVENT
from moldwright.text.shown import shown
from moldwright.ways import Deed

LATEST_MS = 1 << 48
"""A UUID of version 7 holds no later time."""
WIDE = {column.name: column.type.length for column in EVENT.c if isinstance(column.type, String)}
"""How many letters a column takes, None for any number."""


def row_of(event: Event) -> dict[str, Any]:
    """The columns of an event, which both engines take.

    Parameters
    ----------
    event : any.

    Raises InputRefused ("event-unwritable") where it is none that a bench could have written.
    """
    row = _columns(event)
    wrong = unfit(row)
    if wrong or not is_uuid7(event.id):
        what = f"{row['kind']}, {wrong or 'id'}: {shown(row[wrong or 'id'])}"
        remedy = "Write it down anew, in plain letters and with a time that is one."
        raise InputRefused("event-unwritable", what, "an event", "", remedy)
    return row


def unfit(row: dict[str, Any]) -> str:
    """The first column that does not take its value on both engines, "" where all do.

    Parameters
    ----------
    row : values by the columns of `EVENT`.
    """
    return next((name for name, value in row.items() if not _taken(name, value)), "")


def _taken(name: str, value: Any) -> bool:
    """Whether a column takes a value: no half letters, no NUL, not too long, a time that can be."""
    if isinstance(value, str):
        whole = value.isascii() or not any("\ud800" <= letter <= "\udfff" for letter in value)
        return whole and "\0" not in value and len(value) <= (WIDE[name] or len(value))
    return name != "at_ms" or 0 <= value < LATEST_MS


def _columns(event: Event) -> dict[str, Any]:
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
        **found_by(body),
    }


def found_by(body: Body) -> dict[str, Any]:
    """The columns that repeat what a body's text says, for what the database itself looks for.

    Parameters
    ----------
    body : what happened.
    """
    weighed = body.lot is not None if isinstance(body, Weighed) else False
    return {
        "lot": body.lot if isinstance(body, Weighed) and weighed else None,
        "mass_g": rounded(body.mass_g) if isinstance(body, Weighed) and weighed else None,
        "undoes": body.event if isinstance(body, Undone) else None,
    }


def claim_of(subject: str, id_: str, body: Body) -> dict[str, Any] | None:
    """The row of `NUMBER` by which an event takes a number for good; None for one that takes none.

    Parameters
    ----------
    subject, id_ : the event's.
    body : what happened.
    """
    if not isinstance(body, NumberGiven):
        return None
    told = {"series": body.series.value, "number": body.number, "piece": body.piece}
    return {"edition": subject, **told, "event": id_}


def event_of(row: Row[Any]) -> Event:
    """The event that a row holds.

    Parameters
    ----------
    row : of `EVENT`.

    Raises InputRefused ("event-unreadable") where it is damaged.
    """
    try:
        about, body = About(row.about), body_of(row.kind, row.body)
    except (ValueError, TypeError):
        remedy = "Look what is amiss"
        told = shown(row.id)
        raise InputRefused("event-unreadable", told, "an event of this version", "", remedy, Deed.CHECK_SHOP) from None
    return Event(EventId(row.id), about, SubjectId(row.subject), row.at_ms, row.bench, row.by, body)
