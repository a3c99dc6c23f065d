"""Invitations: a device signs in once by a short code, within ten minutes, with the role that the owner gave it."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import replace

from moldwright.web.doors.file import DoorFile
from moldwright.web.doors.secrets import hash_of_secret, same
from moldwright.web.doors.state import DoorState, Invitation
from moldwright.web.doors.visitor import Role

LASTS_MS = 10 * 60_000
MOST = 20
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
"""32 that are not taken for each other: no I, O, 0, 1."""
CODE_LENGTH = 8
"""40 bits: by 5 tries in ten minutes nobody guesses one of 10^12."""


class Invitations:
    """The invitations of a desk.

    Parameters
    ----------
    file : that keeps them, by hash.
    now_ms : the clock.
    """

    def __init__(self, file: DoorFile, now_ms: Callable[[], int]) -> None:
        self._file, self._now_ms = file, now_ms

    def make(self, role: Role, device: str) -> tuple[str, int]:
        """Invite a device.

        Parameters
        ----------
        role : what it will be allowed to do.
        device : its name.

        Returns the code, and when it ends [ms].
        """
        code, ends_ms = "".join(secrets.choice(LETTERS) for _ in range(CODE_LENGTH)), self._now_ms() + LASTS_MS
        new = Invitation(hash_of_secret(code), role, device, ends_ms)
        self._file.change(lambda state: replace(state, invitations=(*self._living(state)[1 - MOST :], new)))
        return f"{code[:4]}-{code[4:]}", ends_ms

    def take(self, code: str) -> Invitation | None:
        """The invitation of a code, which ends with that; None where there is none.

        Parameters
        ----------
        code : as it was typed or scanned.
        """
        kept = hash_of_secret(code_of(code))
        found: list[Invitation] = []

        def taken(state: DoorState) -> DoorState:
            living = self._living(state)
            found.extend(each for each in living if same(each.hash, kept))
            return replace(state, invitations=tuple(each for each in living if each not in found))

        self._file.change(taken)
        return found[0] if found else None

    def _living(self, state: DoorState) -> tuple[Invitation, ...]:
        now = self._now_ms()
        return tuple(each for each in state.invitations if each.ends_ms > now)


def code_of(typed: str) -> str:
    """A code as it was made, from what was typed.

    Parameters
    ----------
    typed : in any case, with dashes or spaces.

    >>> code_of(" k7m2-9qxd ")
    'K7M29QXD'
    """
    return "".join(letter for letter in typed.upper() if letter.isalnum())[: 2 * CODE_LENGTH]
