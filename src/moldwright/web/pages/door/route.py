"""The door."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

from fastapi import APIRouter, Request
from pydantic import BaseModel, Field
from starlette.concurrency import run_in_threadpool
from starlette.responses import RedirectResponse, Response

from moldwright.errors import InputRefused
from moldwright.web.at_hand import AtDoor, OfDesk
from moldwright.web.doors.came_in import address_of_caller, came_in, with_cookie
from moldwright.web.doors.doors import Doors
from moldwright.web.doors.form import form_of
from moldwright.web.doors.needs import needs, open_to_all
from moldwright.web.doors.tries import TooOften
from moldwright.web.doors.visitor import Role
from moldwright.web.errors import status_of
from moldwright.web.page import Page
from moldwright.web.refusals import said
from moldwright.web.render import page
from moldwright.web.settings import Settings

router = APIRouter()
PAGE = Page(router)


class SignIn(BaseModel):
    """The owner's passphrase, and what this device is called."""

    passphrase: Annotated[str, Field(max_length=1000)]
    device: Annotated[str, Field(max_length=400)]


class Join(BaseModel):
    """An invitation's code."""

    code: Annotated[str, Field(max_length=100)]


@router.get("/door", dependencies=[open_to_all()], include_in_schema=False)
def door(request: Request, doors: AtDoor, settings: OfDesk) -> Response:
    """Where one signs in."""
    return _door(request, doors, settings)


@router.post("/door", dependencies=[open_to_all()], include_in_schema=False)
async def come_in(request: Request, doors: AtDoor, settings: OfDesk) -> Response:
    """The page's forms where no script runs: a code, or the passphrase. The door itself tells what does not open."""
    told = await form_of(request, settings)
    try:
        outcome = await run_in_threadpool(_opened, told, request, doors)
    except InputRefused as refused:
        return _door(request, doors, settings, refused)
    if isinstance(outcome, TooOften):
        answer = _door(request, doors, settings, outcome.refusal())
        answer.headers["Retry-After"] = str(outcome.wait_s)
        return answer
    return with_cookie(request, settings, outcome, RedirectResponse("/", 303))


def _opened(told: Mapping[str, str], request: Request, doors: Doors) -> str | TooOften:
    if "code" in told:
        return doors.by_invitation(told["code"], address_of_caller(request))
    return doors.by_passphrase(told.get("passphrase", ""), told.get("device", ""), address_of_caller(request))


def _door(request: Request, doors: Doors, settings: Settings, refused: InputRefused | None = None) -> Response:
    values = {
        "is_set": doors.passphrase.is_set,
        "secure": settings.secure,
        "refused": refused,
        "said": said(refused) if refused is not None else None,
    }
    return page(request, "door", values, status_of(refused) if refused is not None else 200)


@router.post("/api/door/in", dependencies=[open_to_all()], status_code=204, response_class=Response)
def sign_in(request: Request, told: SignIn, doors: AtDoor, settings: OfDesk) -> Response:
    """Sign this device in as the owner's."""
    outcome = doors.by_passphrase(told.passphrase, told.device, address_of_caller(request))
    return came_in(request, settings, outcome)


@router.post("/api/door/join", dependencies=[open_to_all()], status_code=204, response_class=Response)
def join(request: Request, told: Join, doors: AtDoor, settings: OfDesk) -> Response:
    """Sign this device in by an invitation; each works once, for ten minutes."""
    return came_in(request, settings, doors.by_invitation(told.code, address_of_caller(request)))


@router.post("/api/door/out", dependencies=[needs(Role.VIEW)], status_code=204, response_class=Response)
def sign_out(request: Request, doors: AtDoor, settings: OfDesk) -> Response:
    """Sign this device out."""
    doors.sessions.end(lambda each: each.name == request.state.visitor.session)
    return with_cookie(request, settings, "")
