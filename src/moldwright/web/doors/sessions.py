"""Who is signed in: begun, seen, renamed, ended."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from itertools import count

from moldwright.web.doors.file import DoorFile
from moldwright.web.doors.secrets import hash_of_secret, new_name, new_secret
from moldwright.web.doors.state import CameBy, DeskSession, DoorState
from moldwright.web.doors.visitor import Role

SEEN_EVERY_MS = 5 * 60_000
"""When a device was last seen is kept to so much: thirty tablets that ask every second must not write every second."""
LONGEST_NUMBERED = 76
"""Letters of a name before its number; our own."""
MOST, MOST_OF_MACHINE = 200, 20
"""Sessions at once, and of browsers on the machine itself; past that the one that was not seen for longest ends."""


class Sessions:
    """The sessions of a desk.

    Parameters
    ----------
    file : that keeps them.
    now_ms : the clock.
    """

    def __init__(self, file: DoorFile, now_ms: Callable[[], int]) -> None:
        self._file, self._now_ms = file, now_ms

    def all(self) -> tuple[DeskSession, ...]:
        """Those that have not ended, the one seen last first."""
        now = self._now_ms()
        living = (each for each in self._file.read().sessions if each.ends_ms > now)
        return tuple(sorted(living, key=lambda each: -each.seen_ms))

    def of(self, secret: str) -> DeskSession | None:
        """The session of a cookie; None for one that is none, or has ended.

        Parameters
        ----------
        secret : the cookie's.
        """
        kept = hash_of_secret(secret)
        return next((each for each in self.all() if each.hash == kept), None)

    def begin(self, role: Role, device: str, way: CameBy, by: str = "") -> str:
        """Sign a device in.

        Parameters
        ----------
        role : what it may do.
        device, by : its name, numbered where another device has it, and who works at it.
        way : how it came in; browsers on the machine itself share its name.

        Returns its secret, which is kept nowhere.
        """
        secret, now = new_secret(), self._now_ms()
        new = DeskSession(new_name(), hash_of_secret(secret), role, device, by, way, now, now)

        def begun(state: DoorState) -> DoorState:
            stay = _room(state, now, way)
            own = new if way is CameBy.MACHINE else replace(new, device=_free(device, stay))
            return replace(state, sessions=(*stay, own))

        self._file.change(begun)
        return secret

    def seen(self, name: str) -> None:
        """Note that a device is there, where that was not noted lately.

        Parameters
        ----------
        name : of its session.
        """
        now = self._now_ms()
        self._each(lambda one: replace(one, seen_ms=now) if one.name == name else one)

    def is_stale(self, session: DeskSession) -> bool:
        """Whether it is time to note again that a device is there.

        Parameters
        ----------
        session : its.
        """
        return self.age_ms(session) >= SEEN_EVERY_MS

    def age_ms(self, session: DeskSession) -> int:
        """How long ago a device was last seen [ms].

        Parameters
        ----------
        session : its.
        """
        return max(0, self._now_ms() - session.seen_ms)

    def rename(self, name: str, device: str, by: str) -> None:
        """What a device is called from now on, and who works at it.

        Parameters
        ----------
        name : of its session.
        device, by : the new names; the first is numbered where another device has it.
        """
        now = self._now_ms()

        def renamed(state: DoorState) -> DoorState:
            free = _free(device, [one for one in state.sessions if one.ends_ms > now and one.name != name])
            told = (replace(one, device=free, by=by) if one.name == name else one for one in state.sessions)
            return replace(state, sessions=tuple(told))

        self._file.change(renamed)

    def end(self, goes: Callable[[DeskSession], bool]) -> int:
        """End sessions.

        Parameters
        ----------
        goes : which.

        Returns how many.
        """
        before = len(self.all())
        self._each(lambda one: None if goes(one) else one)
        return before - len(self.all())

    def _each(self, how: Callable[[DeskSession], DeskSession | None]) -> None:
        def changed(state: DoorState) -> DoorState:
            kept = (new for one in state.sessions if (new := how(one)) is not None)
            return replace(state, sessions=tuple(kept))

        self._file.change(changed)


def _free(device: str, others: Iterable[DeskSession]) -> str:
    """A name that no other device has: what one writes at the bench, and strikes out, goes by it."""
    taken = {each.device for each in others}
    if device not in taken:
        return device
    short = device[:LONGEST_NUMBERED].rstrip()
    return next(name for n in count(2) if (name := f"{short} {n}") not in taken)


def _room(state: DoorState, now: int, way: CameBy) -> tuple[DeskSession, ...]:
    """The sessions that stay where one more comes."""
    living = sorted((each for each in state.sessions if each.ends_ms > now), key=lambda each: -each.seen_ms)
    of_machine = [each for each in living if each.way is CameBy.MACHINE]
    gone = of_machine[MOST_OF_MACHINE - 1 :] if way is CameBy.MACHINE else []
    return tuple([each for each in living if each not in gone][: MOST - 1])
