"""Answers to who wants to come in: a cookie, or when it may be tried again."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from moldwright.web.doors.cookie import cookie_name, cookie_text
from moldwright.web.doors.tries import TooOften
from moldwright.web.errors import told
from moldwright.web.settings import Settings


def came_in(request: Request, settings: Settings, outcome: str | TooOften) -> Response:
    """The answer.

    Parameters
    ----------
    request : the call.
    settings : of the desk.
    outcome : the new session's secret, or that it was tried too often (RFC 6585, 4; RFC 9110, 10.2.3).
    """
    if isinstance(outcome, TooOften):
        return later(request, outcome)
    return with_cookie(request, settings, outcome)


def later(request: Request, too_often: TooOften) -> Response:
    """The answer to who tried too often.

    Parameters
    ----------
    request : the call.
    too_often : how often, and when it may be tried again.
    """
    answer = told(request, too_often.refusal())
    answer.headers["Retry-After"] = str(too_often.wait_s)
    return answer


def with_cookie(request: Request, settings: Settings, secret: str, answer: Response | None = None) -> Response:
    """An answer that lays a session's cookie, or takes it away.

    Parameters
    ----------
    request : the call.
    settings : of the desk.
    secret : of the session, "" for one that has ended.
    answer : None: one without a body.
    """
    made = answer or Response(status_code=204)
    made.headers["Set-Cookie"] = cookie_text(cookie_name(request, settings), secret, settings)
    made.headers["Cache-Control"] = "no-store"
    return made


def address_of_caller(request: Request) -> str:
    """From where a call comes, for counting.

    Parameters
    ----------
    request : the call.
    """
    return request.client.host if request.client else ""
