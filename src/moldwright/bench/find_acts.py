"""What the order and the times of the acts show to be wrong."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.bench.acts import Act
from moldwright.bench.findings import Found, RunFinding
from moldwright.bench.standing_acts import Progress, window_of
from moldwright.plan.quantity import Dimension, Quantity


def find_acts(at: Progress, replanned_ms: int | None = None) -> Iterator[RunFinding]:
    """Acts that were begun before what they need was done or its wait over, or after a tack window closed.

    Parameters
    ----------
    at : how far the run has come.
    replanned_ms : when it last went on by a new plan, which may have put something before what was begun by then.
    """
    for act in at.laid.in_order(at.written):
        begun = _begun_ms(act, at)
        if begun is not None:
            needs = (need for need in at.needs(act) if not _came_later(need, begun, at, replanned_ms))
            yield from (found for need in needs if (found := _early(act, need, begun, at)) is not None)
    for act in at.waits:
        late = _late(act, at)
        if late is not None:
            yield late


def _begun_ms(act: Act, at: Progress) -> int | None:
    entry = at.written[act]
    return entry.done_ms if entry.begun_ms is None else entry.begun_ms


def _begun_told(act: Act, at: Progress) -> bool:
    """Whether anybody said when it was begun, or done where only that is written."""
    entry = at.written[act]
    return entry.done_timed if entry.begun_ms is None else entry.begun_timed


def _came_later(need: Act, begun_ms: int, at: Progress, replanned_ms: int | None) -> bool:
    """Whether nothing was written of what an act needs, until a new plan came after the act was begun."""
    first = _begun_ms(need, at)
    return replanned_ms is not None and begun_ms <= replanned_ms and (first is None or first > replanned_ms)


def _early(act: Act, need: Act, begun_ms: int, at: Progress) -> RunFinding | None:
    done, ends = at.written[need].done_ms, at.waits.get(need)
    both = _begun_told(act, at) and at.written[need].done_timed
    if done is None or (both and begun_ms < done):
        return RunFinding(Found.WRONG_ORDER, act, need)
    if not both:
        return None
    if ends is not None and begun_ms < ends.low_ms:
        told = (seconds("begun.after", begun_ms - done), seconds("wait.low", ends.low_ms - done))
        return RunFinding(Found.TOO_SOON, act, need, quantities=told)
    return None


def _late(act: Act, at: Progress) -> RunFinding | None:
    told, done = window_of(act, at), at.written[act].done_ms
    if told is None or done is None:
        return None
    next_, closes = told
    begun = _begun_ms(next_, at)
    if begun is None or begun < closes.likely_ms or not _begun_told(next_, at):
        return None
    after = (seconds("begun.after", begun - done), seconds("window.closes", closes.likely_ms - done))
    return RunFinding(Found.TOO_LATE, next_, act, quantities=after)


def seconds(name: str, ms: int) -> Quantity:
    """A time as a sentence quotes it.

    Parameters
    ----------
    name : by which it is quoted.
    ms : how long [ms].
    """
    return Quantity(name, Dimension.DURATION, ms / 1000.0)
