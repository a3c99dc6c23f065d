"""The door."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Request
from pydantic import BaseModel, Field
from starlette.responses import Response

from moldwright.web.at_hand import AtDoor, OfDesk
from moldwright.web.doors.came_in import address_of_caller, came_in, with_cookie
from moldwright.web.doors.needs import needs, open_to_all
from moldwright.web.doors.visitor import Role
from moldwright.web.page import Page
from moldwright.web.render import page

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
    return page(request, "door", {"is_set": doors.passphrase.is_set, "secure": settings.secure})


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
