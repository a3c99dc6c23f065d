"""What may be pressed on a screen, and what each press writes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from moldwright.told.bench.when import When


@dataclass(frozen=True, slots=True)
class AskShown:
    """What a press asks for before it writes: the body's field that takes it as it was typed, what it is (mass, volume,
    temperature, length, lengths, air, text, number, share, choice), what stands above it, the unit of a bare number.
    `decides`: what follows the press hangs on it, and is told ahead only where nothing is typed."""

    field: str
    what: str
    label: str
    unit: str = ""
    may_lack: bool = False
    decides: bool = False


@dataclass(frozen=True, slots=True)
class EventTemplate:
    """An event that a press writes: its kind, and its body as JSON; what the press asks for is filled in."""

    kind: str
    body: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class PressShown:
    """Something to press.

    Parameters
    ----------
    id : by which a screen knows it.
    label, small : what stands on it.
    main : it has the two cut corners: it is what comes next.
    events : what it writes, all of it or nothing; none: it only goes on (a box is passed over).
    asks : what is to be typed first.
    online : the server must be asked: it is not for an outbox.
    turn : where it turns the work aside, by what a screen finds what follows it (`AheadShown.turns`); "": it does not.
    """

    id: str
    label: str
    small: str = ""
    main: bool = False
    events: tuple[EventTemplate, ...] = ()
    asks: tuple[AskShown, ...] = ()
    online: bool = False
    turn: str = ""


@dataclass(frozen=True, slots=True)
class StrikeShown:
    """What Strike out takes, all that one press wrote: their ids, the newest first, in words, and when."""

    ids: tuple[str, ...]
    text: str
    at: When


@dataclass(frozen=True, slots=True)
class EntryShown:
    """An entry of the log in words; `id`: "" of what a press to come writes. `gone`: a line goes through it."""

    id: str
    code: str
    text: str
    by: str
    at: When
    gone: bool = False
