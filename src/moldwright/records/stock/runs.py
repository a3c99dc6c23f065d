"""The runs under way, and what they need yet."""

from __future__ import annotations

import json
from collections.abc import Mapping

from sqlalchemy import Connection, func, select

from moldwright.bench.frame import frame_of
from moldwright.log.event import About, Event
from moldwright.log.ids import PlanId, RunId, SubjectId
from moldwright.plan.json_text import from_tree
from moldwright.plan.mixes import MixPlan
from moldwright.plan.needs import NeedPlan
from moldwright.records.shop import Shop
from moldwright.records.stock.demand import PlannedNeeds, WorkAhead, needed_by_run
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT

STILL_DAYS = 90
"""A run of which nothing was written for so long lies still: it is told, and holds no material back; our own."""
DAY_MS = 86_400_000
STARTED, ENDED = "started", "ended"
BEARING = (STARTED, ENDED, "replanned", "mold-registered", "weighed", "cast-measured", "undone")
"""Events that bear on what a run needs yet."""
MIXES, NEEDS = tuple[MixPlan, ...], tuple[NeedPlan, ...]


def work_ahead(shop: Shop, now_ms: int) -> tuple[WorkAhead, ...]:
    """Every run that is not ended, and what it needs yet; of one that lies still nothing is reckoned.

    Parameters
    ----------
    shop : the store.
    now_ms : milliseconds since 1970-01-01 UTC.
    """
    with shop.reading() as connection:
        open_ = open_runs(connection)
        events = {run: _events(connection, run) for run, last in open_ if now_ms - last <= STILL_DAYS * DAY_MS}
    plans: dict[PlanId, PlannedNeeds] = {}
    for run in events.values():
        plan = frame_of(run).plan
        if plan is not None and plan not in plans:
            plans[plan] = planned_needs(shop.plan_text(plan))
    return tuple(_ahead(plans, run, events.get(run)) for run, _ in open_)


def planned_needs(text: str) -> PlannedNeeds:
    """What a kept plan needs, read without the rest of it.

    Parameters
    ----------
    text : of a plan.json that was read when it was kept.
    """
    tree = json.loads(text)
    mixes, needs = (from_tree(kind, tree[name], name) for kind, name in ((MIXES, "mixes"), (NEEDS, "needs")))
    return PlannedNeeds(tree["count"], mixes, needs, tree["plan_hash"])


def open_runs(connection: Connection) -> tuple[tuple[RunId, int], ...]:
    """Runs that were started and not ended, and when something was last written of each.

    Parameters
    ----------
    connection : of `Shop.reading`.
    """
    lines = select(EVENT.c.undoes).where(EVENT.c.undoes.is_not(None))
    of_run = EVENT.c.about == About.RUN.value
    over = select(EVENT.c.subject).where(of_run, EVENT.c.kind == ENDED, EVENT.c.id.not_in(lines))
    begun = select(EVENT.c.subject).where(of_run, EVENT.c.kind == STARTED, EVENT.c.subject.not_in(over)).distinct()
    run = begun.subquery("run")
    last = select(func.max(EVENT.c.at_ms)).where(EVENT.c.subject == run.c.subject).scalar_subquery()
    return tuple((RunId(SubjectId(id_)), at_ms) for id_, at_ms in connection.execute(select(run.c.subject, last)))


def _events(connection: Connection, run: RunId) -> tuple[Event, ...]:
    """What bears on what a run needs yet."""
    order = select(EVENT).where(EVENT.c.subject == run, EVENT.c.kind.in_(BEARING))
    return tuple(event_of(row) for row in connection.execute(order))


def _ahead(plans: Mapping[PlanId, PlannedNeeds], run: RunId, events: tuple[Event, ...] | None) -> WorkAhead:
    if events is None:
        return WorkAhead(run, "", (), still=True)
    frame = frame_of(events)
    name = frame.started.name if frame.started else ""
    if frame.plan is None:
        return WorkAhead(run, name, ())
    plan = plans[frame.plan]
    return WorkAhead(run, name, needed_by_run(plan, events), plan_hash=plan.plan_hash)
