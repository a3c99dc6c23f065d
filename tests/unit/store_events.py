"""Events for tests of the store, and conditions that a store can meet."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from moldwright.log.any_events import Noted
from moldwright.log.event import About, Event
from moldwright.log.ids import RunId, SubjectId
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop

RUN = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))
NOBODY = 65534
LONG = "resin on the notebook " * 40


def notes(count: int, bench: str = "tablet 1", text: str = LONG) -> list[Event]:
    """So many notes of one bench about one run."""
    clock = BenchClock(bench)
    return [clock.event(About.RUN, RUN, Noted(f"{number} {text}")) for number in range(count)]


def kept(shop: Shop) -> list[Event]:
    """What the store holds of it."""
    return list(shop.events_of(RUN))


def filled(shop: Shop, most: int = 4000) -> tuple[list[Event], BaseException | None]:
    """Append one by one till it is refused: what was acknowledged, and the refusal."""
    done: list[Event] = []
    for event in notes(most):
        try:
            shop.append([event])
        except Exception as refused:
            return done, refused
        done.append(event)
    return done, None


@contextmanager
def somebody() -> Iterator[Path]:
    """A folder of a person who is not root, as that person: root may write anywhere."""
    folder = Path(tempfile.mkdtemp(prefix="mw-", dir="/tmp"))
    root = os.geteuid() == 0
    try:
        if root:
            os.chown(folder, NOBODY, NOBODY)
            os.seteuid(NOBODY)
        yield folder
    finally:
        if root:
            os.seteuid(0)
        folder.chmod(0o700)
        shutil.rmtree(folder)
