"""The look at what is being taken in: asked for, and what it found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from moldwright.errors import InputRefused, MoldwrightError, refusal_of
from moldwright.web.long_work.job import JobId, LongJob, WorkKind, WorkState
from moldwright.web.long_work.queue import WorkQueue
from moldwright.web.pages.take_in.draft import TakingIn

STANDS = ("height", "unit", "up", "board")
"""What a look at a scan asks of how it stands."""


@dataclass(frozen=True, slots=True)
class LookSoFar:
    """A look: the work of it, None where none was asked for, and whether what it was asked by still holds."""

    job: LongJob | None
    holds: bool

    @property
    def result(self) -> Mapping[str, Any]:
        """What it found, empty until it is done."""
        done = self.job is not None and self.job.state is WorkState.DONE and self.holds
        return (self.job.result or {}) if done and self.job is not None else {}

    @property
    def look(self) -> Mapping[str, Any]:
        """The figures that it found, empty where there are none."""
        found: Mapping[str, Any] = self.result.get("look", {})
        return found

    @property
    def asked(self) -> MoldwrightError | None:
        """What it has to be told first."""
        told = self.result.get("asked")
        return refusal_of(told) if told else None


def ask_look(work: WorkQueue, draft: TakingIn, answers: Mapping[str, Any], by: str) -> LongJob:
    """Look at the scan or at the photos.

    Parameters
    ----------
    work : the queue.
    draft : what is being taken in.
    answers : by dotted key, as a commission holds them.
    by : who asks.

    Raises InputRefused ("key-missing") where there is neither.
    """
    if "original.file" in answers:
        name = str(answers["original.file"])
        order = {"file": str(draft.folder / name), "options": _options(answers)}
        return work.ask(WorkKind.LOOK_SCAN, name, draft.id, order, by=by)
    if "original.photos" in answers:
        order = {"folder": str(draft.photos), "bar": str(answers.get("original.bar", ""))}
        return work.ask(WorkKind.LOOK_PHOTOS, draft.photos.name, draft.id, order, by=by)
    raise InputRefused("key-missing", "no scan and no photos", "one of them", "", "Drop a scan or photos first.")


def look_so_far(work: WorkQueue, draft: TakingIn, answers: Mapping[str, Any]) -> LookSoFar:
    """The last look at what is being taken in.

    Parameters
    ----------
    work : the queue.
    draft : what is being taken in.
    answers : by dotted key, as a commission holds them now.
    """
    written = str(draft.beside.get("job", ""))
    job = work.files.read(work.files.meant(written)) if written and work.files.has(JobId(written)) else None
    if job is None:
        return LookSoFar(None, False)
    if job.kind is WorkKind.LOOK_SCAN:
        return LookSoFar(job, job.order["options"] == _options(answers))
    return LookSoFar(job, job.order["bar"] == str(answers.get("original.bar", "")))


def _options(answers: Mapping[str, Any]) -> dict[str, str]:
    """How it stands, as the command line's options write it."""
    told = {name: answers.get(f"original.{name}", "") for name in STANDS}
    return {name: ", ".join(map(str, value)) if isinstance(value, list) else str(value) for name, value in told.items()}
