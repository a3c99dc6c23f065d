"""A client that logs is killed at random moments, many times; run as a program of its own, which forks the clients.

`python killed_clients.py PLACE KILLS SEED`: each client opens the store (the first one makes it) and appends batches of
notes about a run of its own, numbered from 0 on, telling how many are acknowledged. Some time after its start, or after
its first acknowledged batch, it gets SIGKILL. Then the store is opened: what is there of that run must be the first so
many notes, whole batches, no fewer than acknowledged. Prints how many were killed before, and how many after their
first acknowledged batch, and the events acknowledged.
"""

from __future__ import annotations

import os
import random
import select
import signal
import sys
import time
from contextlib import closing, suppress
from itertools import count

from moldwright.log.any_events import Noted
from moldwright.log.event import About
from moldwright.log.ids import RunId, SubjectId
from moldwright.records.clock import BenchClock
from moldwright.records.shop import open_shop

LONGEST_S = 0.12
"""After its first acknowledged batch a client lives no longer."""
STARTS = 1.5
"""After its start a client lives no longer than so many times as a client before it took for its first batch."""
SIZES = (1, 1, 1, 3, 40)
"""Events of a batch: most often one, as at the bench."""


def log(place: str, run: RunId, size: int, out: int) -> None:
    """Append batches until killed; tell each time how many events are acknowledged."""
    shop, clock = open_shop(place), BenchClock(f"tablet {os.getpid()}")
    for start in count(0, size):
        shop.append(clock.event(About.RUN, run, Noted(str(number))) for number in range(start, start + size))
        os.write(out, f"{start + size}\n".encode())


def killed(place: str, run: RunId, size: int, after_s: float, from_first: bool) -> tuple[int, float]:
    """How many events a client had acknowledged when it was killed, so long after its start or its first batch; how
    long it was waited for the latter [s]."""
    back, out = os.pipe()
    child = os.fork()
    if not child:
        os.close(back)
        with suppress(BaseException):
            log(place, run, size, out)
        os._exit(1)
    os.close(out)
    begun_s = time.monotonic()
    if from_first:
        select.select([back], [], [])
    waited_s = time.monotonic() - begun_s
    time.sleep(after_s)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    with os.fdopen(back) as told:
        lines = told.read().splitlines()
    assert os.waitstatus_to_exitcode(status) == -signal.SIGKILL, "it ended by itself"
    return (int(lines[-1]) if lines else 0), waited_s


def found(place: str, run: RunId) -> list[str]:
    """The notes of a run, as the store tells them afterwards."""
    with closing(open_shop(place)) as shop:
        return [event.body.text for event in shop.events_of(run) if isinstance(event.body, Noted)]


def main(place: str, kills: int, seed: int) -> None:
    chance, ids = random.Random(seed), BenchClock("ids")
    early = late = acknowledged = 0
    first_s = LONGEST_S / STARTS
    for _ in range(kills):
        run, size, from_first = RunId(SubjectId(ids.new_id())), chance.choice(SIZES), chance.random() < 0.6
        after_s = chance.uniform(0.0, LONGEST_S if from_first else STARTS * first_s)
        told, waited_s = killed(place, run, size, after_s, from_first)
        first_s = waited_s if from_first else first_s
        there = found(place, run)
        assert there == [str(number) for number in range(len(there))], "an event is missing, half or twice"
        assert len(there) % size == 0, "half a batch"
        assert told <= len(there) <= told + size, f"{told} acknowledged, {len(there)} kept"
        early, late, acknowledged = early + (not told), late + bool(told), acknowledged + told
    print(early, late, acknowledged)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
