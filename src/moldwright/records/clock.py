"""The one place of the records that looks at a clock: ids and times of a bench, rising whatever its clock does."""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable
from datetime import date
from threading import Lock

from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, SubjectId
from moldwright.log.uuid7 import RANDOM_BITS, uuid7


def now_ms() -> int:
    """The time of this machine: milliseconds since 1970-01-01 UTC."""
    return time.time_ns() // 1_000_000


def today() -> str:
    """The shop's date, ISO 8601."""
    return date.today().isoformat()


UNSET_MS = 1_767_225_600_000
"""2026-01-01 UTC: a clock that says less was never set."""
SLIGHT_MS = 10 * 60_000
"""Clocks of benches differ, and are set right by so much without harm: 10 min. Our own choice."""


class BenchClock:
    """Ids and events of one bench.

    Ids go on rising from the last one. So do the times of what happens now, where the clock was set back slightly or
    was never set. Set back by more, it is believed: what was written before was ahead, and the store tells the doubt.

    Parameters
    ----------
    bench : the device's name.
    by : who works at it, "" where nobody said.
    now : the clock.
    last_ms : of the newest id that this bench has written already.
    """

    def __init__(self, bench: str, by: str = "", now: Callable[[], int] = now_ms, last_ms: int = 0) -> None:
        self.bench, self.by = bench, by
        self._now, self._last_ms, self._chance, self._lock = now, last_ms + 1, 0, Lock()

    def now(self) -> int:
        """The time of this bench's clock [ms], set back or not: for the day that a person means by today."""
        return self._now()

    def new_id(self) -> str:
        """A UUID of version 7 above all before it."""
        return self._next()[0]

    def _next(self) -> tuple[str, int]:
        """An id, and when it is now."""
        with self._lock:
            reading = self._now()
            at_ms = max(reading, self._last_ms)
            more = secrets.randbits(40) + 1
            chance = (
                self._chance + more if at_ms == self._last_ms and self._chance else secrets.randbits(RANDOM_BITS - 2)
            )
            self._last_ms, self._chance = at_ms, chance
            slight = at_ms - reading <= SLIGHT_MS or reading < UNSET_MS
            return uuid7(at_ms, chance), at_ms if slight else reading

    def event(self, about: About, subject: SubjectId, body: Body, at_ms: int | None = None) -> Event:
        """An event of now, or of when it was told to have been.

        Parameters
        ----------
        about, subject : what it is about.
        body : what happened.
        at_ms : when, None: now.
        """
        new, now = self._next()
        return Event(EventId(new), about, subject, now if at_ms is None else at_ms, self.bench, self.by, body)
