"""Shop."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.web.at_hand import AtDoor, Told
from moldwright.web.doors.may import may_of
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role, Visitor
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.shop import devices, reading, records
from moldwright.web.pages.shop.words import LOOK_WORDS, ROLE_WORDS, UNIT_WORDS, device_rows, language_names
from moldwright.web.render import page
from moldwright.web.words.marked import words

router = APIRouter()
PAGE = Page(router, DeskPlace(words("Shop"), "/shop", 80))
for part in (reading, devices, records):
    router.include_router(part.router)


@router.get("/shop", dependencies=[needs(Role.VIEW)], include_in_schema=False)
def shop(request: Request, doors: AtDoor, settings: Told) -> Response:
    """This device; for who may change them the others, the passphrase and the records."""
    visitor: Visitor = request.state.visitor
    invites = may_of(request)("POST", "/api/invitations")
    told = {
        "lan": settings.lan,
        "secure": settings.secure,
        "looks": LOOK_WORDS,
        "units": UNIT_WORDS,
        "languages": language_names(),
        "roles": ROLE_WORDS,
        "rows": device_rows(doors.sessions, visitor) if invites else (),
        "is_set": doors.passphrase.is_set,
    }
    return page(request, "shop", told)
