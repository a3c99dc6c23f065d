"""A run, open: its plan, its events and its state."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from moldwright.bench.frame import frame_of
from moldwright.bench.run import RunFold, RunState
from moldwright.errors import RecordConflict
from moldwright.log.codes import short_code
from moldwright.log.event import About, Event
from moldwright.log.ids import PlanId, RunId, SubjectId
from moldwright.plan.json_text import plan_from_json
from moldwright.plan.plan import Plan
from moldwright.records.find import find
from moldwright.records.shop import Shop

PLANS_AT_HAND = 8
"""Plans that are kept read: a bench works by few at a time."""


@dataclass(frozen=True, slots=True)
class OpenRun:
    """A run at one moment: by which plan it goes on, all that was written of it, and how it stands."""

    id: RunId
    plan: Plan
    events: tuple[Event, ...]
    state: RunState


def open_run(shop: Shop, run: RunId, now_ms: int) -> OpenRun:
    """A run as it stands.

    Parameters
    ----------
    shop : the store.
    run : which.
    now_ms : the moment.

    Raises RecordConflict ("run-not-started", "plan-not-kept"). A plan that an older version kept is read.
    """
    return opened_by(shop, run, shop.events_of(run), now_ms)


def opened_by(shop: Shop, run: RunId, events: Sequence[Event], now_ms: int) -> OpenRun:
    """A run by events that were read already.

    Parameters
    ----------
    shop : the store, for the plan.
    run : which.
    events : all of it.
    now_ms : the moment.

    Raises as `open_run`.
    """
    return opened_with_fold(shop, run, events, now_ms)[0]


def opened_with_fold(shop: Shop, run: RunId, events: Sequence[Event], now_ms: int) -> tuple[OpenRun, RunFold]:
    """The same, with the fold of its plan, by which it is gone ahead.

    Parameters
    ----------
    shop, run, events, now_ms : as `opened_by`.

    Raises as `open_run`.
    """
    fold = _fold_at(shop, frame_of(events).plan, run)
    return OpenRun(run, fold.plan, tuple(events), fold.state(events, now_ms)), fold


def plan_at(shop: Shop, id_: PlanId | None, run: RunId) -> Plan:
    """The plan by which a run goes on.

    Parameters
    ----------
    shop : the store.
    id_ : the plan's, as the run's frame tells it.
    run : whose.

    Raises RecordConflict ("run-not-started", "plan-not-kept").
    """
    return _fold_at(shop, id_, run).plan


def _fold_at(shop: Shop, id_: PlanId | None, run: RunId) -> RunFold:
    if id_ is None:
        remedy = "Its start has not come from the bench that wrote it: send that bench's events."
        raise RecordConflict("run-not-started", f"run {short_code(run)}", "a run with its start", "", remedy)
    return _fold(shop.plan_text(id_))


@lru_cache(maxsize=PLANS_AT_HAND)
def _fold(text: str) -> RunFold:
    """A plan, read, with what the states of its runs have in common."""
    return RunFold(plan_from_json(text))


def find_run(shop: Shop, written: str) -> RunId:
    """The run that is meant.

    Parameters
    ----------
    shop : the store.
    written : its id, what a printed code holds, or its short code.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    return RunId(SubjectId(find(shop, About.RUN, written)))
