"""Drawing a line through what was written last, or through an entry that is named."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from moldwright.errors import InputRefused
from moldwright.log.any_events import Undone
from moldwright.log.event import Event
from moldwright.log.standing import struck
from moldwright.records.runs.doing.at_run import AtRun
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.write import Logged, last_of_bench, strike


def strikes_next(run: OpenRun, bench: str, written: Iterable[Event] = ()) -> tuple[Event, ...]:
    """The entries that Strike out takes, the newest first: what was written last in one go, else the bench's last one.

    Parameters
    ----------
    run : as it stands.
    bench : the device's name.
    written : the events of the last press, where they are known.
    """
    gone = struck(run.events)
    last = [event for event in written if event.id not in gone and not isinstance(event.body, Undone)]
    if last:
        return tuple(reversed(last))
    of_bench = last_of_bench(run, bench)
    return () if of_bench is None else (of_bench,)


def strike_out_all(at: AtRun, written: Sequence[str]) -> tuple[tuple[Event, Logged], ...]:
    """Draw a line through entries, one after the other: each with what it was.

    Parameters
    ----------
    at : the bench.
    written : ids or codes.

    Raises as `records.runs.write.strike`, InputRefused ("nothing-to-strike") where none is named.
    """
    if not written:
        raise InputRefused("nothing-to-strike", "no entry of this bench", "an entry", "", "u CODE takes any.")
    done = []
    for each in written:
        logged = strike(at.shop, at.clock, at.run.id, each)
        line = logged.events[0].body
        event = next(e for e in logged.run.events if isinstance(line, Undone) and e.id == line.event)
        done.append((event, logged))
        at = replace(at, run=logged.run)
    return tuple(done)
