"""Entries that another bench wrote down as lines of JSON: all of them are taken in, or none."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from moldwright.errors import InputRefused
from moldwright.log.edition_events import EditionResized, NumberGiven
from moldwright.log.event import About, Event
from moldwright.log.ids import EventId, SubjectId
from moldwright.log.json_text import body_of, compact
from moldwright.log.uuid7 import is_uuid7
from moldwright.records.shop import Appended, Shop
from moldwright.text.harmless import is_line
from moldwright.text.shown import short
from moldwright.ways import Deed

FIELDS = {"id": str, "about": str, "subject": str, "kind": str, "at_ms": int, "bench": str, "by": str, "body": dict}
"""What a line holds; more is passed over, as `at` of an archive's line is."""
LONGEST_NAME, LONGEST_KIND = 80, 40
LATEST_MS = 2**48
MOST_LINES = 200_000


def take_in(shop: Shop, lines: Iterable[str]) -> Appended:
    """Keep entries as another bench wrote them; those that are there already count once.

    Parameters
    ----------
    shop : the store.
    lines : each one JSON object: id, about, subject, kind, at_ms, bench, by and body, as an archive has them.

    Raises InputRefused ("event-line-unreadable", "event-claims") with the line's number, RecordConflict
    ("event-differs").
    """
    told = [(number, line) for number, line in enumerate(lines, start=1) if line.strip()]
    if len(told) > MOST_LINES:
        raise InputRefused("too-many-lines", len(told), MOST_LINES, "lines", "Take them in in parts.")
    return shop.append([_event(number, line) for number, line in told])


def _event(number: int, line: str) -> Event:
    tree = _tree(number, line)
    try:
        body = body_of(tree["kind"], compact(tree["body"]))
    except (InputRefused, ValueError) as error:
        raise _refused(number, str(error)) from None
    if isinstance(body, NumberGiven | EditionResized):
        remedy = "Nothing was written. Numbers are given where the store is asked"
        told = f"line {number}: {tree['kind']}"
        raise InputRefused("event-claims", told, "entries that claim nothing", "", remedy, Deed.GIVE_NUMBER)
    ids = EventId(tree["id"]), About(tree["about"]), SubjectId(tree["subject"])
    return Event(*ids, tree["at_ms"], tree["bench"], tree["by"], body)


def _tree(number: int, line: str) -> dict[str, Any]:
    try:
        tree = json.loads(line)
    except (ValueError, RecursionError):
        raise _refused(number, short(line.strip(), 40)) from None
    if not isinstance(tree, dict):
        raise _refused(number, short(line.strip(), 40))
    for name, kind in FIELDS.items():
        if type(tree.get(name)) is not kind:
            raise _refused(number, f'no "{name}"')
    wrong = next((name for name, right in _checks(tree).items() if not right), None)
    if wrong is not None:
        raise _refused(number, f"{wrong} {short(str(tree[wrong]), 40)}")
    return tree


def _checks(tree: dict[str, Any]) -> dict[str, bool]:
    return {
        "id": is_uuid7(tree["id"]),
        "about": tree["about"] in list(About),
        "subject": is_uuid7(tree["subject"]),
        "kind": is_line(tree["kind"], LONGEST_KIND),
        "at_ms": 0 <= tree["at_ms"] < LATEST_MS,
        "bench": is_line(tree["bench"], LONGEST_NAME),
        "by": not tree["by"] or is_line(tree["by"], LONGEST_NAME),
    }


def _refused(number: int, what: str) -> InputRefused:
    remedy = "Send that bench's lines again, as it wrote them. Nothing was written."
    return InputRefused("event-line-unreadable", f"line {number}: {what}", "an entry of a bench", "", remedy)
