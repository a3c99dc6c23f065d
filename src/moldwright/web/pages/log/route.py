"""A piece's log, and its runs' sheets to type in."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from moldwright.log.codes import short_code
from moldwright.records.clock import now_ms
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.told import day_of
from moldwright.sheets.bench_words import BenchWords
from moldwright.text.looked_for import says_all
from moldwright.told.any_words import moment
from moldwright.told.piece_log import LogLine, piece_log
from moldwright.units.system import UnitSystem
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.of_piece import of_piece
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.log import api
from moldwright.web.pages.log.paper import first_open, sheets_of, told_row
from moldwright.web.piece_runs import in_units, open_runs, run_of
from moldwright.web.render import page
from moldwright.web.words.marked import words

router = APIRouter(dependencies=[needs(Role.VIEW)])
router.include_router(api.router)
PAGE = Page(router, part=DeskPlace(words("Log"), "/log", 70))
AT_ONCE = 100
"""Entries on one page; our own."""


@router.get("/pieces/{id_}/log", include_in_schema=False)
def log(
    request: Request,
    id_: str,
    shop: OpenShop,
    reader: Reading,
    find: Annotated[str, Query(max_length=200)] = "",
    after: Annotated[int, Query(ge=0, le=1_000_000)] = 0,
) -> Response:
    """Its entries, the newest first."""
    of = of_piece(shop, id_)
    runs = open_runs(shop, of)
    found = [line for line in piece_log(of.story, runs, reader.units) if _meant(line, find)]
    shown = found[after : after + AT_ONCE]
    values = {
        "of": of,
        "lines": [(line, moment(line.at_ms), short_code(line.run) if line.run else "") for line in shown],
        "find": find,
        "newer": max(0, after - AT_ONCE) if after else None,
        "older": after + AT_ONCE if len(found) > after + AT_ONCE else None,
        "runs": [_run(run, reader.units) for run in runs],
        "paper": None,
    }
    return page(request, "log", values)


@router.get("/pieces/{id_}/paper/{run}", include_in_schema=False, dependencies=[needs(Role.BENCH)])
def paper(
    request: Request,
    id_: str,
    run: str,
    shop: OpenShop,
    sheet: Annotated[int | None, Query(ge=1, le=100_000)] = None,
) -> Response:
    """One sheet of a run, to type in what stands on it: in the plan's units, as it was printed."""
    of = of_piece(shop, id_)
    found = open_run(shop, run_of(of, shop, run), now_ms())
    sheets = sheets_of(found)
    at = first_open(found, sheets) if sheet is None else min(sheet - 1, len(sheets) - 1)
    values = {
        "of": of,
        "paper": {
            "run": short_code(found.id),
            "id": found.id,
            "name": found.plan.name,
            "titles": [each.title for each in sheets],
            "at": at + 1,
            "rows": [told_row(found, row, now_ms()) for row in sheets[at].rows],
            "day": day_of(now_ms()).isoformat(),
        },
    }
    return page(request, "log", values)


def _meant(line: LogLine, find: str) -> bool:
    run = short_code(line.run) if line.run else ""
    return says_all(f"{line.told} {line.code} {line.by} {line.bench} {run} {moment(line.at_ms)}", find)


def _run(run: OpenRun, units: UnitSystem) -> dict[str, object]:
    words_of, started = BenchWords(in_units(run, units).plan), run.state.frame.started
    return {
        "id": run.id,
        "code": short_code(run.id),
        "name": started.name if started else run.plan.name,
        "over": run.state.frame.ended_ms is not None,
        "casts": max((act.act.turn for act in run.state.acts), default=0),
        "found": [words_of.found(each) for each in run.state.findings],
    }
