"""The records as a whole: taken away as one file, and looked at."""

from __future__ import annotations

from datetime import datetime

from fastapi import APIRouter, Request
from starlette.background import BackgroundTask
from starlette.responses import Response

from moldwright.archive.save import export
from moldwright.records.check.whole import checked
from moldwright.told.check_words import heading, held, named, verdict
from moldwright.web.at_hand import OpenShop, Told
from moldwright.web.doors.files import made_answer
from moldwright.web.doors.needs import needs
from moldwright.web.doors.uploads import new_place, sweep
from moldwright.web.doors.visitor import Role
from moldwright.web.render import page

router = APIRouter(dependencies=[needs(Role.OWNER)])


@router.get("/api/backup", response_class=Response)
def backup(shop: OpenShop, settings: Told) -> Response:
    """All records, plans and files as one archive (docs/archive.md), read again before it is sent."""
    sweep(settings.data)
    place = new_place(settings.data)
    export(shop, place)
    name = f"shop-{datetime.now():%Y-%m-%d-%H%M%S}.zip"
    return made_answer(place, name, BackgroundTask(place.unlink, missing_ok=True))


@router.get("/shop/check", include_in_schema=False)
def check(request: Request, settings: Told) -> Response:
    """What is amiss with the records, as `moldwright shop check` tells it."""
    found = checked(settings.shop, settings.files)
    rows = [(heading(each), each.kind.remedy, named(each)) for each in found.findings]
    return page(request, "pages/shop/check.html", {"held": held(found), "verdict": verdict(found), "rows": rows})
