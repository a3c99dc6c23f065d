"""What is kept of the doors: the passphrase's hash, who is signed in, who is invited."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from enum import StrEnum
from typing import Any

from moldwright.web.doors.visitor import Role

DAY_MS = 24 * 3600 * 1000
IDLE_MS, LONGEST_MS = 30 * DAY_MS, 180 * DAY_MS
"""A session ends when its device was not seen for the first, or was signed in for the second: our own."""


class CameBy(StrEnum):
    """How a device came in."""

    MACHINE = "machine"
    PASSPHRASE = "passphrase"
    INVITATION = "invitation"


@dataclass(frozen=True, slots=True)
class DeskSession:
    """One device that is signed in.

    Parameters
    ----------
    name : what it is called by where it is ended.
    hash : of the secret in its cookie.
    role : what it may do.
    device, by : its name, and who works at it.
    way : how it came in.
    made_ms, seen_ms : when it began and when it was last seen, to a few minutes.
    """

    name: str
    hash: str
    role: Role
    device: str
    by: str
    way: CameBy
    made_ms: int
    seen_ms: int

    @property
    def ends_ms(self) -> int:
        """When it ends by itself."""
        return min(self.seen_ms + IDLE_MS, self.made_ms + LONGEST_MS)


@dataclass(frozen=True, slots=True)
class Invitation:
    """A device that may sign in once; `hash` is that of its code."""

    hash: str
    role: Role
    device: str
    ends_ms: int


@dataclass(frozen=True, slots=True)
class DoorState:
    """All of it. `passphrase` is argon2's own text, "" where none is set."""

    passphrase: str = ""
    sessions: tuple[DeskSession, ...] = ()
    invitations: tuple[Invitation, ...] = ()


def state_text(state: DoorState) -> str:
    """The file's text.

    Parameters
    ----------
    state : what it holds.
    """
    return json.dumps({"version": 1} | asdict(state), indent=1)


def state_of(text: str) -> DoorState:
    """What a file's text holds; ValueError, KeyError or TypeError where it is none.

    Parameters
    ----------
    text : of the file.
    """
    told: dict[str, Any] = json.loads(text)
    sessions = (
        DeskSession(**each | {"role": Role(each["role"]), "way": CameBy(each["way"])}) for each in told["sessions"]
    )
    invitations = (Invitation(**each | {"role": Role(each["role"])}) for each in told["invitations"])
    return DoorState(str(told["passphrase"]), tuple(sessions), tuple(invitations))
