"""How this device reads and what it is called: kept in its own cookies, its name with its session."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Request
from pydantic import BaseModel, Field
from starlette.responses import Response

from moldwright.errors import InputRefused
from moldwright.units.system import UnitSystem
from moldwright.web.at_hand import AtDoor, Told
from moldwright.web.doors.doors import line_of
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.words.said import languages

router = APIRouter(dependencies=[needs(Role.VIEW)])
LASTS_S = 365 * 24 * 3600
Name = Annotated[str, Field(max_length=400)]


class ReadingTold(BaseModel):
    """What is chosen; left out, it stays. An empty look is the device's own."""

    units: UnitSystem | None = None
    look: Literal["", "light", "dark", "contrast"] | None = None
    language: Annotated[str, Field(max_length=20)] | None = None


class DeviceTold(BaseModel):
    """What this device is called, and who works at it."""

    device: Name
    by: Name = ""


@router.put("/api/reading", status_code=204, response_class=Response)
def read_so(told: ReadingTold, settings: Told) -> Response:
    """Show lengths and masses in these units, words in this language, colors in this look, on this device."""
    if told.language is not None and told.language not in languages():
        remedy = "Choose one of those that there are."
        raise InputRefused("language-unknown", told.language, ", ".join(languages()), "", remedy)
    answer = Response(status_code=204)
    for name, value in told.model_dump(exclude_none=True).items():
        lasts_s = LASTS_S if value else 0
        answer.set_cookie(name, str(value), lasts_s, path="/", samesite="lax", secure=settings.secure)
    return answer


@router.put("/api/device", status_code=204, response_class=Response)
def name_device(told: DeviceTold, request: Request, doors: AtDoor) -> None:
    """Call this device so from now on; what it wrote before keeps the name that it was written under."""
    device = line_of(told.device, "device-name")
    doors.sessions.rename(request.state.visitor.session, device, line_of(told.by, "person-name", may_be_empty=True))
