"""Long work: seen, stopped, tried again."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import FileResponse, Response

from moldwright.errors import InputRefused
from moldwright.text.shown import short
from moldwright.web.at_hand import LongWork
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.long_work.job import JobId, LongJob, WorkState
from moldwright.web.long_work.told import work_told
from moldwright.web.page import Page
from moldwright.web.render import page

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router)


@router.get("/work", include_in_schema=False)
def work_page(request: Request, work: LongWork) -> Response:
    """What is under way, what waits and what is over, the last first."""
    return page(request, "long_work", {"jobs": [work_told(work, job) for job in reversed(work.files.every())]})


@router.get("/work/{id_}/shown", include_in_schema=False)
def shown(request: Request, id_: str, work: LongWork) -> Response:
    """One job as pages show it."""
    return page(request, "pages/long_work/shown.html", {"job": work_told(work, work.get(JobId(id_)))})


@router.get("/api/work")
def listed(work: LongWork) -> dict[str, Any]:
    """All long work that is kept, as it was asked for."""
    return {"work": [work_told(work, job) for job in work.files.every()]}


@router.get("/api/work/{id_}")
def one(id_: str, work: LongWork) -> dict[str, Any]:
    """One job as it is now."""
    return work_told(work, work.get(JobId(id_)))


@router.post("/api/work/{id_}/stop", dependencies=[needs(Role.BENCH)])
def stop(id_: str, work: LongWork) -> dict[str, Any]:
    """Stop it; nothing half made is left."""
    return work_told(work, work.stop(JobId(id_)))


@router.post("/api/work/{id_}/retry", dependencies=[needs(Role.BENCH)])
def retry(id_: str, work: LongWork) -> dict[str, Any]:
    """Do once more what was stopped, refused or broken."""
    return work_told(work, work.retry(JobId(id_)))


@router.get("/api/work/{id_}/pictures/{name}")
def picture(id_: str, name: str, work: LongWork) -> Response:
    """A picture that a look made, by a name that its result tells, or that shows why it was refused."""
    job = work.get(JobId(id_))
    refused = work.files.refused(job.id)
    if job.state is WorkState.REFUSED and name == refused.name and refused.is_file():
        return FileResponse(refused, media_type="image/png")
    if name not in _pictures(job):
        raise InputRefused("not-kept", short(name), "a picture of this look", "", "Look again.")
    return FileResponse(work.files.made(job.id) / name, media_type="image/png")


def _pictures(job: LongJob) -> set[str]:
    if job.state is not WorkState.DONE or job.result is None:
        return set()
    found = [job.result.get("picture"), *(way["picture"] for way in job.result.get("ways", ()))]
    return {name for name in found if name}
