"""A piece: the page, its plan's files, and what is done with it."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from pydantic import BaseModel, Field
from starlette.responses import FileResponse, Response

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.ids import EditionId, MoldId, PlanId, SubjectId
from moldwright.making.plan_folders import plan_home
from moldwright.materials.library import library
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.editions.open import MOST, NewEdition
from moldwright.records.editions.read import editions
from moldwright.records.molds.read import molds
from moldwright.records.pieces.write import change, put_away, take_back
from moldwright.records.runs.start import MOST_CASTS, start_run
from moldwright.records.shop import Shop
from moldwright.records.told import day_of
from moldwright.told.piece_words import CHANGED_SINCE, casts_words
from moldwright.web.at_hand import Clock, LongWork, OpenShop, Reading, Told
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.long_work.files import read_tree
from moldwright.web.long_work.pieces import last_plan_work, plan_piece
from moldwright.web.long_work.settle import rough_home
from moldwright.web.long_work.told import work_told
from moldwright.web.of_piece import OfPiece, of_piece
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.piece import export
from moldwright.web.pages.piece.mend import mend_of, mended_commission
from moldwright.web.pages.piece.papers import SOLIDS, paper_file
from moldwright.web.pages.piece.planned import shown_plan
from moldwright.web.render import page
from moldwright.web.typed_in import Line, Quantity, SoMany
from moldwright.web.words.marked import words
from moldwright.words.speaker import say

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router, part=DeskPlace(words("Piece"), "", 10))
ACT = [needs(Role.BENCH)]
router.include_router(export.router)


class PieceRunAsked(BaseModel):
    """A run that is to begin: for how many casts (none said: as many as the plan's edition; 0: the mold alone), how
    many a day, from which mold on the shelf, for which edition."""

    casts: int | None = Field(None, ge=0, le=MOST_CASTS)
    batch: int = Field(1, ge=1, le=MOST_CASTS)
    mold: str = Field("", max_length=80)
    edition: str = Field("", max_length=80)


class NewEditionRunAsked(PieceRunAsked):
    """A run that is to begin with an edition of its own: what that is called, and how many numbers it has."""

    name: Line
    size: SoMany = Field(None, ge=0, le=MOST)


class MendAsked(BaseModel):
    """What is to stand at the key that a refused plan's remedy names; "": what the remedy tells."""

    value: Quantity = Field("", max_length=80)


class WhySaid(BaseModel):
    """A reason, in words."""

    why: str = Field("", max_length=400)


@router.get("/pieces/{id_}", include_in_schema=False)
def piece(request: Request, id_: str, shop: OpenShop, settings: Told, work: LongWork, reader: Reading) -> Response:
    """What is known of a piece, and what can be done with it."""
    of = of_piece(shop, id_)
    plan = of.piece.plan
    job = last_plan_work(work, of.piece.id)
    values = {
        "of": of,
        "casts": casts_words(of.known),
        "changed": say(CHANGED_SINCE) if of.piece.changed_since else "",
        "job": work_told(work, job) if job is not None else None,
        "mend": mend_of(job),
        "shown": shown_plan(shop, settings, plan.plan, reader.units) if plan is not None else None,
        "rough": read_tree(rough_home(settings.data, of.piece.id) / "told.json").get(reader.units.value),
        "runs": [(short_code(run.id), run) for run in of.known.runs],
        "molds": molds(shop, library(), day_of(now_ms())),
        "editions": editions(shop),
        "short_code": short_code,
    }
    return page(request, "piece", values)


@router.get("/pieces/{id_}/{which}/{name}", include_in_schema=False)
def paper(id_: str, which: str, name: str, shop: OpenShop, settings: Told) -> Response:
    """A sheet, a solid or a picture of its latest plan."""
    of = of_piece(shop, id_)
    rough = rough_home(settings.data, of.piece.id)
    folder = plan_home(settings.data, _plan(of)) if of.piece.plan is not None or not rough.is_dir() else rough
    file, kind = paper_file(folder, which, name)
    shown = "attachment" if which == SOLIDS else "inline"
    return FileResponse(file, media_type=kind, filename=name, content_disposition_type=shown)


@router.post("/api/pieces/{id_}/plan", dependencies=ACT)
def plan_anew(id_: str, shop: OpenShop, work: LongWork, clock: Clock) -> dict[str, Any]:
    """Plan it by what is asked for now."""
    return work_told(work, plan_piece(work, shop, of_piece(shop, id_).piece.id, clock.by))


@router.post("/api/pieces/{id_}/mend", dependencies=ACT)
def mend(id_: str, asked: MendAsked, shop: OpenShop, work: LongWork, clock: Clock) -> dict[str, Any]:
    """Ask for another value where the last plan was refused for it, and plan anew."""
    known = of_piece(shop, id_).piece
    text = mended_commission(known, last_plan_work(work, known.id), asked.value)
    change(shop, clock, known.id, text, {each.name: each.file for each in known.files})
    return work_told(work, plan_piece(work, shop, known.id, clock.by))


@router.post("/api/pieces/{id_}/runs", dependencies=ACT)
def to_the_bench(id_: str, asked: PieceRunAsked, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """Start a run of its latest plan."""
    return _begun(id_, asked, shop, clock, EditionId(SubjectId(asked.edition)) if asked.edition else None)


@router.post("/api/pieces/{id_}/edition-runs", dependencies=[needs(Role.OWNER)])
def to_the_bench_with_an_edition(id_: str, asked: NewEditionRunAsked, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """Open an edition and start a run that gives its numbers: both or neither."""
    return _begun(id_, asked, shop, clock, NewEdition(asked.name, asked.size or 0))


def _begun(
    id_: str, asked: PieceRunAsked, shop: Shop, clock: BenchClock, edition: EditionId | NewEdition | None
) -> dict[str, str]:
    text = shop.plan_text(_plan(of_piece(shop, id_)))
    mold = MoldId(SubjectId(asked.mold)) if asked.mold else None
    opened = start_run(shop, clock, text, asked.casts, mold, edition, asked.batch)
    return {"run": opened.id, "path": f"/bench/{opened.id}"}


@router.post("/api/pieces/{id_}/away", dependencies=ACT)
def away(id_: str, said: WhySaid, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """It is out of the shop, or nothing more is done for it."""
    found = of_piece(shop, id_).piece.id
    put_away(shop, clock, found, said.why)
    return {"piece": found}


@router.post("/api/pieces/{id_}/back", dependencies=ACT)
def back(id_: str, said: WhySaid, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """It is in the shop again."""
    found = of_piece(shop, id_).piece.id
    take_back(shop, clock, found, said.why)
    return {"piece": found}


def _plan(of: OfPiece) -> PlanId:
    if of.piece.plan is None:
        raise InputRefused("piece-unplanned", of.piece.name, "a piece that is planned", "", "Plan it first.")
    return of.piece.plan.plan
