"""Who calls: with which role, from which device."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum


class Role(IntEnum):
    """What somebody may do; each may all that is before it too."""

    VIEW = 1
    BENCH = 2
    OWNER = 3


@dataclass(frozen=True, slots=True)
class Visitor:
    """Whoever is signed in.

    Parameters
    ----------
    role : what they may do.
    device : the name of the device, as it stands in the log.
    by : who works at it, "" where nobody said.
    token : what every act of theirs carries, so that no other site can act for them.
    session : the name of their session, which opens nothing; "" for a script on the machine itself that reads.
    here : whether they sit at the machine that the desk runs on.
    """

    role: Role
    device: str
    by: str = ""
    token: str = ""
    session: str = ""
    here: bool = False

    @property
    def only_looks(self) -> bool:
        """Whether they may read, and do nothing."""
        return self.role is Role.VIEW
