"""Devices: invited, signed out; the passphrase."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Request
from pydantic import BaseModel, Field
from starlette.responses import Response

from moldwright.web.at_hand import AtDoor, Told
from moldwright.web.doors.came_in import address_of_caller, later
from moldwright.web.doors.doors import line_of
from moldwright.web.doors.invited import Invited, invited
from moldwright.web.doors.needs import needs
from moldwright.web.doors.passphrase import same_twice
from moldwright.web.doors.visitor import Role, Visitor

router = APIRouter(dependencies=[needs(Role.OWNER)])
Phrase = Annotated[str, Field(max_length=1000)]


class Inviting(BaseModel):
    """What an invited device may do, and what it is called."""

    role: Literal["view", "bench", "owner"]
    device: Annotated[str, Field(max_length=400)]


class NewPassphrase(BaseModel):
    """A new passphrase, twice; the one that it replaces, unless it is set on the machine itself."""

    new: Phrase
    again: Phrase
    now: Phrase = ""


@router.post("/api/invitations", status_code=201)
def invite(told: Inviting, request: Request, doors: AtDoor, settings: Told) -> Invited:
    """Invite a device: a code that works once, for ten minutes, and the address that brings it along."""
    return invited(request, settings, doors, Role[told.role.upper()], line_of(told.device, "device-name"))


@router.delete("/api/sessions/{name}", status_code=204, response_class=Response)
def end_session(name: str, doors: AtDoor) -> None:
    """Sign a device out."""
    doors.sessions.end(lambda each: each.name == name)


@router.delete("/api/sessions", status_code=204, response_class=Response)
def end_others(request: Request, doors: AtDoor) -> None:
    """Sign every device out but the one that asks."""
    doors.sessions.end(lambda each: each.name != request.state.visitor.session)


@router.put("/api/passphrase", status_code=204, response_class=Response)
def set_passphrase(told: NewPassphrase, request: Request, doors: AtDoor) -> Response:
    """Set the owner's passphrase. Who came in by the one before is signed out."""
    visitor: Visitor = request.state.visitor
    same_twice(told.new, told.again)
    too_often = None if visitor.here else doors.prove(told.now, address_of_caller(request))
    if too_often is not None:
        return later(request, too_often)
    doors.passphrase.set(told.new, but=visitor.session)
    return Response(status_code=204)
