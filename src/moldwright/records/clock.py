"""The one place of the records that looks at a clock: ids and times of a bench, rising whatever its clock does."""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable
from threading import Lock

from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, SubjectId
from moldwright.log.uuid7 import RANDOM_BITS, uuid7


def now_ms() -> int:
    """The time of this machine: milliseconds since 1970-01-01 UTC."""
    return time.time_ns() // 1_000_000


class BenchClock:
    """Ids and events of one bench.

    Parameters
    ----------
    bench : the device's name.
    by : who works at it, "" where nobody said.
    now : the clock.
    last_ms : the newest time that this bench has written already; a clock that was set back goes on from it.
    """

    def __init__(self, bench: str, by: str = "", now: Callable[[], int] = now_ms, last_ms: int = 0) -> None:
        self.bench, self.by = bench, by
        self._now, self._last_ms, self._chance, self._lock = now, last_ms + 1, 0, Lock()

    def now(self) -> int:
        """The time of this bench's clock [ms], set back or not: for the day that a person means by today."""
        return self._now()

    def new_id(self) -> str:
        """A UUID of version 7 above all before it."""
        with self._lock:
            at_ms = max(self._now(), self._last_ms)
            more = secrets.randbits(40) + 1
            chance = (
                self._chance + more if at_ms == self._last_ms and self._chance else secrets.randbits(RANDOM_BITS - 2)
            )
            self._last_ms, self._chance = at_ms, chance
            return uuid7(at_ms, chance)

    def event(self, about: About, subject: SubjectId, body: Body, at_ms: int | None = None) -> Event:
        """An event of now, or of when it was told to have been.

        Parameters
        ----------
        about, subject : what it is about.
        body : what happened.
        at_ms : when, None: now; never before what this bench wrote last.
        """
        new = EventId(self.new_id())
        return Event(new, about, subject, self._last_ms if at_ms is None else at_ms, self.bench, self.by, body)
