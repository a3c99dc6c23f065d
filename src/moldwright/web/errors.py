"""Refusals as answers: a page for who reads one, an object for a script. The form is that of `--json`."""

from __future__ import annotations

import logging

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, RedirectResponse, Response

from moldwright.errors import (
    ComputationFailed,
    InputRefused,
    MoldwrightError,
    NoSafePlan,
    RecordConflict,
)
from moldwright.records.store.faults import FULL, STORE_CODES
from moldwright.web.doors.body import BodyTooLarge
from moldwright.web.refusals import said
from moldwright.web.render import page

STATUS: dict[type[MoldwrightError], int] = {
    InputRefused: 422,
    NoSafePlan: 422,
    ComputationFailed: 500,
    RecordConflict: 409,
}
"""RFC 9110, 15.5 and 15.6; 429: RFC 6585, 4; 507: RFC 4918, 11.5."""
OWN_STATUS = {"not-signed-in": 401, "role-too-small": 403, "other-site": 403, "host-unknown": 421, "not-kept": 404,
              "page-missing": 404, "method-unknown": 405, "too-large": 413, "file-too-large": 413,
              "too-often": 429, "token-missing": 403, "sign-in-refused": 403, "file-missing": 404,
              "file-broken-off": 400, "disk-full": 507}  # fmt: skip
"""Codes that HTTP has a status of its own for."""
OF_STORE = dict.fromkeys(STORE_CODES, 503) | {FULL.code: 507, "files-unwritable": 507}
"""Faults of the store: the call was right and may be made again (503: RFC 9110, 15.6.4). What a tablet keeps to send
stays there for that, and counts as refused by none of them."""
OF_HTTP = {404: "page-missing", 405: "method-unknown", 413: "too-large"}
log = logging.getLogger(__name__)


def status_of(error: MoldwrightError) -> int:
    """The status of HTTP that a refusal has.

    Parameters
    ----------
    error : what was refused.
    """
    return (OWN_STATUS | OF_STORE).get(error.code, STATUS.get(type(error), 500))


def told(request: Request, error: MoldwrightError) -> Response:
    """A refusal as an answer.

    Parameters
    ----------
    request : to which.
    error : what was refused.
    """
    status = status_of(error)
    shown = said(error)
    if _wants_json(request):
        return JSONResponse({"error": error.as_dict() | {"remedy": shown["remedy"]}, "said": shown}, status)
    if status == 401:
        return RedirectResponse("/door", 303)
    return page(request, "templates/refused.html", {"error": error, "said": shown}, status)


def _wants_json(request: Request) -> bool:
    return request.url.path.startswith("/api/") or request.method not in ("GET", "HEAD")


def refusing(app: FastAPI) -> None:
    """Let every refusal, and every fault, become an answer of that form.

    Parameters
    ----------
    app : to which it is added.
    """
    app.add_exception_handler(MoldwrightError, _refused)
    app.add_exception_handler(RequestValidationError, _invalid)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(Exception, _fault)


def _refused(request: Request, error: Exception) -> Response:
    assert isinstance(error, MoldwrightError)
    return told(request, error)


def _invalid(request: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)
    first = error.errors()[0]
    where = ".".join(str(each) for each in first["loc"])
    return told(
        request, InputRefused("request-unclear", where, str(first["msg"]), "", "Reload the page and try again.")
    )


def _http(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    if isinstance(error, BodyTooLarge):
        return told(request, error.refusal)
    code = OF_HTTP.get(error.status_code, "request-unclear")
    refused = InputRefused(code, request.url.path, str(error.detail), "", "Go to Today and on from there.")
    answer = told(request, refused)
    answer.status_code = error.status_code
    return answer


def _fault(request: Request, error: Exception) -> Response:
    log.error("a fault while %s was answered", request.url.path, exc_info=error)
    remedy = "Nothing half written is left. Try again; if it stays, report it with the lines of the window it runs in."
    return told(request, ComputationFailed("desk-fault", type(error).__name__, None, "", remedy))
