"""Long work in words and figures, as pages and scripts show it."""

from __future__ import annotations

from typing import Any

from moldwright.errors import refusal_of
from moldwright.records.clock import now_ms
from moldwright.web.long_work.files import REFUSED
from moldwright.web.long_work.job import LongJob, WorkKind, WorkState
from moldwright.web.long_work.queue import WorkQueue
from moldwright.web.refusals import said
from moldwright.web.words.marked import Words, words
from moldwright.web.words.said import say, say_count

CELLS = 20
"""Counted cells of the bar."""
LEFT_FROM = 1.0 / 3.0
"""From which share of the work on its pace tells how long the rest takes: our own."""
DOING: dict[WorkKind, Words] = {
    WorkKind.LOOK_SCAN: words("Looking at %(title)s"),
    WorkKind.LOOK_PHOTOS: words("Looking at %(title)s"),
    WorkKind.PLAN: words("Planning %(title)s"),
    WorkKind.TRIAL: words("Trying a plan of %(title)s"),
    WorkKind.DEMO: words("Planning %(title)s"),
}
ENDED: dict[WorkState, Words] = {
    WorkState.DONE: words("Done."),
    WorkState.STOPPED: words("Stopped. Nothing half made is left."),
    WorkState.REFUSED: words("This does not work as it is."),
    WorkState.BROKEN: words("It ended before its time."),
}


def work_told(queue: WorkQueue, job: LongJob) -> dict[str, Any]:
    """A job as it is now.

    Parameters
    ----------
    queue : of which it is.
    job : it.
    """
    far = queue.files.how_far(job.id) if job.state is WorkState.WORKING else None
    share = far.share if far else float(job.state is WorkState.DONE)
    return {
        "id": job.id,
        "kind": job.kind.value,
        "about": job.about,
        "state": job.state.value,
        "over": job.state.ended,
        "title": say(DOING[job.kind]) % {"title": job.title},
        "said": _said(queue, job, far.stage if far else ""),
        "stage": far.stage if far else "",
        "done": int(share * CELLS),
        "of": CELLS,
        "seconds": _seconds(job),
        "clock": clock_told(job, share),
        "error": _refused(job) if job.refused else None,
        "result": job.result,
        "may_stop": not job.state.ended,
        "may_retry": job.state in (WorkState.STOPPED, WorkState.REFUSED, WorkState.BROKEN),
    }


def _refused(job: LongJob) -> dict[str, str]:
    """What refused it, with the address of the picture of the place where there is one."""
    refusal = refusal_of(job.refused or {})
    picture = f"/api/work/{job.id}/pictures/{REFUSED}" if refusal.picture else ""
    return said(refusal) | {"picture": picture}


def clock_told(job: LongJob, share: float) -> str:
    """How long it has taken, and about how long it still does once a third of it tells that.

    Parameters
    ----------
    job : it.
    share : of all of it that is done, 0 to 1.
    """
    seconds = _seconds(job)
    clock = clock_of(seconds)
    if job.state is not WorkState.WORKING or share < LEFT_FROM:
        return clock
    left_min = round(seconds * (1.0 - share) / share / 60.0)
    if left_min <= 1:
        return say("{clock}, about a minute left", clock=clock)
    return say("{clock}, about {num} min left", clock=clock, num=left_min)


def clock_of(seconds: int) -> str:
    """How long something has taken: minutes and seconds, hours and minutes from an hour on.

    Parameters
    ----------
    seconds : so long [s].

    >>> clock_of(48), clock_of(7500)
    ('0:48', '2 h 05')
    """
    minutes, rest = divmod(seconds, 60)
    return f"{minutes}:{rest:02d}" if minutes < 60 else f"{minutes // 60} h {minutes % 60:02d}"


def _said(queue: WorkQueue, job: LongJob, stage: str) -> str:
    if job.state is WorkState.WAITING:
        before = queue.before(job)
        return (
            say_count("Waits for one before it", "Waits for %(num)s before it", before) % {"num": before}
            if before
            else say("Begins")
        )
    if job.state is WorkState.WORKING:
        told = say(stage)
        return told[:1].upper() + told[1:] if told else say("Begins")
    return say(ENDED[job.state])


def _seconds(job: LongJob) -> int:
    if job.started_ms is None:
        return 0
    return max(0, (job.ended_ms or now_ms()) - job.started_ms) // 1000
