"""The doors of one desk, together: who is signed in, by what one comes in, and how often it may be tried."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.records.clock import now_ms
from moldwright.text.harmless import is_line
from moldwright.web.doors.file import DoorFile
from moldwright.web.doors.invitations import Invitations
from moldwright.web.doors.passphrase import Passphrase
from moldwright.web.doors.sessions import Sessions
from moldwright.web.doors.state import CameBy
from moldwright.web.doors.tries import TooOften, Tries
from moldwright.web.doors.visitor import Role
from moldwright.words.speaker import say

LONGEST_NAME = 80
"""As the log has them (`records/clock.py`)."""


class Doors:
    """Who comes in.

    Parameters
    ----------
    data : the desk's data folder.
    clock_ms : the time.
    """

    def __init__(self, data: Path, clock_ms: Callable[[], int] = now_ms) -> None:
        self.file = DoorFile(data)
        self.sessions = Sessions(self.file, clock_ms)
        self.passphrase = Passphrase(self.file)
        self.invitations = Invitations(self.file, clock_ms)
        self.tries = Tries(clock_ms)

    def by_passphrase(self, told: str, device: str, address: str) -> str | TooOften:
        """Sign a device in as the owner's.

        Parameters
        ----------
        told : the passphrase as it was typed.
        device : its name.
        address : from where.

        Returns its session's secret, or that it was tried too often. Raises InputRefused ("sign-in-refused").
        """
        name = line_of(device, "device-name")
        return self.prove(told, address) or self.sessions.begin(Role.OWNER, name, CameBy.PASSPHRASE)

    def prove(self, told: str, address: str) -> TooOften | None:
        """Refuse whoever does not know the passphrase.

        Parameters
        ----------
        told : as it was typed.
        address : from where.

        Returns that it was tried too often, if it was. Raises InputRefused ("sign-in-refused").
        """
        too_often = self.tries.claim(address)
        if too_often is None:
            if not self.passphrase.fits(told):
                raise refusal()
            self.tries.forgive(address)
        return too_often

    def by_invitation(self, code: str, address: str) -> str | TooOften:
        """Sign an invited device in.

        Parameters
        ----------
        code : of its invitation.
        address : from where.

        Returns its session's secret, or that it was tried too often. Raises InputRefused ("sign-in-refused").
        """
        too_often = self.tries.claim(address)
        if too_often is not None:
            return too_often
        found = self.invitations.take(code) if self.passphrase.is_set else None
        if found is None:
            raise refusal()
        self.tries.forgive(address)
        return self.sessions.begin(found.role, found.device, CameBy.INVITATION)


def refusal() -> InputRefused:
    """What is said whatever was wrong, so that nobody learns what was right."""
    remedy = "Type the passphrase again, or ask the owner for a new code: each works once, for ten minutes."
    return InputRefused("sign-in-refused", "this passphrase or code", "one that opens", "", remedy)


def line_of(text: str, code: str, may_be_empty: bool = False) -> str:
    """A name as it is kept.

    Parameters
    ----------
    text : what was typed.
    code : of the refusal.
    may_be_empty : whether nothing is a name too.

    Raises InputRefused.
    """
    name = text.strip()
    if not (is_line(name, LONGEST_NAME) or (may_be_empty and not name)):
        raise InputRefused(
            code,
            name,
            say("1 to {longest_name} characters in one line", longest_name=LONGEST_NAME),
            "",
            "Write a short plain name.",
        )
    return name
