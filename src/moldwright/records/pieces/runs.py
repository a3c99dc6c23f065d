"""The runs of pieces: those that were started by, or went on by, a plan that was made for one."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, select

from moldwright.bench.frame import RunFrame, frame_of
from moldwright.log.event import About, Event
from moldwright.log.ids import EditionId, MoldId, PlanId, RunId, SubjectId
from moldwright.log.run_events import Replanned, Started
from moldwright.records.store.append import AT_ONCE
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT

PLANNED, FRAME = ("started", "replanned"), ("started", "replanned", "mold-registered", "ended", "undone")


@dataclass(frozen=True, slots=True)
class PieceRun:
    """A run of a piece's plan: `mold` that it casts from or made, `ended_ms` None while it is under way."""

    id: RunId
    name: str
    casts: int
    started_ms: int
    plans: tuple[PlanId, ...]
    mold: MoldId | None
    edition: EditionId | None
    ended_ms: int | None


def runs_by_plan(connection: Connection, plans: frozenset[PlanId]) -> Mapping[PlanId, tuple[PieceRun, ...]]:
    """The runs that went by some plans, those that began first in front.

    Parameters
    ----------
    connection : of `Shop.reading`.
    plans : which.
    """
    found: dict[PlanId, list[PieceRun]] = defaultdict(list)
    frames = _frames(connection, _going_by(connection, plans)) if plans else {}
    runs = (run for id_, events in frames.items() if (run := _run(id_, frame_of(events))) is not None)
    for run in sorted(runs, key=lambda each: (each.started_ms, each.id)):
        for plan in plans.intersection(run.plans):
            found[plan].append(run)
    return {plan: tuple(each) for plan, each in found.items()}


def _going_by(connection: Connection, plans: frozenset[PlanId]) -> list[SubjectId]:
    order = select(EVENT).where(EVENT.c.about == About.RUN.value, EVENT.c.kind.in_(PLANNED))
    events = (event_of(row) for row in connection.execute(order))
    named = (e.subject for e in events if isinstance(e.body, Started | Replanned) and e.body.plan in plans)
    return list(dict.fromkeys(named))


def _frames(connection: Connection, runs: list[SubjectId]) -> Mapping[SubjectId, list[Event]]:
    found: dict[SubjectId, list[Event]] = defaultdict(list)
    for start in range(0, len(runs), AT_ONCE):
        of = EVENT.c.subject.in_(runs[start : start + AT_ONCE])
        for row in connection.execute(select(EVENT).where(of, EVENT.c.kind.in_(FRAME))):
            found[SubjectId(row.subject)].append(event_of(row))
    return found


def _run(id_: SubjectId, frame: RunFrame) -> PieceRun | None:
    """None where no start stands."""
    body = frame.started
    if body is None or frame.started_ms is None:
        return None
    told = body.name, body.casts, frame.started_ms, frame.plans
    return PieceRun(RunId(id_), *told, frame.mold, body.edition, frame.ended_ms)
