"""The fewest days that the steps take: one pair of hands within the working hours, one step after the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from moldwright.plan.ids import CoatId, StepId
from moldwright.plan.steps import Per, StepPlan

DAY_MIN = 24 * 60.0
TRY_EVERY_MIN = 15.0
"""Starts of the first coat are tried this far apart: our own."""
SLACK_MIN = 1e-6


@dataclass(frozen=True, slots=True)
class Hours:
    """Working hours of every day, counted from midnight [min]."""

    open_min: float
    close_min: float

    @property
    def day_min(self) -> float:
        """How long hands work in a day [min]."""
        return self.close_min - self.open_min

    def opened(self, at: float) -> float:
        """The first minute at or after `at`, counted from the first midnight, at which hands work [min]."""
        day, minute = divmod(at, DAY_MIN)
        if minute < self.open_min:
            return day * DAY_MIN + self.open_min
        return at if minute < self.close_min - SLACK_MIN else (day + 1) * DAY_MIN + self.open_min


@dataclass(frozen=True, slots=True)
class Sitting:
    """Steps that no night may part: all of one coat's; from the first cup of a cast to its last."""

    steps: tuple[StepPlan, ...]

    @property
    def coat(self) -> CoatId | None:
        """The coat that it is about."""
        return self.steps[0].coat

    @property
    def minutes(self) -> float:
        """From its first stroke to its last: the hands' time and the waits between [min]."""
        return sum(step.labor_min for step in self.steps) + sum(_wait(step) for step in self.steps[:-1])


@dataclass(frozen=True, slots=True)
class Run:
    """Where a row of sittings has come to: its end after the last wait [min], coats too late, steps too long."""

    end_min: float
    late: tuple[CoatId, ...] = ()
    longer: tuple[StepId, ...] = ()

    @property
    def days(self) -> int:
        """Days begun."""
        return int((self.end_min - SLACK_MIN) // DAY_MIN) + 1


def run(steps: Sequence[StepPlan], hours: Hours, latest_min: float) -> Run:
    """The steps one after the other, each as soon as the one before and its wait are over.

    Labor happens within the hours, waits run through the night. What hangs together (a coat, the cups of a cast) is
    begun only where the day is long enough for it, and in the morning where no day is. The first coat starts when
    most coats can follow within the tack window; of such starts, at the one that ends first.

    Parameters
    ----------
    steps : in the order of the work.
    hours : of every day, none is free.
    latest_min : how long after a coat's last stroke the next may start [min].

    Source: house rule.
    """
    at = Run(hours.opened(0.0))
    for coats, group in groupby(_sittings(steps), key=lambda sitting: sitting.coat is not None):
        sittings = tuple(group)
        at = _coats(at, sittings, hours, latest_min) if coats else _row(at, sittings, hours, latest_min)
    return replace(at, end_min=_told_end(at.end_min, steps, hours))


def coats_min(steps: Sequence[StepPlan]) -> float:
    """From the first stroke of the first coat to the last stroke of the last, without a night between [min].

    Parameters
    ----------
    steps : in the order of the work.
    """
    coats = [sitting for sitting in _sittings(steps) if sitting.coat is not None]
    return sum(each.minutes for each in coats) + sum(_wait(each.steps[-1]) for each in coats[:-1])


def _told_end(end: float, steps: Sequence[StepPlan], hours: Hours) -> float:
    """A last wait that ends at night is over when the shop opens."""
    return hours.opened(end) if steps and _wait(steps[-1]) > 0.0 else end


def _coats(at: Run, sittings: Sequence[Sitting], hours: Hours, latest_min: float) -> Run:
    starts = [hours.opened(at.end_min + TRY_EVERY_MIN * n) for n in range(int(DAY_MIN / TRY_EVERY_MIN) + 1)]
    runs = (_row(replace(at, end_min=start), sittings, hours, latest_min) for start in dict.fromkeys(starts))
    return min(runs, key=lambda made: (len(made.late), made.end_min))


def _row(at: Run, sittings: Sequence[Sitting], hours: Hours, latest_min: float) -> Run:
    stroke = None
    for sitting in sittings:
        start = _start(sitting, at.end_min, hours)
        late = stroke is not None and start > stroke + latest_min + SLACK_MIN
        stroke = _worked(sitting, start, hours) if sitting.coat else None
        at = Run(
            _worked(sitting, start, hours) + _wait(sitting.steps[-1]),
            (*at.late, *((sitting.coat,) if late and sitting.coat else ())),
            (*at.longer, *((sitting.steps[0].id,) if _longer(sitting, hours) else ())),
        )
    return at


def _longer(sitting: Sitting, hours: Hours) -> bool:
    return sitting.minutes > hours.day_min + SLACK_MIN


def _start(sitting: Sitting, ready: float, hours: Hours) -> float:
    """Now where the rest of the day is long enough, else the next morning."""
    now = hours.opened(ready)
    left = hours.close_min - now % DAY_MIN
    if sitting.minutes <= left + SLACK_MIN or now % DAY_MIN == hours.open_min:
        return now
    return hours.opened(now + left)


def _worked(sitting: Sitting, start: float, hours: Hours) -> float:
    """When its last stroke is done; what is longer than a day goes on the next morning."""
    at, minutes = start, sitting.minutes
    while minutes > hours.day_min + SLACK_MIN:
        at, minutes = at + DAY_MIN, minutes - hours.day_min
    return at + minutes


def _wait(step: StepPlan) -> float:
    return step.wait_min.likely if step.wait_min else 0.0


def _sittings(steps: Sequence[StepPlan]) -> Iterator[Sitting]:
    cups = [n for n, step in enumerate(steps) if step.per is Per.CAST and step.mixes]
    poured = range(cups[0], cups[-1] + 1) if cups else range(0)
    keys: list[object] = [step.coat or ("poured" if n in poured else n) for n, step in enumerate(steps)]
    bounds = [0, *(n for n, (one, other) in enumerate(pairwise(keys), start=1) if one != other), len(steps)]
    yield from (Sitting(tuple(steps[low:high])) for low, high in pairwise(bounds) if high > low)
