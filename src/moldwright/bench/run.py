"""The state of a run at one moment, from its plan and its events alone."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from moldwright.bench.acts import Act, PlannedAct, planned_acts
from moldwright.bench.clocks import clocks_of
from moldwright.bench.cup_now import CupNow
from moldwright.bench.cups import Bench, cups_now
from moldwright.bench.done import act_of, written
from moldwright.bench.fillings import Fillings, fillings
from moldwright.bench.find_acts import find_acts
from moldwright.bench.find_air import find_air, find_warm
from moldwright.bench.find_cups import find_cups
from moldwright.bench.find_measured import find_measured
from moldwright.bench.findings import Found, RunFinding
from moldwright.bench.frame import RunFrame, bodies, frame_of_standing
from moldwright.bench.kept import FoldKept
from moldwright.bench.laid import Laid, laid_out
from moldwright.bench.now import ActNow, ActState, AirNow, WaitNow, WindowNow
from moldwright.bench.standing_acts import acts_now, progress, waits_now, windows_now
from moldwright.log.event import Event
from moldwright.log.ids import EventId
from moldwright.log.run_events import Begun, BoxWritten, CastMeasured, CupRef, Done, LeftOut, ShopAir, Started
from moldwright.log.standing import standing, struck
from moldwright.plan.ids import MixId
from moldwright.plan.plan import Plan

MOST_KEPT = 4
"""So many airs and ways to lay out its acts are kept of one plan; our own."""


@dataclass(frozen=True, slots=True)
class RunState:
    """A run at one moment.

    Parameters
    ----------
    frame : how it was started, by which plan it goes on, whether it ended.
    now_ms : the moment.
    acts : all acts, in the order of the work.
    cups : all cups, in the order of the acts that mix them.
    waits : what cures, dries or sets now while something waits for it.
    windows : tack windows that are open, or will be.
    boxes : what was last written in each box of the sheets that has no event of its own.
    casts : what was last measured on each cast.
    air : the shop's air as it was last read; None where nobody read it, and times go by the plan's temperature.
    findings : what is wrong or doubtful.
    """

    frame: RunFrame
    now_ms: int
    acts: tuple[ActNow, ...]
    cups: tuple[CupNow, ...]
    waits: tuple[WaitNow, ...]
    windows: tuple[WindowNow, ...]
    boxes: tuple[BoxWritten, ...]
    casts: tuple[CastMeasured, ...]
    air: AirNow | None
    findings: tuple[RunFinding, ...]

    def act(self, act: Act) -> ActNow | None:
        """An act as it stands; None for one that the run has not.

        Parameters
        ----------
        act : which.
        """
        return next((each for each in self.acts if each.act == act), None)

    def cup(self, ref: CupRef) -> CupNow | None:
        """A cup as it stands; None for one that the run has not.

        Parameters
        ----------
        ref : which.
        """
        return next((each for each in self.cups if each.ref == ref), None)

    def cups_of(self, act: Act) -> tuple[CupNow, ...]:
        """The cups that an act mixes, the first one first.

        Parameters
        ----------
        act : of the run.
        """
        return tuple(cup for cup in self.cups if cup.act == act)

    @property
    def may_begin(self) -> tuple[ActNow, ...]:
        """What may be begun now."""
        return () if self.frame.ended_ms is not None else tuple(act for act in self.acts if act.may_begin)

    @property
    def in_hand(self) -> tuple[ActNow, ...]:
        """What is begun and not done."""
        return tuple(act for act in self.acts if act.state is ActState.IN_HAND)

    @property
    def running(self) -> tuple[CupNow, ...]:
        """Cups whose clock runs."""
        return tuple(cup for cup in self.cups if cup.clock is not None and not cup.settled)


class RunFold:
    """The states of runs of one plan, one after the other: what one state has in common with the last is kept, and it
    is the same as if it were told from nothing.

    Parameters
    ----------
    plan : by which they go on (`frame_of(events).plan` tells which that is).
    """

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self._mixes = {mix.id: mix for mix in plan.mixes}
        self._kept: OrderedDict[Hashable, FoldKept] = OrderedDict()

    def state(self, events: Iterable[Event], now_ms: int) -> RunState:
        """The state of a run: the same whatever the order in which its events come, and however often one comes.

        Parameters
        ----------
        events : all of the run, in any order.
        now_ms : the moment.
        """
        events = tuple(events)
        stands = standing(events)
        frame, air = frame_of_standing(stands), tuple(_air(stands))
        kept = self._kept_for(frame, air)
        entries, strangers = written(kept.laid, stands)
        at = progress(kept, entries, now_ms, frame.ended_ms is not None)
        cups, unknown = fillings(self._mixes, stands, kept.fillings.of)
        ended, replanned = frame.ended_ms, frame.replanned_ms
        told = cups_now(Bench(self._mixes, entries, cups, kept, self.plan.scale_g, now_ms, replanned, ended))
        findings = (
            *_frame(frame, stands),
            *strangers,
            *_strange_cups(kept.laid, cups, unknown),
            *find_acts(at, frame.replanned_ms),
            *find_cups(told, entries, cups),
            *find_measured(self.plan, stands),
            *find_air(self.plan, air, at),
            *find_warm(told, at),
        )
        return RunState(
            frame=frame,
            now_ms=now_ms,
            acts=acts_now(at, _struck_acts(events), kept),
            cups=told,
            waits=waits_now(at),
            windows=windows_now(at),
            boxes=tuple({(b.step, b.turn, b.box): b for b, _ in bodies(stands, BoxWritten)}.values()),
            casts=tuple(_measured(stands)),
            air=air[-1] if air else None,
            findings=findings,
        )

    def bench(self, events: Iterable[Event], now_ms: int) -> tuple[Bench, Sequence[Event]]:
        """What the cups of a run are told from, and the entries that stand.

        Parameters
        ----------
        events, now_ms : as `state`.
        """
        stands = standing(events)
        frame = frame_of_standing(stands)
        kept = self._kept_for(frame, tuple(_air(stands)))
        entries, _ = written(kept.laid, stands)
        alone = FoldKept(kept.laid, kept.clocks)
        ended, replanned = frame.ended_ms, frame.replanned_ms
        return Bench(self._mixes, entries, {}, alone, self.plan.scale_g, now_ms, replanned, ended), stands

    def _kept_for(self, frame: RunFrame, air: tuple[AirNow, ...]) -> FoldKept:
        started = frame.started
        key = (air, None if started is None else (started.casts, started.batch, started.mold is not None))
        kept = self._kept.get(key)
        if kept is None:
            kept = FoldKept(laid_out(acts_of_run(self.plan, frame)), clocks_of(self.plan, air))
            self._kept[key] = kept
            while len(self._kept) > MOST_KEPT:
                self._kept.popitem(last=False)
        return kept


def run_state(plan: Plan, events: Iterable[Event], now_ms: int) -> RunState:
    """The state of a run, told from nothing.

    Parameters
    ----------
    plan, events, now_ms : as `RunFold`.
    """
    return RunFold(plan).state(events, now_ms)


def acts_of_run(plan: Plan, frame: RunFrame) -> tuple[PlannedAct, ...]:
    """The acts of a run; of one whose start has not come yet those of its whole plan.

    Parameters
    ----------
    plan : by which it goes on.
    frame : how it was started.
    """
    if frame.started is None:
        return planned_acts(plan, plan.count)
    started = frame.started
    return planned_acts(plan, max(started.casts, 0), max(started.batch, 1), started.mold is not None)


def _frame(frame: RunFrame, events: Sequence[Event]) -> Iterator[RunFinding]:
    starts = [event.id for event in events if isinstance(event.body, Started)]
    if not starts:
        yield RunFinding(Found.NOT_STARTED)
    yield from (RunFinding(Found.STARTED_TWICE, event=event) for event in starts[1:])


def _strange_cups(
    laid: Laid,
    cups: Mapping[tuple[MixId, int], Fillings],
    unknown: Iterable[tuple[EventId, CupRef]],
) -> Iterator[RunFinding]:
    """Cups that no act of the run mixes."""
    yield from (RunFinding(Found.UNKNOWN_CUP, cup=ref, event=event) for event, ref in unknown)
    for mix, turn in cups:
        ref = CupRef(mix, turn)
        if act_of(ref, laid.mixing) not in laid.place:
            yield RunFinding(Found.UNKNOWN_CUP, cup=ref)


def _struck_acts(events: Sequence[Event]) -> frozenset[Act]:
    gone = struck(events)
    lines = (event.body for event in events if event.id in gone)
    return frozenset(Act(body.step, body.turn) for body in lines if isinstance(body, Begun | Done | LeftOut))


def _air(events: Sequence[Event]) -> Iterator[AirNow]:
    """What was read when, in order; of a reading of which nobody said when nothing is told."""
    told = ((air, at_ms) for air, at_ms in bodies(events, ShopAir) if air.timed)
    return (AirNow(at_ms, air.temperature_c, air.humidity_pct) for air, at_ms in told)


def _measured(events: Sequence[Event]) -> Iterator[CastMeasured]:
    """Of each cast what was last measured of it: mass and height may come one after the other."""
    found: dict[int, CastMeasured] = {}
    for body, _ in bodies(events, CastMeasured):
        before = found.get(body.turn, CastMeasured(body.turn))
        mass = before.mass_g if body.mass_g is None else body.mass_g
        height = before.height_mm if body.height_mm is None else body.height_mm
        found[body.turn] = CastMeasured(body.turn, mass, height)
    yield from (found[turn] for turn in sorted(found))
