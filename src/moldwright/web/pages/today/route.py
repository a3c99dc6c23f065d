"""Today: what is in hand, what waits, what is in the shop; at the first start, a shop to try the desk in."""

from __future__ import annotations

from datetime import date
from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import JSONResponse, Response

from moldwright.log.codes import short_code
from moldwright.records.clock import now_ms
from moldwright.records.pieces.listing import pieces
from moldwright.records.runs.listing import runs
from moldwright.records.shop import Shop
from moldwright.records.told import day_of
from moldwright.told.bench.under_way import RunNow, runs_now
from moldwright.told.piece_words import casts_words
from moldwright.web.at_hand import LongWork, OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.inside import insides_of
from moldwright.web.long_work.job import WorkKind, WorkState
from moldwright.web.long_work.told import work_told
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.today.settle import of_pieces, of_runs, of_shelf
from moldwright.web.pages.today.trial import fill_trial
from moldwright.web.render import page
from moldwright.web.trying import COOKIE
from moldwright.web.words.clocks import CLOCK_WORDS
from moldwright.web.words.marked import words

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router, DeskPlace(words("Today"), "/", 10, on_phone=True))
ACT = [needs(Role.OWNER)]
DAY_MS = 24 * 3600 * 1000


@router.get("/", include_in_schema=False)
def today(request: Request, shop: OpenShop, work: LongWork, reader: Reading) -> Response:
    """What is in hand."""
    now = now_ms()
    day, known, every = day_of(now), pieces(shop), work.files.every()
    runs = _runs(shop, now)
    jobs = [job for job in every if not job.state.ended or job.state is WorkState.BROKEN]
    values = _told(runs, day) | {
        "jobs": [work_told(work, job) for job in jobs if now - job.asked_ms < DAY_MS],
        "pieces": [(short_code(each.piece.id), each, casts_words(each)) for each in known],
        "settle": (*of_runs(runs), *of_pieces(known, every), *of_shelf(shop, day, reader.units)),
        "filling": any(job.kind is WorkKind.DEMO and not job.state.ended for job in jobs),
        "may_try": insides_of(request).of(request) is insides_of(request).own and not known,
    }
    return page(request, "today", values)


@router.get("/wall", include_in_schema=False)
def wall(request: Request, shop: OpenShop) -> Response:
    """What is under way, to be read from afar."""
    now = now_ms()
    values = _told(_runs(shop, now), day_of(now)) | {"wall": True, "name": "today"}
    return page(request, "pages/today/wall.html", values)


@router.get("/api/under-way", include_in_schema=False)
def under_way(request: Request, shop: OpenShop, wall: bool = False) -> Response:
    """The part of both that is asked for again and again."""
    now = now_ms()
    values = _told(_runs(shop, now), day_of(now)) | {"wall": wall}
    return page(request, "pages/today/shown.html", values)


def _runs(shop: Shop, now: int) -> tuple[RunNow, ...]:
    return runs_now(shop, runs(shop, ended=False), now)


def _told(found: tuple[RunNow, ...], day: date) -> dict[str, Any]:
    return {"day": day, "runs": found, "wall": False, "clock_words": CLOCK_WORDS}


@router.post("/api/trial", dependencies=ACT)
def begin_trial(request: Request) -> Response:
    """Step into the shop to try the desk in; it is made where there is none."""
    trial = insides_of(request).begin_trial()
    fill_trial(trial, day_of(now_ms()))
    answer = JSONResponse({"path": "/"})
    answer.set_cookie(COOKIE, trial.id, httponly=True, samesite="lax", secure=request.url.scheme == "https")
    return answer


@router.post("/api/trial/end", dependencies=ACT)
def end_trial(request: Request) -> Response:
    """Throw it away, and come back to one's own."""
    insides_of(request).end_trial()
    answer = JSONResponse({"path": "/"})
    answer.delete_cookie(COOKIE)
    return answer
