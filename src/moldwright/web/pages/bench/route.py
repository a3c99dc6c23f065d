"""The bench's pages: the runs under way, and one of them over the whole screen."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from moldwright.log.codes import short_code
from moldwright.records.runs.listing import RunRow, runs
from moldwright.records.runs.opened import find_run
from moldwright.web.at_hand import OpenShop
from moldwright.web.doors.may import may_of
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import Page
from moldwright.web.pages.bench import api, worker
from moldwright.web.pages.bench.place import Place
from moldwright.web.pages.bench.words import BENCH_WORDS
from moldwright.web.render import page

router = APIRouter(dependencies=[needs(Role.VIEW)])
router.include_router(api.router)
router.include_router(worker.router)
PAGE = Page(router)


@router.get("/bench", include_in_schema=False)
def benches(request: Request, shop: OpenShop) -> Response:
    """The runs under way: to which one steps up."""
    return page(request, "bench", {"rows": [_row(row) for row in runs(shop, ended=False)], "told": None})


def _row(row: RunRow) -> dict[str, str | int]:
    return {"code": short_code(row.id), "id": row.id, "name": row.started.name, "done": row.done}


@router.get("/bench/{written}", include_in_schema=False)
def bench(request: Request, written: str, shop: OpenShop, place: Place) -> Response:
    """One run over the whole screen; its code leads to it too."""
    run = find_run(shop, written)
    if run != written:
        return RedirectResponse(f"/bench/{run}", 303)
    values = {
        "told": api.told_to(request, shop, run, place),
        "writes": may_of(request)("POST", f"/api/bench/{run}/events"),
        "bench_words": BENCH_WORDS,
    }
    return page(request, "bench", values)
