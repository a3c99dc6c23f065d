"""Writing on a run: what happened is on the disk before anything is told; nothing is ever taken out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from moldwright.bench.findings import RunFinding
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.any_events import Undone
from moldwright.log.codes import short_code
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import RunId
from moldwright.log.run_events import Ended, Replanned, Started
from moldwright.records.clock import BenchClock
from moldwright.records.runs.checked import refuse_unless_of
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.shop import Shop
from moldwright.records.strike import CODES, LOGS, find_event, strike_out
from moldwright.records.told import line_told
from moldwright.text.shown import short
from moldwright.ways import Deed


@dataclass(frozen=True, slots=True)
class Logged:
    """What became of an entry.

    Parameters
    ----------
    events : what is kept of it.
    run : as it stands now.
    found : findings that were not there before.
    gone : findings that are there no more.
    """

    events: tuple[Event, ...]
    run: OpenRun
    found: tuple[RunFinding, ...]
    gone: tuple[RunFinding, ...]


def log(shop: Shop, clock: BenchClock, run: OpenRun | RunId, body: Body, at_ms: int | None = None) -> Logged:
    """Write down that something happened in a run.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    run : which; where it is open already, as it was.
    body : what happened.
    at_ms : when, None: now.

    Raises InputRefused as `refuse_unless_of`, RecordConflict ("run-ended").
    """
    return log_all(shop, clock, run, (body,), at_ms)


def log_all(
    shop: Shop, clock: BenchClock, run: OpenRun | RunId, bodies: Sequence[Body], at_ms: int | None = None
) -> Logged:
    """Write down several things that happened at once: all of them, or none where one is refused.

    Parameters
    ----------
    shop, clock, run : as `log`.
    bodies : what happened, in its order.
    at_ms : when, None: now.

    Raises as `log`.
    """
    before = opened(shop, run, clock.now())
    refuse_ended(before)
    for body in bodies:
        if isinstance(body, Started | Replanned | Undone | Ended):
            raise InputRefused("not-for-the-log", type(body).__name__, "what happened at the bench", "", "")
        refuse_unless_of(before, body)
    events = tuple(clock.event(About.RUN, before.id, body, at_ms) for body in bodies)
    shop.append(events)
    return after(shop, clock, before, events)


def refuse_ended(run: OpenRun) -> None:
    """Refuse to write on a run that is over.

    Parameters
    ----------
    run : which.

    Raises RecordConflict ("run-ended").
    """
    if run.state.frame.ended_ms is not None:
        remedy = "Start another run for more casts, or strike out its end if that was a mistake."
        raise RecordConflict("run-ended", f"run {short_code(run.id)}", "a run that is under way", "", remedy)


def opened(shop: Shop, run: OpenRun | RunId, now_ms: int) -> OpenRun:
    """A run, opened if it is not.

    Parameters
    ----------
    shop : the store.
    run : which.
    now_ms : the moment.
    """
    return run if isinstance(run, OpenRun) else open_run(shop, run, now_ms)


def after(shop: Shop, clock: BenchClock, before: OpenRun, events: tuple[Event, ...]) -> Logged:
    """What some events changed; what other benches wrote meanwhile is there too.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    before : the run as it was.
    events : what was written.
    """
    now_ms = max([clock.now(), *(event.at_ms for event in events)])
    run = open_run(shop, before.id, now_ms)
    old, new = before.state.findings, run.state.findings
    found = tuple(each for each in new if each not in old)
    return Logged(events, run, found, tuple(each for each in old if each not in new))


def strike(shop: Shop, clock: BenchClock, run: OpenRun | RunId, event: str, why: str = "") -> Logged:
    """Draw a line through an entry of a run.

    Parameters
    ----------
    shop, clock, run : as `log`.
    event : its id or its short code.
    why : in words.

    Raises InputRefused ("event-not-kept", "event-of-another", "line-struck-out", "start-struck-out").
    """
    before = opened(shop, run, clock.now())
    meant = find_event(shop, About.RUN, event)
    if meant.subject != before.id:
        raise InputRefused("event-not-kept", short(event), "an entry of this run", "", CODES, LOGS[About.RUN])
    if isinstance(meant.body, Started):
        remedy = "A run that is not wanted is ended"
        raise InputRefused("start-struck-out", "the run's start", "an entry after it", "", remedy, Deed.END_RUN)
    told = line_told(why, "a reason", may_lack=True)
    strike_out(shop, clock, About.RUN, meant.id, told)
    logged = after(shop, clock, before, ())
    lines = [e for e in logged.run.events if isinstance(e.body, Undone) and e.body.event == meant.id]
    return Logged((max(lines, key=lambda line: line.id),), logged.run, logged.found, logged.gone)


def last_of_bench(run: OpenRun, bench: str) -> Event | None:
    """The entry that a bench wrote last and that stands: what is struck out first.

    Parameters
    ----------
    run : which.
    bench : the device's name.
    """
    gone = {event.body.event for event in run.events if isinstance(event.body, Undone)}
    own = [e for e in run.events if e.bench == bench and e.id not in gone and not isinstance(e.body, Undone | Started)]
    return max(own, key=lambda event: event.id, default=None)


def end_run(shop: Shop, clock: BenchClock, run: OpenRun | RunId, why: str = "") -> Logged:
    """Nothing more will be done in a run; it stays readable, and its end can be struck out.

    Parameters
    ----------
    shop, clock, run : as `log`.
    why : in words, "" where nobody said.
    """
    before = opened(shop, run, clock.now())
    event = clock.event(About.RUN, before.id, Ended(line_told(why, "a reason", may_lack=True)))
    shop.append([event])
    return after(shop, clock, before, (event,))
