"""An entry of a log for programs."""

from __future__ import annotations

from typing import Any

from moldwright.log.codes import short_code
from moldwright.log.event import Event
from moldwright.log.json_text import body_text, kind_of


def entry_tree(event: Event, struck: bool) -> dict[str, Any]:
    """An entry as JSON tells it.

    Parameters
    ----------
    event : any.
    struck : whether a line goes through it.
    """
    return {
        "id": event.id,
        "code": short_code(event.id),
        "at_ms": event.at_ms,
        "bench": event.bench,
        "by": event.by,
        "kind": kind_of(event.body),
        "body": body_text(event.body),
        "struck": struck,
    }
