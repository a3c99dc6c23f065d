"""Today."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.records.runs.listing import runs
from moldwright.web.at_hand import OpenShop
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import DeskPlace, Page
from moldwright.web.render import page
from moldwright.web.words.marked import words

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router, DeskPlace(words("Today"), "/", 10, on_phone=True))


@router.get("/", include_in_schema=False)
def today(request: Request, shop: OpenShop) -> Response:
    """What is in hand."""
    return page(request, "today", {"runs": runs(shop, ended=False)})
