"""The server's clock: by it all clocks of pages go, whatever a tablet's own shows."""

from __future__ import annotations

from fastapi import APIRouter
from pydantic import BaseModel

from moldwright.records.clock import now_ms
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import Page

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router)


class ServerNow(BaseModel):
    """The server's clock [ms since 1970-01-01 UTC]."""

    now_ms: int


@router.get("/api/time")
def time() -> ServerNow:
    """What it shows now."""
    return ServerNow(now_ms=now_ms())
