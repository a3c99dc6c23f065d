"""When waits, tack windows and pot lives end, at the temperatures that were logged."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from moldwright.bench.now import AirNow, WaitEnds
from moldwright.bench.pace import Pace, Paces, Stretch, paces, stretches
from moldwright.plan.clocks import CurePlan, Curing
from moldwright.plan.plan import Plan
from moldwright.plan.steps import StepPlan
from moldwright.ranges import Range

MINUTE_MS = 60_000
SECOND_MS = 1000
AS_PLANNED = Range.exactly(1.0)


@dataclass(frozen=True, slots=True)
class Clocks:
    """By what the run's times go: the plan's cures and the air as it was read."""

    plan_c: float
    cures: Mapping[Curing, CurePlan]
    paces: Mapping[Curing, Paces]
    air: tuple[Stretch, ...]

    def ends(self, cures: Sequence[Curing], wait_min: Range, from_ms: int) -> WaitEnds:
        """When a wait is over: what dries or sets by the clock, what cures by the temperature, of two the later.

        Parameters
        ----------
        cures : what it is the cure of, none for what dries or sets.
        wait_min : at the plan's temperature [min].
        from_ms : from when it counts.
        """
        low, likely, high = (each * MINUTE_MS for each in (wait_min.low, wait_min.likely, wait_min.high))
        by = [self.paces[each] for each in cures if each in self.paces] or [Paces()]
        return WaitEnds(
            max(each.fast.over(from_ms, low) for each in by),
            max(each.likely.over(from_ms, likely) for each in by),
            max(each.slow.over(from_ms, high) for each in by),
        )

    def factor(self, cures: Sequence[Curing]) -> Range:
        """By how much a wait is longer in the air as it was last read than at the plan's temperature.

        Parameters
        ----------
        cures : what it is the cure of.
        """
        last = [self._last(each) for each in cures if each in self.paces]
        if not last:
            return AS_PLANNED
        return Range(*(max(getattr(each, end) for each in last) for end in ("low", "likely", "high")))

    def _last(self, curing: Curing) -> Range:
        by = self.paces[curing]
        return Range(1.0 / by.fast.now, 1.0 / by.likely.now, 1.0 / by.slow.now)

    def in_cup(self, curing: Curing | None, readings: Sequence[tuple[int, float]]) -> Pace:
        """How fast a mix goes at the most: by the shop's air, and by its own temperature from when that was read.

        Parameters
        ----------
        curing : what cures in it, None for what sets by its sheet.
        readings : of the mix: when, and its temperature [degC]; in order.
        """
        if curing is None or curing not in self.cures:
            return Pace()
        if not readings:
            return self.paces[curing].fast
        before = tuple(each for each in self.air if each.from_ms < readings[0][0])
        return paces(self.cures[curing].activation_kj_mol, self.plan_c, (*before, *stretches(readings))).fast


def clocks_of(plan: Plan, air: Iterable[AirNow]) -> Clocks:
    """By what a run's times go.

    Parameters
    ----------
    plan : its temperature and what cures.
    air : as it was read, in order.
    """
    along = stretches((each.at_ms, each.temperature_c) for each in air)
    energies = {cure.activation_kj_mol for cure in plan.cures}
    by = {energy: paces(energy, plan.temperature_c, along) for energy in energies}
    of = {cure.of: cure for cure in plan.cures}
    return Clocks(plan.temperature_c, of, {each: by[cure.activation_kj_mol] for each, cure in of.items()}, along)


def wait_ends(step: StepPlan, from_ms: int, clocks: Clocks) -> WaitEnds | None:
    """When what a step leaves to itself is over; None where it asks for no wait behind it.

    Parameters
    ----------
    step : the step.
    from_ms : when it was done.
    clocks : by what times go.
    """
    if step.wait_min is None or step.waits_within:
        return None
    return clocks.ends(step.cures, step.wait_min, from_ms)


def window_closes(step: StepPlan, from_ms: int, clocks: Clocks) -> WaitEnds | None:
    """When what must begin while a step's work is tacky is too late; None where nothing must.

    Parameters
    ----------
    step : the step.
    from_ms : when it was done.
    clocks : by what times go.
    """
    return None if step.closes_min is None else clocks.ends(step.cures, step.closes_min, from_ms)
