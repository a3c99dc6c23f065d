"""What comes next at a run if every press goes right: told with the very fold of the run, entry by entry."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import count

from moldwright.bench.acts import Act
from moldwright.bench.now import WaitEnds
from moldwright.bench.run import RunFold
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, LotId
from moldwright.log.run_events import Ended, Weighed
from moldwright.records.runs.doing.lots import lot_for, lots_there
from moldwright.records.runs.lots import LotFor
from moldwright.records.runs.next_act import FINISHED, NextAct, Press
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.place import BenchPlace, next_at, ways_at
from moldwright.records.runs.remedies import CupRemedy
from moldwright.records.stock.shelf import OnShelf, weighed_more

MOST = 300
"""Presses that are gone ahead at the most; our own."""
NOT_YET = "ahead-"
"""How the ids of entries begin that nobody has written yet."""


@dataclass(frozen=True, slots=True)
class HeldTill:
    """A wait that must be over first, and when that was done from which it counts [ms]."""

    ends: WaitEnds
    from_ms: int


@dataclass(frozen=True, slots=True)
class Stand:
    """A run at one press.

    Parameters
    ----------
    run : as it stands before the press.
    place : where the screen is.
    next : what is next.
    ways : the remedies between which is to be chosen.
    shelf : the shop's lots by then.
    lot : that the part is taken from.
    lots : every lot of the part that stands there.
    writes : what the press writes; none: it only goes on.
    waits : what only waits hold, or held in what was gone ahead of: till when.
    written : what the last press before it wrote, where that is gone ahead of.
    """

    run: OpenRun
    place: BenchPlace
    next: NextAct
    ways: tuple[CupRemedy, ...]
    shelf: ShelfNow
    lot: LotFor | None
    lots: tuple[LotFor, ...]
    writes: tuple[Body, ...]
    waits: Mapping[Act, HeldTill] = field(default_factory=dict)
    written: tuple[Event, ...] = ()

    @property
    def not_before(self) -> HeldTill | None:
        """The wait that must be over before the act is begun; None where none is told."""
        act = self.next.act
        return None if act is None or act.begun_ms is not None else self.waits.get(act.act)


@dataclass(frozen=True, slots=True)
class ShelfNow:
    """Every lot of the shop, as it stands on a day (ISO 8601)."""

    lots: Sequence[OnShelf]
    today: str

    def after(self, events: Sequence[Event]) -> ShelfNow:
        """The same, once some more was weighed.

        Parameters
        ----------
        events : of a run.
        """
        weighed = [e.body for e in events if isinstance(e.body, Weighed) and e.body.lot is not None]
        lots = self.lots
        for body in weighed:
            lots = [weighed_more(each, body.mass_g, self.today) if each.lot.id == body.lot else each for each in lots]
        return ShelfNow(lots, self.today)


def stand_at(run: OpenRun, place: BenchPlace, shelf: ShelfNow, waits: Mapping[Act, HeldTill] | None = None) -> Stand:
    """A run at its next press.

    Parameters
    ----------
    run : as it stands.
    place : where the screen is.
    shelf : the shop's lots.
    waits : what waits held before.
    """
    next_, before = next_at(run, place), {} if waits is None else waits
    lot = lot_for(run, next_, shelf.lots, place.chosen)
    lots = lots_there(next_, shelf.lots)
    ways = ways_at(run, next_)
    writes = _writes(next_, ways, None if lot is None else lot.shelf.lot.id)
    return Stand(run, place, next_, ways, shelf, lot, lots, writes, {**before, **dict(_waits(run))})


def _writes(next_: NextAct, ways: Sequence[CupRemedy], lot: LotId | None) -> tuple[Body, ...]:
    if ways:
        return ways[0].bodies
    if next_.press is Press.END:
        return (Ended(),)
    return tuple(replace(body, lot=lot) if isinstance(body, Weighed) else body for body in next_.bodies)


_CALLS = count()
"""So that what is told of one going ahead is never taken for another's."""


def ahead(fold: RunFold, run: OpenRun, place: BenchPlace, shelf: ShelfNow, most: int = MOST) -> Iterator[Stand]:
    """The run at its next press, then after each press that goes right, up to its end.

    Parameters
    ----------
    fold : of the run's plan.
    run : as it stands.
    place : where the screen is.
    shelf : the shop's lots.
    most : so many at the most.

    Each press is made one millisecond after the one before. Where all must wait, what waits is gone on with at the
    likely end; boxes are passed over, numbers too.
    """
    return onward(fold, stand_at(run, place, shelf), most)


def onward(fold: RunFold, stand: Stand, most: int = MOST) -> Iterator[Stand]:
    """The same from any press on.

    Parameters
    ----------
    fold : of the run's plan.
    stand : the run at a press.
    most : so many at the most.
    """
    for _ in range(most):
        yield stand
        if stand.next.press is Press.ENDED:
            return
        if stand.next.press is Press.WAIT:
            later = min((each.ends.likely_ms for _, each in _waits(stand.run)), default=None)
            if later is None:
                return
            then = _at(fold, stand.run, stand.run.events, max(_latest(stand.run) + 1, later))
            stand = replace(stand_at(then, stand.place, stand.shelf, stand.waits), written=stand.written)
        else:
            stand = turned(fold, stand, stand.writes)


def turned(fold: RunFold, stand: Stand, bodies: Sequence[Body]) -> Stand:
    """The run at its next press once something was written.

    Parameters
    ----------
    fold : of the run's plan.
    stand : the run before.
    bodies : what is written; what the main press writes, or what turns the work aside.
    """
    now_ms, call = _latest(stand.run) + 1, next(_CALLS)
    ids = (f"{NOT_YET}{call:08x}-{n:02}" for n in range(len(bodies)))
    new = tuple(not_yet(stand.run, id_, now_ms, body) for id_, body in zip(ids, bodies, strict=True))
    after = _at(fold, stand.run, (*stand.run.events, *new), now_ms)
    return replace(stand_at(after, _moved(stand, after, not bodies), stand.shelf.after(new), stand.waits), written=new)


def _latest(run: OpenRun) -> int:
    return max([run.state.now_ms, *(event.at_ms for event in run.events)])


def not_yet(run: OpenRun, id_: str, at_ms: int, body: Body) -> Event:
    """An event that nobody has written.

    Parameters
    ----------
    run : whose.
    id_ : an id that no other one has.
    at_ms : when it would be.
    body : what would happen.
    """
    return Event(EventId(id_), About.RUN, run.id, at_ms, "", "", body)


def _at(fold: RunFold, run: OpenRun, events: tuple[Event, ...], now_ms: int) -> OpenRun:
    return OpenRun(run.id, run.plan, events, fold.state(events, now_ms))


def _moved(stand: Stand, after: OpenRun, passes: bool) -> BenchPlace:
    """Where the screen is after a press: one that writes nothing passes the box over, an act that is done is left."""
    place = stand.place
    box = stand.next.box
    passed = place.passed | {box.id} if passes and box is not None else place.passed
    wanted = None if place.wanted is None or _finished(after, place.wanted) else place.wanted
    return replace(place, wanted=wanted, passed=passed)


def _finished(run: OpenRun, act: Act) -> bool:
    now = run.state.act(act)
    return now is None or now.state in FINISHED


def _waits(run: OpenRun) -> Iterator[tuple[Act, HeldTill]]:
    """What nothing but waits holds, with that which holds it longest."""
    for act in run.state.acts:
        if act.holds and act.holds[0].ends is not None and all(each.ends is not None for each in act.holds):
            last = max(act.holds, key=lambda each: each.ends.likely_ms if each.ends is not None else 0)
            of = run.state.act(last.act)
            if last.ends is not None and of is not None and of.done_ms is not None:
                yield act.act, HeldTill(last.ends, of.done_ms)
