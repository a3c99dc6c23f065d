"""What the sheets of a run are printed from: handed in whole, so that the same gives the same sheets."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, tzinfo

from moldwright.bench.acts import Act
from moldwright.bench.clocks import Clocks, clocks_of
from moldwright.bench.now import ActNow, AirNow
from moldwright.bench.run import RunState
from moldwright.log.codes import short_code
from moldwright.log.event import Body, Event
from moldwright.log.ids import LotId, RunId
from moldwright.log.run_events import Done, ShopAir
from moldwright.log.standing import standing
from moldwright.log.uuid7 import time_ms
from moldwright.plan.plan import Plan

LATER_MS = 15 * 60_000
"""What was written down so long after it happened was typed in later, from paper or from memory [ms]: our own."""

WEEK_MS = 6 * 86_400_000
"""So far from a moment a day of the week is one day and no other [ms]."""
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


@dataclass(frozen=True, slots=True)
class RunShown:
    """A run as it is printed.

    Parameters
    ----------
    plan : by which it goes on.
    run : its id.
    state : as it stands.
    stands : the entries that count, in their order.
    at_ms : when it is printed.
    lots : what a lot is called: the supplier's number, or its short code; others are told by their short code.
    numbers : the edition's number of each cast that has one: "7/24".
    zone : in which its times are told, None: this machine's.
    """

    plan: Plan
    run: RunId
    state: RunState
    stands: tuple[Event, ...]
    at_ms: int
    lots: Mapping[LotId, str]
    numbers: Mapping[int, str]
    zone: tzinfo | None

    @property
    def clocks(self) -> Clocks:
        """By what its waits go: the shop's air as it was read."""
        read = [(e.body, e.at_ms) for e in self.stands if isinstance(e.body, ShopAir) and timed(e.body)]
        return clocks_of(self.plan, [AirNow(at_ms, air.temperature_c, air.humidity_pct) for air, at_ms in read])

    def act(self, act: Act) -> ActNow | None:
        """An act as it stands; None for one that the run has not.

        Parameters
        ----------
        act : which.
        """
        return self.state.act(act)

    def done_ms(self, act: Act) -> int | None:
        """When an act was done; None where it is not, or nobody said when.

        Parameters
        ----------
        act : which.
        """
        now = self.act(act)
        done = [event for event in self.stands if isinstance(event.body, Done) and event.body.step == act.step]
        known = any(timed(e.body) for e in done if now is not None and e.at_ms == now.done_ms)
        return now.done_ms if now is not None and known else None

    def lot(self, lot: LotId) -> str:
        """What a lot is called.

        Parameters
        ----------
        lot : which.
        """
        return self.lots.get(lot) or short_code(lot)

    def clock(self, at_ms: int) -> str:
        """The time of the day: "14:05".

        Parameters
        ----------
        at_ms : a moment.
        """
        return f"{self._local(at_ms):%H:%M}"

    def day(self, at_ms: int) -> str:
        """The day: "2026-11-27".

        Parameters
        ----------
        at_ms : a moment.
        """
        return f"{self._local(at_ms):%Y-%m-%d}"

    def moment(self, at_ms: int, after_ms: int | None = None) -> str:
        """Day and time; the time alone where the day was told.

        Parameters
        ----------
        at_ms : a moment.
        after_ms : another one, which was told before it.
        """
        told = self.clock(at_ms)
        same = after_ms is not None and self.day(after_ms) == self.day(at_ms)
        return told if same else f"{self.day(at_ms)} {told}"

    def near(self, at_ms: int, after_ms: int) -> str:
        """A moment some days from another at the most: "14:05", "Tue 14:05"; beyond, its day and time.

        Parameters
        ----------
        at_ms : a moment.
        after_ms : the other one.
        """
        if self.day(at_ms) == self.day(after_ms):
            return self.clock(at_ms)
        if abs(at_ms - after_ms) < WEEK_MS:
            return f"{DAYS[self._local(at_ms).weekday()]} {self.clock(at_ms)}"
        return self.moment(at_ms)

    def _local(self, at_ms: int) -> datetime:
        return datetime.fromtimestamp(at_ms / 1000, self.zone)


def run_shown(
    plan: Plan,
    run: RunId,
    state: RunState,
    events: Iterable[Event],
    at_ms: int,
    lots: Mapping[LotId, str] | None = None,
    numbers: Mapping[int, str] | None = None,
    zone: tzinfo | None = None,
) -> RunShown:
    """A run as it is printed.

    Parameters
    ----------
    plan, run, state, at_ms, lots, numbers, zone : as of `RunShown`.
    events : of the run, in any order, struck-out ones among them.
    """
    return RunShown(plan, run, state, standing(events), at_ms, lots or {}, numbers or {}, zone)


def timed(body: Body) -> bool:
    """Whether the time of an entry is when it happened: what is typed in from paper may not know.

    Parameters
    ----------
    body : what happened.
    """
    return bool(getattr(body, "timed", True))


def typed_in(event: Event) -> bool:
    """Whether an entry was written down well after it happened.

    Parameters
    ----------
    event : any.
    """
    return not timed(event.body) or time_ms(event.id) - event.at_ms > LATER_MS
