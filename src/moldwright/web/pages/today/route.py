"""Today: what is in hand, what waits, what is in the shop; at the first start, a shop to try the desk in."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import JSONResponse, Response

from moldwright.log.codes import short_code
from moldwright.records.clock import now_ms
from moldwright.records.pieces.listing import pieces
from moldwright.records.runs.listing import runs
from moldwright.records.told import day_of
from moldwright.told.piece_words import piece_line
from moldwright.web.at_hand import LongWork, OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.inside import insides_of
from moldwright.web.long_work.job import WorkState
from moldwright.web.long_work.told import work_told
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.today.settle import to_settle
from moldwright.web.pages.today.trial import fill_trial
from moldwright.web.render import page
from moldwright.web.trying import COOKIE
from moldwright.web.words.marked import words

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router, DeskPlace(words("Today"), "/", 10, on_phone=True))
ACT = [needs(Role.OWNER)]
DAY_MS = 24 * 3600 * 1000


@router.get("/", include_in_schema=False)
def today(request: Request, shop: OpenShop, work: LongWork, reader: Reading) -> Response:
    """What is in hand."""
    day, known = day_of(now_ms()), pieces(shop)
    jobs = [job for job in work.files.every() if not job.state.ended or job.state is WorkState.BROKEN]
    values = {
        "day": day,
        "runs": [(short_code(row.id), row) for row in runs(shop, ended=False)],
        "jobs": [work_told(work, job) for job in jobs if now_ms() - job.asked_ms < DAY_MS],
        "pieces": [(short_code(each.piece.id), each, piece_line(each)) for each in known],
        "settle": to_settle(shop, day, reader.units),
        "may_try": insides_of(request).of(request) is insides_of(request).own and not known,
    }
    return page(request, "today", values)


@router.post("/api/trial", dependencies=ACT)
def begin_trial(request: Request) -> Response:
    """Step into the shop to try the desk in; it is made where there is none."""
    fill_trial(insides_of(request).begin_trial(), day_of(now_ms()))
    answer = JSONResponse({"path": "/"})
    answer.set_cookie(COOKIE, "1", httponly=True, samesite="lax", secure=request.url.scheme == "https")
    return answer


@router.post("/api/trial/end", dependencies=ACT)
def end_trial(request: Request) -> Response:
    """Throw it away, and come back to one's own."""
    insides_of(request).end_trial()
    answer = JSONResponse({"path": "/"})
    answer.delete_cookie(COOKIE)
    return answer
