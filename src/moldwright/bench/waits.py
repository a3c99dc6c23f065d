"""When waits, tack windows and pot lives end."""

from __future__ import annotations

from moldwright.bench.now import WaitEnds
from moldwright.plan.ids import StepId
from moldwright.plan.steps import StepPlan
from moldwright.ranges import Range

MINUTE_MS = 60_000
SECOND_MS = 1000


def wait_ends(step: StepPlan, from_ms: int) -> WaitEnds | None:
    """When what a step leaves to itself is over; None where it asks for no wait behind it.

    Parameters
    ----------
    step : the step.
    from_ms : when it was done.
    """
    if step.wait_min is None or step.waits_within:
        return None
    return ends(step.wait_min, from_ms)


def ends(wait_min: Range, from_ms: int) -> WaitEnds:
    """The ends of a wait.

    Parameters
    ----------
    wait_min : how long [min].
    from_ms : from when.

    >>> ends(Range(1.0, 2.0, 3.5), 1000)
    WaitEnds(low_ms=61000, likely_ms=121000, high_ms=211000)
    """
    return WaitEnds(*(from_ms + round(each * MINUTE_MS) for each in (wait_min.low, wait_min.likely, wait_min.high)))


def window_ends(step: StepPlan, from_ms: int) -> tuple[StepId, WaitEnds] | None:
    """What must begin while a step's work is tacky, and when that is over; None where nothing does.

    Parameters
    ----------
    step : the step.
    from_ms : when it was done.
    """
    if step.closes_min is None:
        return None
    return step.closes_for, ends(step.closes_min, from_ms)
