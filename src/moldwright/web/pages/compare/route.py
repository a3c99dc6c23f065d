"""Two plans beside each other: what changes from one to the other, and all figures of both."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from moldwright.told.plan_compared import plans_compared
from moldwright.web.at_hand import Reading, Told
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.of_plan import found_plan
from moldwright.web.page import Page
from moldwright.web.render import page

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router)
PlanAsked = Annotated[str, Query(max_length=64)]


@router.get("/compare/{before}/{after}", include_in_schema=False)
def compare(request: Request, before: str, after: str, settings: Told, reader: Reading) -> Response:
    """Both plans."""
    one, other = (found_plan(settings, each, reader.units) for each in (before, after))
    return page(request, "compare", {"one": one, "other": other, "both": plans_compared(one.plan, other.plan)})


@router.get("/api/compare")
def compared(before: PlanAsked, after: PlanAsked, settings: Told, reader: Reading) -> dict[str, Any]:
    """What changes from one plan to another, figure by figure in words."""
    one, other = (found_plan(settings, each, reader.units) for each in (before, after))
    return asdict(plans_compared(one.plan, other.plan))
