"""Those who write to one file from this process take turns: who asked first is served first."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from threading import Event, Lock


class Turns:
    """A line of those who wait. Only its first asks the database, till it has the right to write; then the next one."""

    def __init__(self) -> None:
        self._guard, self._line = Lock(), deque[Event]()

    @contextmanager
    def mine(self, end_s: float) -> Iterator[None]:
        """The body is run by the first of the line; by one whose time is up too, for the database to refuse it.

        Parameters
        ----------
        end_s : till when to wait, by `time.monotonic` [s].
        """
        come = Event()
        with self._guard:
            self._line.append(come)
            self._line[0].set()
        try:
            come.wait(max(0.0, end_s - time.monotonic()))
            yield
        finally:
            with self._guard:
                self._line.remove(come)
                if self._line:
                    self._line[0].set()


@cache
def turns_at(place: str) -> Turns:
    """The line before a file; one for all who open it here.

    Parameters
    ----------
    place : the file's path.
    """
    return Turns()
