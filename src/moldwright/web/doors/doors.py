"""The doors of one desk, together."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from moldwright.records.clock import now_ms
from moldwright.web.doors.file import DoorFile
from moldwright.web.doors.sessions import Sessions


class Doors:
    """Who is signed in.

    Parameters
    ----------
    data : the desk's data folder.
    clock_ms : the time.
    """

    def __init__(self, data: Path, clock_ms: Callable[[], int] = now_ms) -> None:
        self.file = DoorFile(data)
        self.clock_ms = clock_ms
        self.sessions = Sessions(self.file, clock_ms)
