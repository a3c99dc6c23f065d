"""What can be told of an act, a wait and a tack window at one moment."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.bench.acts import Act
from moldwright.plan.steps import StepPlan
from moldwright.ranges import Range


class ActState(StrEnum):
    """Where an act stands; the desk's words."""

    TO_COME = "to come"
    READY = "ready"
    IN_HAND = "in hand"
    WAITING = "waiting"
    DONE = "done"
    STRUCK_OUT = "struck out"
    LEFT_OUT = "left out"


class WaitStage(StrEnum):
    """How far a wait has come: before its low end, up to its likely one, up to its high one, beyond it."""

    TOO_SOON = "too soon"
    MAY = "may be"
    LIKELY = "likely"
    OVER = "over"


class TackStage(StrEnum):
    """Where a tack window stands."""

    TOO_SOON = "too soon"
    TACKY = "tacky"
    CLOSING = "closing"
    TOO_LATE = "too late"


LAST_SHARE = 0.2
"""The last share of a window or a clock, in which it is told that it ends: the desk's own."""


@dataclass(frozen=True, slots=True)
class WaitEnds:
    """When something ends, at the earliest, likely, at the latest [ms since 1970 UTC]."""

    low_ms: int
    likely_ms: int
    high_ms: int

    def stage(self, now_ms: int) -> WaitStage:
        """How far it has come.

        Parameters
        ----------
        now_ms : the moment.

        >>> [WaitEnds(10, 20, 30).stage(now).value for now in (9, 10, 20, 30)]
        ['too soon', 'may be', 'likely', 'over']
        """
        ends = (self.low_ms, self.likely_ms, self.high_ms)
        return tuple(WaitStage)[sum(now_ms >= end for end in ends)]


@dataclass(frozen=True, slots=True)
class AirNow:
    """The shop's air as it was read; `at_ms`: when."""

    at_ms: int
    temperature_c: float
    humidity_pct: float | None = None


@dataclass(frozen=True, slots=True)
class HeldBy:
    """Why an act cannot be begun: `act` is not done (`ends` None), or what it left to itself is not over before the
    low of `ends`."""

    act: Act
    ends: WaitEnds | None = None


@dataclass(frozen=True, slots=True)
class WaitNow:
    """A wait that is running: counted from when `of` was done; the acts of `next` wait for it."""

    of: Act
    from_ms: int
    ends: WaitEnds
    stage: WaitStage
    next: tuple[Act, ...]


@dataclass(frozen=True, slots=True)
class WindowNow:
    """A tack window: `next` is to be begun from the low of `opens`, and before `closes`, whose likely one is told."""

    of: Act
    next: Act
    from_ms: int
    opens: WaitEnds
    closes: WaitEnds
    stage: TackStage

    @property
    def closing_ms(self) -> int:
        """From when on it is closing [ms]."""
        return closing_from(self.opens, self.closes)


def closing_from(opens: WaitEnds, closes: WaitEnds) -> int:
    """From when on a window is closing: its last fifth, or where its earliest close is sooner, from there [ms].

    Parameters
    ----------
    opens, closes : its two ends.

    >>> opens = WaitEnds(0, 20, 30)
    >>> closing_from(opens, WaitEnds(95, 100, 110)), closing_from(opens, WaitEnds(50, 100, 110))
    (80, 50)
    """
    last = closes.likely_ms - int(LAST_SHARE * max(0, closes.likely_ms - opens.low_ms))
    return max(min(last, closes.low_ms), min(opens.low_ms, closes.likely_ms))


def tack_stage(opens: WaitEnds, closes: WaitEnds, now_ms: int) -> TackStage:
    """Where a tack window stands.

    Parameters
    ----------
    opens, closes : its two ends.
    now_ms : the moment.

    >>> opens, closes = WaitEnds(10, 20, 30), WaitEnds(60, 60, 60)
    >>> [tack_stage(opens, closes, now).value for now in (9, 10, 50, 60)]
    ['too soon', 'tacky', 'closing', 'too late']
    """
    if now_ms >= closes.likely_ms:
        return TackStage.TOO_LATE
    if now_ms < opens.low_ms:
        return TackStage.TOO_SOON
    return TackStage.CLOSING if now_ms >= closing_from(opens, closes) else TackStage.TACKY


@dataclass(frozen=True, slots=True)
class ActNow:
    """An act at one moment.

    Parameters
    ----------
    act : which.
    step : its step of the plan.
    state : where it stands.
    begun_ms : when it was taken in hand, or its first cup was weighed; None: not yet, or nobody wrote it.
    done_ms : when it was done; its wait counts from here.
    why : the reason for which it is left out.
    struck : some of what was written of it has a line through it.
    holds : what keeps it from being begun; empty of one that is begun, done or left out.
    wait_min : what it asks to wait in the air as it was last read [min]; None for no wait.
    done_timed : it is told when it was done; else `done_ms` only keeps the order.
    """

    act: Act
    step: StepPlan
    state: ActState
    begun_ms: int | None = None
    done_ms: int | None = None
    why: str = ""
    struck: bool = False
    holds: tuple[HeldBy, ...] = ()
    wait_min: Range | None = None
    done_timed: bool = True

    @property
    def may_begin(self) -> bool:
        """Whether it may be begun now: nothing holds it, and it is not begun, done or left out."""
        return self.state in (ActState.READY, ActState.STRUCK_OUT) and not self.holds
