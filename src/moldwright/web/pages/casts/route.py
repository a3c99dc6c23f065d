"""The casts of a piece: what was measured on each against its plan, its number, photos, what went wrong."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from pydantic import BaseModel
from starlette.responses import Response

from moldwright.log.codes import short_code
from moldwright.ranges import Range
from moldwright.records.told import day_of
from moldwright.text.looked_for import says_all
from moldwright.told.casts import CAST_HEADS, CastRow, cast_aims, cast_cells, cast_rows
from moldwright.units import range_parts, show_length, show_mass
from moldwright.units.system import UnitSystem
from moldwright.web.answers import csv_answer
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.of_piece import of_piece
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.casts import lots
from moldwright.web.piece_runs import latest_plan, open_runs
from moldwright.web.render import page
from moldwright.web.words.marked import words

router = APIRouter(dependencies=[needs(Role.VIEW)])
router.include_router(lots.router)
PAGE = Page(router, part=DeskPlace(words("Casts"), "/casts", 40))

Find = Annotated[str, Query(max_length=200)]


class CastMeasures(BaseModel):
    """A cast; times in ms since 1970-01-01 UTC."""

    run: str
    cast: int
    out_ms: int | None
    mass_g: float | None
    height_mm: float | None
    number: str
    problems: list[str]
    photos: list[str]


class CastsTold(BaseModel):
    """The casts of which something is written."""

    casts: list[CastMeasures]


@router.get("/pieces/{id_}/casts", include_in_schema=False)
def casts(request: Request, id_: str, shop: OpenShop, reader: Reading, find: Find = "") -> Response:
    """Its casts; `find`: a word of a number, a run or what went wrong."""
    of = of_piece(shop, id_)
    plan, rows = latest_plan(shop, of, reader.units), cast_rows(shop, open_runs(shop, of))
    found = [row for row in rows if _is_meant(row, find)]
    aims = None if plan is None else cast_aims(plan)
    values = {
        "of": of,
        "any": bool(rows),
        "find": find,
        "rows": [_row(row, reader.units) for row in found],
        "runs": [(run.id, short_code(run.id), run.name) for run in of.known.runs],
        "mass": _range(aims.mass_g, "mass", reader.units) if aims else None,
        "height": _range(aims.height_mm, "length", reader.units) if aims else None,
    }
    return page(request, "casts", values)


@router.get("/api/pieces/{id_}/casts", tags=["pieces"])
def casts_told(id_: str, shop: OpenShop) -> CastsTold:
    """Its casts."""
    rows = cast_rows(shop, open_runs(shop, of_piece(shop, id_)))
    return CastsTold(casts=[_told(row) for row in rows])


@router.get("/api/pieces/{id_}/casts.csv", tags=["pieces"])
def casts_csv(id_: str, shop: OpenShop) -> Response:
    """Its casts as a table for a spreadsheet."""
    rows = cast_rows(shop, open_runs(shop, of_piece(shop, id_)))
    return csv_answer("casts.csv", CAST_HEADS, map(cast_cells, rows))


def _is_meant(row: CastRow, text: str) -> bool:
    return says_all(" ".join((str(row.turn), row.number, short_code(row.run), row.name, *row.problems)), text)


def _told(row: CastRow) -> CastMeasures:
    return CastMeasures(
        run=row.run,
        cast=row.turn,
        out_ms=row.out_ms,
        mass_g=row.mass_g,
        height_mm=row.height_mm,
        number=row.number,
        problems=list(row.problems),
        photos=[file for file, _ in row.photos],
    )


def _row(row: CastRow, units: UnitSystem) -> dict[str, object]:
    return {
        "turn": row.turn,
        "run": short_code(row.run),
        "id": row.run,
        "name": row.name,
        "out": "" if row.out_ms is None else day_of(row.out_ms).isoformat(),
        "mass": "" if row.mass_g is None else show_mass(row.mass_g, units, step_g=1.0),
        "mass_told": row.mass_told,
        "height": "" if row.height_mm is None else show_length(row.height_mm, units, step_mm=0.1),
        "height_told": row.height_told,
        "number": row.number,
        "problems": row.problems,
        "photos": row.photos,
    }


def _range(value: Range, dimension: str, units: UnitSystem) -> tuple[str, str, str]:
    """Likely, its unit, low to high."""
    low, likely, high, name = range_parts(value, dimension, units)
    return likely, name, "" if low == high else f"{low}–{high}"
