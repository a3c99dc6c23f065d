"""Lines of an archive: always the same line for the same record, and the record back from it."""

from __future__ import annotations

import json
from dataclasses import dataclass, fields
from datetime import datetime, timedelta
from typing import Any, TypeVar, get_type_hints

from moldwright.archive.layout import BODY_TEXT

MOST = 2**63
EPOCH = datetime(1970, 1, 1)
ENCODE = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode


class TornLine(ValueError):
    """A line that is not as this format writes it."""


@dataclass(frozen=True, slots=True)
class EventLine:
    """An event as the store holds it; `body` is its text, byte for byte."""

    id: str
    about: str
    subject: str
    kind: str
    at_ms: int
    bench: str
    by: str
    body: str


@dataclass(frozen=True, slots=True)
class PlanLine:
    """A kept plan without its text."""

    sha256: str
    bytes: int
    name: str
    kept_ms: int


@dataclass(frozen=True, slots=True)
class FileLine:
    """A kept file without its bytes."""

    sha256: str
    bytes: int
    type: str
    name: str
    kept_ms: int


NAMES = ("id", "about", "subject", "kind", "at_ms", "bench", "by")
TYPES: dict[type, dict[str, type]] = {kind: get_type_hints(kind) for kind in (EventLine, PlanLine, FileLine)}
R = TypeVar("R", PlanLine, FileLine)
L = TypeVar("L", EventLine, PlanLine, FileLine)


def event_text(line: EventLine) -> str:
    """An event as its line.

    Parameters
    ----------
    line : the event.
    """
    return _line(line, comes_back(line.body))


def event_in(text: str) -> EventLine:
    """The event that a line holds; TornLine where this format would have written another line.

    Parameters
    ----------
    text : the line, without its end.
    """
    tree = _tree(text)
    as_object = isinstance(tree.get("body"), dict)
    try:
        body = ENCODE(tree["body"]) if as_object else tree[BODY_TEXT]
        line = _checked(EventLine(**{name: tree[name] for name in NAMES}, body=body))
    except (KeyError, ValueError, RecursionError):
        raise TornLine from None
    if (not as_object and comes_back(body)) or _line(line, as_object) != text:
        raise TornLine
    return line


def _line(line: EventLine, as_object: bool) -> str:
    """`as_object`: its body is such that what JSON makes of it comes back as it was."""
    told = {
        "id": line.id,
        "about": line.about,
        "subject": line.subject,
        "kind": line.kind,
        "at_ms": line.at_ms,
        "at": day_and_time(line.at_ms),
        "bench": line.bench,
        "by": line.by,
    }
    body = f'"body":{line.body}' if as_object else f'"{BODY_TEXT}":{ENCODE(line.body)}'
    return f"{ENCODE(told)[:-1]},{body}}}"


def row_text(line: PlanLine | FileLine) -> str:
    """A plan or a file as its line.

    Parameters
    ----------
    line : what is told of it.
    """
    return ENCODE({field.name: getattr(line, field.name) for field in fields(line)})


def row_in(text: str, kind: type[R]) -> R:
    """What a line tells of a plan or of a file; TornLine where this format would have written another line.

    Parameters
    ----------
    text : the line, without its end.
    kind : which of the two.
    """
    tree = _tree(text)
    if set(tree) != {field.name for field in fields(kind)}:
        raise TornLine
    line = _checked(kind(**tree))
    if row_text(line) != text:
        raise TornLine
    return line


def comes_back(body: str) -> bool:
    """Whether a body's text is that of the JSON object that a reader makes of it, to the byte.

    Parameters
    ----------
    body : as the store holds it.

    >>> comes_back('{"mass_g":32.5}'), comes_back('{"mass_g":3.25e1}'), comes_back('{"a":1,"a":2}'), comes_back("{")
    (True, False, False, False)
    """
    try:
        tree = json.loads(body)
        return isinstance(tree, dict) and ENCODE(tree) == body
    except (ValueError, RecursionError):
        return False


def day_and_time(at_ms: int) -> str:
    """When, for people: ISO 8601 in UTC; "" outside the years 1 to 9999.

    Parameters
    ----------
    at_ms : milliseconds since 1970-01-01 UTC.

    >>> day_and_time(1645557742000), day_and_time(10**18)
    ('2022-02-22T19:22:22.000Z', '')
    """
    try:
        return f"{(EPOCH + timedelta(milliseconds=at_ms)).isoformat(timespec='milliseconds')}Z"
    except OverflowError:
        return ""


def _tree(text: str) -> dict[str, Any]:
    try:
        tree = json.loads(text)
    except (ValueError, RecursionError):
        raise TornLine from None
    if not isinstance(tree, dict):
        raise TornLine
    return tree


def _checked(line: L) -> L:
    """Every field is of its own type, and whole numbers are such that a database holds them."""
    for name, kind in TYPES[type(line)].items():
        value = getattr(line, name)
        if type(value) is not kind or (isinstance(value, int) and not -MOST <= value < MOST):
            raise TornLine
    return line
