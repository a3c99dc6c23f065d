"""Entries as a screen sends them: JSON from outside, read with bounds to everything."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite
from types import MappingProxyType
from typing import Any

from moldwright.errors import InputRefused
from moldwright.log import any_events, run_events
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId
from moldwright.log.kinds import NAMES
from moldwright.log.uuid7 import is_uuid7, time_ms
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.said import SAID, SaidAgain, meant_by
from moldwright.store.walk import Reader, Torn, read
from moldwright.text.harmless import is_line
from moldwright.text.shown import short, shown

MOST_BYTES, MOST_EVENTS = 16_000_000, 20_000
DEEPEST, LONGEST_TEXT, LONGEST_LIST = 8, 4000, 200
LONGEST_NAME = 80
WHOLE = 2**53
DAY_MS = 86_400_000
"""So far an entry may lie ahead of the server's clock, or before its run's start: a clock that is set, in any zone."""
MADE_BY_SCREENS = (
    any_events.Noted,
    any_events.Attached,
    any_events.Undone,
    run_events.Begun,
    run_events.Done,
    run_events.LeftOut,
    run_events.Weighed,
    run_events.Poured,
    run_events.Divided,
    run_events.WentOn,
    run_events.Gelled,
    run_events.CupTemperature,
    run_events.ShopAir,
    run_events.Gauged,
    run_events.ScaleChecked,
    run_events.CastMeasured,
    run_events.BoxWritten,
    run_events.Problem,
    run_events.Ended,
)
"""What a screen may write by itself: nothing that asks the store first, as a number of an edition or a mold in the
register does."""
KINDS: Mapping[str, type[Body]] = MappingProxyType({NAMES[kind]: kind for kind in MADE_BY_SCREENS} | dict(SAID))
"""The kinds that may be sent, by their names."""


@dataclass(frozen=True, slots=True)
class Sender:
    """The device that sends, and who works at it, "" where nobody said."""

    bench: str
    by: str = ""


def items_of(text: str | bytes) -> list[Any]:
    """The entries of a batch, unread.

    Parameters
    ----------
    text : a JSON list of them, or an object that holds it as "events".

    Raises InputRefused ("batch-unreadable", "batch-too-large").
    """
    if len(text) > MOST_BYTES:
        raise InputRefused("batch-too-large", len(text), MOST_BYTES, "bytes", "Send fewer entries at once.")
    try:
        tree = json.loads(text)
    except (ValueError, RecursionError):
        raise _unreadable() from None
    found = tree.get("events") if isinstance(tree, dict) else tree
    if not isinstance(found, list):
        raise _unreadable()
    if len(found) > MOST_EVENTS:
        raise InputRefused("batch-too-large", len(found), MOST_EVENTS, "entries", "Send fewer entries at once.")
    return found


def _unreadable() -> InputRefused:
    remedy = "Send a JSON list of entries: id, at_ms, kind, body."
    return InputRefused("batch-unreadable", "no batch", "a list of entries", "", remedy)


def event_sent(item: object, run: OpenRun, sender: Sender, now_ms: int) -> Event:
    """An entry as it was sent.

    Parameters
    ----------
    item : an object with id (a UUID of version 7), at_ms, kind and body; bench and by where they are not the sender's.
    run : whose.
    sender : whose entries they are that do not say it.
    now_ms : the moment.

    Raises InputRefused ("entry-unreadable", "kind-not-sent", "time-far-off", and what is wrong with what was typed).
    """
    _refuse_unless_plain(item)
    if not isinstance(item, dict):
        raise _wrong(shown(item))
    id_, at_ms, kind, body = (item.get(name) for name in ("id", "at_ms", "kind", "body"))
    bench, by = item.get("bench", sender.bench), item.get("by", sender.by)
    if not isinstance(id_, str) or not is_uuid7(id_):
        raise _wrong(f"id {shown(id_)}")
    if type(at_ms) is not int:
        raise _wrong(f"at_ms {shown(at_ms)}")
    if not isinstance(bench, str) or not is_line(bench, LONGEST_NAME):
        raise _wrong(f"bench {shown(bench)}")
    if not isinstance(by, str) or (by and not is_line(by, LONGEST_NAME)):
        raise _wrong(f"by {shown(by)}")
    _refuse_far(id_, at_ms, run, now_ms)
    said = _body(kind, body)
    if isinstance(said, SaidAgain):
        meant, at_ms = _again(run, said)
    else:
        meant = meant_by(run.plan, said)
    return Event(EventId(id_), About.RUN, run.id, at_ms, bench, by, meant)


def _again(run: OpenRun, said: SaidAgain) -> tuple[Body, int]:
    """A weighing that the desk struck out, and when it was told."""
    found = next((e for e in run.events if e.id == said.event and isinstance(e.body, run_events.Weighed)), None)
    if found is None:
        remedy = "Take a weighing that the run's log shows."
        raise InputRefused("event-not-kept", short(said.event), "a weighing of this run", "", remedy)
    return found.body, found.at_ms


def _body(kind: object, body: object) -> Body:
    known = KINDS.get(kind) if isinstance(kind, str) else None
    if known is None:
        remedy = "What asks the store first, as a number or a register does, is done online."
        raise InputRefused("kind-not-sent", shown(kind), "what a screen may write by itself", "", remedy)
    try:
        told = read(known, body, _SentReader(), "body")
    except (Torn, ValueError, RecursionError) as error:
        raise _wrong(f"{kind}: {short(str(error))}") from None
    assert isinstance(told, Body)
    return told


class _SentReader(Reader):
    defaults = True


def _wrong(what: str) -> InputRefused:
    return InputRefused("entry-unreadable", what, "an entry of a run", "", "Write it down anew.")


def _refuse_far(id_: str, at_ms: int, run: OpenRun, now_ms: int) -> None:
    """Refuse what no clock that is set can have told: its order among the others would be wrong for good."""
    started_ms = run.state.frame.started_ms or 0
    latest = max(at_ms, time_ms(id_)) - now_ms
    if latest > DAY_MS or at_ms < started_ms - DAY_MS:
        off_h = (latest if latest > DAY_MS else at_ms - started_ms) / 3_600_000
        remedy = "Look at the time of that device, then write it down anew."
        what = "within a day of the server's clock and after the run began"
        raise InputRefused("time-far-off", round(off_h, 1), what, "h", remedy)


def _refuse_unless_plain(tree: object) -> None:
    """Refuse what is deep, long or no number, before anything looks into it."""
    open_: list[tuple[object, int]] = [(tree, 0)]
    while open_:
        value, depth = open_.pop()
        if depth > DEEPEST or not _is_plain(value):
            raise _wrong(shown(value, 40))
        if isinstance(value, dict):
            open_ += [(each, depth + 1) for pair in value.items() for each in pair]
        elif isinstance(value, list):
            open_ += [(each, depth + 1) for each in value]


def _is_plain(value: object) -> bool:
    match value:
        case None | bool():
            return True
        case str():
            return len(value) <= LONGEST_TEXT and not any("\ud800" <= letter <= "\udfff" for letter in value)
        case int():
            return abs(value) <= WHOLE
        case float():
            return isfinite(value)
        case list() | dict():
            return len(value) <= LONGEST_LIST
        case _:
            return False
