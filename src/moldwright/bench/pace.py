"""How fast a cure ran while the temperature changed, and when it is over.

What a cure has done by a moment is `w(t) = integral of k(T(s)) ds`, k by Arrhenius against the plan's temperature, so
that a wait of a minutes, begun at t0, is over at the t with `w(t) - w(t0) = a`. Between two readings the rate is the
mean of theirs; at the soonest all of it went by the faster of the two and the energy that makes it faster, at the
latest by the slower.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

from moldwright.cure.potlife import COLDEST_C, HOTTEST_C, rate_ratio
from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class Stretch:
    """A time that begins at a reading and ends at the next: the temperatures at its two ends [degC]."""

    from_ms: int
    first_c: float
    last_c: float

    @property
    def ends_c(self) -> tuple[float, float]:
        """Its two temperatures [degC]."""
        return self.first_c, self.last_c


def stretches(readings: Iterable[tuple[int, float]]) -> tuple[Stretch, ...]:
    """The times between readings; the last reading holds on.

    Parameters
    ----------
    readings : when, and the temperature [degC]; in order. What is beyond 0 to 60 degC counts as that end.

    >>> stretches([(0, 20.0), (60, 72.0)])
    (Stretch(from_ms=0, first_c=20.0, last_c=60.0), Stretch(from_ms=60, first_c=60.0, last_c=60.0))
    """
    read = [(at, min(max(temperature, COLDEST_C), HOTTEST_C)) for at, temperature in readings]
    between = [Stretch(at, one, other) for (at, one), (_, other) in pairwise(read)]
    return (*between, *(Stretch(at, last, last) for at, last in read[-1:]))


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast it ran: before the first of `from_ms` as planned, then at each of `rates`; `done` by each of them."""

    from_ms: tuple[int, ...] = ()
    rates: tuple[float, ...] = ()
    done: tuple[float, ...] = ()

    def over(self, from_ms: int, planned_ms: float) -> int:
        """When what takes so long at the plan's temperature is over [ms].

        Parameters
        ----------
        from_ms : when it began.
        planned_ms : how long it takes at the plan's temperature.

        >>> pace((0, 100), (2.0, 0.5)).over(-50, 100.0), pace((0, 100), (2.0, 0.5)).over(50, 150.0)
        (25, 200)
        """
        if not self.from_ms:
            return from_ms + round(planned_ms)
        wanted = self._done_by(from_ms) + planned_ms
        n = bisect_right(self.done, wanted) - 1
        if n < 0:
            return self.from_ms[0] + round(wanted)
        return self.from_ms[n] + round((wanted - self.done[n]) / self.rates[n])

    @property
    def now(self) -> float:
        """How fast it runs at the last reading, against the plan's."""
        return self.rates[-1] if self.rates else 1.0

    def _done_by(self, at_ms: int) -> float:
        n = bisect_right(self.from_ms, at_ms) - 1
        if n < 0:
            return float(at_ms - self.from_ms[0])
        return self.done[n] + (at_ms - self.from_ms[n]) * self.rates[n]


def pace(from_ms: Sequence[int], rates: Sequence[float]) -> Pace:
    """A pace from its rates.

    Parameters
    ----------
    from_ms : when each begins, in order.
    rates : against the plan's, > 0.
    """
    whole = ((other - one) * rate for (one, other), rate in zip(pairwise(from_ms), rates, strict=False))
    done = accumulate(whole, initial=0.0) if from_ms else ()
    return Pace(tuple(from_ms), tuple(rates), tuple(done))


@dataclass(frozen=True, slots=True)
class Paces:
    """How fast a cure ran at the most, likely, at the least."""

    fast: Pace = Pace()
    likely: Pace = Pace()
    slow: Pace = Pace()


def paces(energy: Range, plan_c: float, along: Sequence[Stretch]) -> Paces:
    """How fast a cure ran.

    Parameters
    ----------
    energy : the activation energy [kJ/mol].
    plan_c : the plan's temperature, at which it runs as planned [degC].
    along : the temperatures that were read.

    Valid from 0 to 60 degC. Source: Arrhenius' law (`cure.potlife.rate_ratio`).
    """
    told = {each: _rates(energy, plan_c, each) for each in {c for s in along for c in s.ends_c}}
    every = [[told[end] for end in each.ends_c] for each in along]
    times = [each.from_ms for each in along]
    fast = pace(times, [max(rate.high for rate in ends) for ends in every])
    likely = pace(times, [sum(rate.likely for rate in ends) / 2.0 for ends in every])
    slow = pace(times, [min(rate.low for rate in ends) for ends in every])
    return Paces(fast, likely, slow)


def _rates(energy: Range, plan_c: float, at_c: float) -> Range:
    """How fast it goes at one temperature: in the cold the higher energy makes it slower, in the warm faster."""
    by = sorted(rate_ratio(each, plan_c, at_c) for each in (energy.low, energy.likely, energy.high))
    return Range(*by)
