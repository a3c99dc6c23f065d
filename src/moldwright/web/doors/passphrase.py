"""The passphrase of a desk that is open to other devices: kept as argon2id's own text, and never as itself.

Source: RFC 9106, 4 (the second recommended option: 3 passes, 64 MiB, 4 lanes, a salt of 128 bits, a tag of 256);
NIST SP 800-63B, 5.1.1.2 (8 characters at least, 64 must be taken, compared in NFKC; from memory). 12 is our own.
"""

from __future__ import annotations

import unicodedata
from dataclasses import replace
from functools import cache
from threading import Lock

from argon2 import PasswordHasher
from argon2.exceptions import Argon2Error, InvalidHashError
from argon2.low_level import Type

from moldwright.errors import InputRefused
from moldwright.web.doors.file import DoorFile
from moldwright.web.doors.secrets import same
from moldwright.web.doors.state import CameBy, DoorState
from moldwright.words.speaker import say

LEAST, MOST, LEAST_DIFFERENT = 12, 200, 5
PASSES, MEMORY_KIB, LANES, SALT_BYTES, TAG_BYTES = 3, 65536, 4, 16, 32
HASHER = PasswordHasher(PASSES, MEMORY_KIB, LANES, TAG_BYTES, SALT_BYTES, type=Type.ID)
ONE_AT_A_TIME = Lock()
"""Each comparing takes 64 MiB: a crowd at the door waits in a row and fills no memory."""


class Passphrase:
    """The passphrase of a desk.

    Parameters
    ----------
    file : that keeps what is kept of it.
    """

    def __init__(self, file: DoorFile) -> None:
        self._file = file

    @property
    def is_set(self) -> bool:
        """Whether there is one."""
        return bool(self._file.read().passphrase)

    def fits(self, told: str) -> bool:
        """Whether it is the passphrase. Where none is set none fits, and that takes as long.

        Parameters
        ----------
        told : what was typed.
        """
        kept = self._file.read().passphrase
        with ONE_AT_A_TIME:
            try:
                return HASHER.verify(kept or _nobody_s(), as_kept(told)) and bool(kept)
            except (Argon2Error, InvalidHashError):
                return False

    def set(self, new: str, but: str = "") -> None:
        """Set it; whoever came in by the one before is signed out. Devices that were invited stay.

        Parameters
        ----------
        new : what was typed.
        but : name of the session that stays, for whoever sets it is signed in.

        Raises InputRefused ("passphrase-weak").
        """
        kept = as_kept(new)
        refuse_weak(kept)
        with ONE_AT_A_TIME:
            text = HASHER.hash(kept)

        def changed(state: DoorState) -> DoorState:
            stay = (each for each in state.sessions if each.way is not CameBy.PASSPHRASE or each.name == but)
            return replace(state, passphrase=text, sessions=tuple(stay))

        self._file.change(changed)


def as_kept(told: str) -> str:
    """A passphrase in the form that is compared: keyboards write the same letter in several ways.

    Parameters
    ----------
    told : what was typed.
    """
    return unicodedata.normalize("NFKC", told.encode(errors="replace").decode())


def refuse_weak(passphrase: str) -> None:
    """Refuse what others would soon have guessed.

    Parameters
    ----------
    passphrase : in the form that is compared.

    Raises InputRefused ("passphrase-weak").
    """
    remedy = "Take four or five words that nobody would put together; spaces count."
    if not LEAST <= len(passphrase) <= MOST:
        raise InputRefused("passphrase-weak", len(passphrase), f"{LEAST} to {MOST}", "characters", remedy)
    if len(set(passphrase)) < LEAST_DIFFERENT:
        raise InputRefused(
            "passphrase-weak",
            len(set(passphrase)),
            say("{least_different} or more", least_different=LEAST_DIFFERENT),
            "different characters",
            remedy,
        )


def same_twice(one: str, other: str) -> None:
    """Refuse a passphrase that was typed differently the second time.

    Parameters
    ----------
    one, other : what was typed.

    Raises InputRefused ("passphrase-differs").
    """
    if not same(as_kept(one), as_kept(other)):
        remedy = "Type the same passphrase twice."
        raise InputRefused("passphrase-differs", "two passphrases", "the same one twice", "", remedy)


@cache
def _nobody_s() -> str:
    """A hash that no passphrase has been told for."""
    return HASHER.hash(b"\0nobody")
