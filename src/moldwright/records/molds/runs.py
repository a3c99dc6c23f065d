"""The runs of molds: which made it, which cast from it, and what they drew; read with as few bodies as will do."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from sqlalchemy import ColumnElement, Connection, false, or_, select

from moldwright.log.event import About, Event
from moldwright.log.ids import EditionId, MoldId, PlanId, RunId
from moldwright.log.run_events import MoldRegistered, Problem, Replanned, Started
from moldwright.log.standing import standing
from moldwright.plan.ids import StepId
from moldwright.records.molds.casts import DrawnCast, drawn_casts
from moldwright.records.molds.plan_facts import MoldPlan, PlansRead
from moldwright.records.shop import Shop
from moldwright.records.store.append import AT_ONCE
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT

FRAME = ("started", "replanned", "mold-registered")
TOLD = ("cast-measured", "problem")
FEW = 50
"""Ids that are looked for in one statement."""


@dataclass(frozen=True, slots=True)
class MoldRun:
    """A run that made a mold or casts from it.

    Parameters
    ----------
    id, name, edition : of the run.
    mold : which.
    made : it made it.
    plan : by which it goes on.
    started_ms : when it began [ms].
    casts : what came out of the mold, good or not.
    problems : events of what went wrong.
    unread : its plan is not kept, or of a version that is not read, and its casts cannot be told.
    """

    id: RunId
    name: str
    edition: EditionId | None
    mold: MoldId
    made: bool
    plan: PlanId
    started_ms: int
    casts: tuple[DrawnCast, ...] = ()
    problems: tuple[Event, ...] = ()
    unread: bool = False


def runs_of_molds(shop: Shop, plans: PlansRead, molds: frozenset[MoldId]) -> Mapping[MoldId, tuple[MoldRun, ...]]:
    """The runs of some molds, those that began first in front.

    Parameters
    ----------
    shop : the store.
    plans : of it.
    molds : which.
    """
    with shop.reading() as connection:
        found = _framed(connection, molds)
        steps = {run.id: _out(plans.get(run.plan)) for run in found}
        told = _told(connection, steps)
    by_mold: dict[MoldId, list[MoldRun]] = defaultdict(list)
    for run in sorted(found, key=lambda each: (each.started_ms, each.id)):
        by_mold[run.mold].append(_with(run, told.get(run.id, ()), steps[run.id]))
    return {id_: tuple(runs) for id_, runs in by_mold.items()}


def _out(plan: MoldPlan | None) -> frozenset[StepId] | None:
    return None if plan is None else plan.out


def _with(run: MoldRun, events: Sequence[Event], out: frozenset[StepId] | None) -> MoldRun:
    problems = tuple(event for event in standing(events) if isinstance(event.body, Problem))
    return replace(run, casts=drawn_casts(events, out or frozenset()), problems=problems, unread=out is None)


def molds_for(shop: Shop, editions: Collection[EditionId]) -> frozenset[MoldId]:
    """The molds that some run casts from, or made, for one of these editions.

    Parameters
    ----------
    shop : the store.
    editions : which.
    """
    with shop.reading() as connection:
        return frozenset(run.mold for run in _frames(connection, _naming(connection, editions)))


def _framed(connection: Connection, molds: frozenset[MoldId]) -> list[MoldRun]:
    """How runs began and what they made; of a few molds only those that name one are looked at."""
    few = molds if len(molds) <= FEW else frozenset[MoldId]()
    return [run for run in _frames(connection, _naming(connection, few)) if run.mold in molds]


def _naming(connection: Connection, ids: Collection[str]) -> list[str]:
    """Runs whose start or mold names one of some ids; of none all."""
    order = select(EVENT.c.subject).where(EVENT.c.about == About.RUN.value, EVENT.c.kind.in_(FRAME)).distinct()
    named = [EVENT.c.body.contains(id_, autoescape=True) for id_ in ids]
    return list(connection.execute(order.where(or_(*named)) if named else order).scalars())


def _frames(connection: Connection, runs: list[str]) -> list[MoldRun]:
    by_run: dict[str, list[Event]] = defaultdict(list)
    for event in _events(connection, runs, EVENT.c.kind.in_((*FRAME, "undone"))):
        by_run[event.subject].append(event)
    found = (_frame(standing(events)) for events in by_run.values())
    return [run for run in found if run is not None]


def _frame(events: Sequence[Event]) -> MoldRun | None:
    started = next(((event, event.body) for event in events if isinstance(event.body, Started)), None)
    if started is None:
        return None
    event, body = started
    made = next((each.body.mold for each in reversed(events) if isinstance(each.body, MoldRegistered)), None)
    plan = next((each.body.plan for each in reversed(events) if isinstance(each.body, Replanned)), body.plan)
    mold = body.mold or made
    if mold is None:
        return None
    return MoldRun(RunId(event.subject), body.name, body.edition, mold, body.mold is None, plan, event.at_ms)


def _told(connection: Connection, steps: Mapping[RunId, frozenset[StepId] | None]) -> Mapping[str, list[Event]]:
    """What runs drew and what went wrong; of steps that are done only those after which a cast is out."""
    out = sorted({step for known in steps.values() for step in known or ()})
    drew = [EVENT.c.body.contains(f'"step":"{step}"', autoescape=True) for step in out]
    wanted = or_(EVENT.c.kind.in_((*TOLD, "undone")), (EVENT.c.kind == "done") & or_(false(), *drew))
    found: dict[str, list[Event]] = defaultdict(list)
    for event in _events(connection, list(steps), wanted):
        found[event.subject].append(event)
    return found


def _events(connection: Connection, subjects: Sequence[str], wanted: ColumnElement[bool]) -> Iterable[Event]:
    for start in range(0, len(subjects), AT_ONCE):
        order = select(EVENT).where(EVENT.c.subject.in_(subjects[start : start + AT_ONCE]), wanted)
        yield from map(event_of, connection.execute(order))
