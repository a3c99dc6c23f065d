"""One piece of long work: what it is, of what, how far it is, how it ended."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from enum import StrEnum
from typing import Any, NewType

from moldwright.errors import ComputationFailed, MoldwrightError

JobId = NewType("JobId", str)
"""A UUID of version 7: jobs sort as they were asked for, and its letters are harmless in a file's name."""


class WorkKind(StrEnum):
    """What is done."""

    LOOK_SCAN = "look at a scan"
    LOOK_PHOTOS = "look at photos"
    PLAN = "plan"
    TRIAL = "try a plan"
    DEMO = "demo"

    @property
    def heavy(self) -> bool:
        """Whether it waits for the one before it; a look may run beside."""
        return self in (WorkKind.PLAN, WorkKind.TRIAL, WorkKind.DEMO)


class WorkState(StrEnum):
    """How far it is."""

    WAITING = "waiting"
    WORKING = "working"
    DONE = "done"
    STOPPED = "stopped"
    REFUSED = "refused"
    BROKEN = "broken"

    @property
    def ended(self) -> bool:
        """Whether nothing more happens by itself."""
        return self not in (WorkState.WAITING, WorkState.WORKING)


@dataclass(frozen=True, slots=True)
class LongJob:
    """Long work.

    Parameters
    ----------
    id : its own.
    kind : what is done.
    title : of what, as a person calls it.
    about : the id of the piece, or of what is being taken in.
    order : plain values for the process that does it, by the names that its kind's function has for them.
    asked_ms, started_ms, ended_ms : when it was asked for, begun and over [ms]; None: not yet.
    refused : the refusal that ended it, as it is kept (`errors.refusal_of`).
    result : what it found.
    by : who asked.
    """

    id: JobId
    kind: WorkKind
    title: str
    about: str
    order: Mapping[str, Any]
    asked_ms: int
    state: WorkState = WorkState.WAITING
    started_ms: int | None = None
    ended_ms: int | None = None
    refused: Mapping[str, Any] | None = None
    result: Mapping[str, Any] | None = None
    by: str = ""

    def ended(self, state: WorkState, at_ms: int, refused: MoldwrightError | None = None) -> LongJob:
        """The same, over.

        Parameters
        ----------
        state : how it ended.
        at_ms : when [ms].
        refused : why.
        """
        return replace(self, state=state, ended_ms=at_ms, refused=refused.as_kept() if refused else None)

    def again(self, asked_ms: int) -> LongJob:
        """The same, asked for once more.

        Parameters
        ----------
        asked_ms : when [ms].
        """
        fresh: dict[str, Any] = dict.fromkeys(("started_ms", "ended_ms", "refused", "result"))
        return replace(self, state=WorkState.WAITING, asked_ms=asked_ms, **fresh)


@dataclass(frozen=True, slots=True)
class HowFar:
    """What a process last said of its work: the stage, and the share of all of it that is done."""

    stage: str = ""
    share: float = 0.0


def job_tree(job: LongJob) -> dict[str, Any]:
    """A job as plain values.

    Parameters
    ----------
    job : it.
    """
    return asdict(job)


def job_of(tree: Mapping[str, Any]) -> LongJob:
    """A job from plain values.

    Parameters
    ----------
    tree : as `job_tree` made it.

    Raises KeyError, TypeError, ValueError where it is none.
    """
    return LongJob(**{**tree, "kind": WorkKind(tree["kind"]), "state": WorkState(tree["state"])})


def ended_from_outside(told: str) -> ComputationFailed:
    """What is told of a process that the system or somebody ended.

    Parameters
    ----------
    told : the signal's name, or what else is known.
    """
    remedy = "Memory may have run out: close other programs or use a smaller scan, then try again. Nothing is lost."
    return ComputationFailed("ended-from-outside", told, None, "", remedy)


def desk_closed() -> ComputationFailed:
    """What is told of work that was under way when the desk was closed."""
    return ComputationFailed("desk-closed", "the desk was closed meanwhile", None, "", "Try again. Nothing is lost.")
