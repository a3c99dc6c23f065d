"""The mixes of a piece: cards of all cups, new targets after an over-pour, what a rest still covers."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from pydantic import BaseModel
from starlette.responses import Response

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.plan.json_text import tree_of
from moldwright.plan.plan import Plan
from moldwright.records.clock import now_ms
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.runs.rests import covered
from moldwright.records.shop import Shop
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.of_piece import OfPiece, of_piece
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.mixes import shown
from moldwright.web.piece_runs import in_units, latest_plan, run_of
from moldwright.web.reader import DeskReader
from moldwright.web.render import page
from moldwright.web.words.marked import words
from moldwright.words.speaker import in_house_marks

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router, part=DeskPlace(words("Mixes"), "/mixes", 30))
Text = Annotated[str, Query(max_length=200)]


class MixesTold(BaseModel):
    """The cups of a plan, as plan.json tells them."""

    mixes: list[dict[str, Any]]


class TargetsTold(BaseModel):
    """New targets of a cup."""

    mix: str
    planned_g: float
    correction: dict[str, Any]


class CoverTold(BaseModel):
    """What a rest still covers."""

    rests: list[dict[str, Any]]
    works: list[dict[str, Any]]


@router.get("/pieces/{id_}/mixes", include_in_schema=False)
def mixes(
    request: Request,
    id_: str,
    shop: OpenShop,
    reader: Reading,
    cup: Text = "",
    run: Text = "",
    stuff: Text = "",
    left: Text = "",
) -> Response:
    """The cards of its plan."""
    of = of_piece(shop, id_)
    plan = latest_plan(shop, of, reader.units)
    if plan is None:
        return page(request, "mixes", {"of": of, "cards": None})
    boxes = dict(request.query_params)
    under_way = [(short_code(each.id), each.name) for each in reversed(of.known.runs) if each.ended_ms is None]
    open_ = _run(shop, of, run or (under_way[0][0] if under_way else ""), reader)
    values = {
        "of": of,
        "cards": shown.cards(plan),
        "cup": cup,
        "boxes": boxes,
        "targets": shown.asked_targets(plan, cup, boxes) if cup else None,
        "runs": under_way,
        "run": short_code(open_.id) if open_ else "",
        "stuffs": shown.stuffs_to_come(open_) if open_ else [],
        "stuff": stuff,
        "left": left,
        "rest": shown.asked_rest(open_, stuff, left) if open_ and stuff else None,
        "scale": plan.units.value,
    }
    return page(request, "mixes", values)


@router.get("/api/pieces/{id_}/mixes", tags=["pieces"])
def mixes_told(id_: str, shop: OpenShop, reader: Reading) -> MixesTold:
    """The cups of its latest plan."""
    return MixesTold(mixes=[tree_of(mix) for mix in _plan(shop, of_piece(shop, id_), reader).mixes])


@router.get("/api/pieces/{id_}/cups/{cup}/targets", tags=["pieces"])
def targets(request: Request, id_: str, cup: str, shop: OpenShop, reader: Reading) -> TargetsTold:
    """New targets for a cup of its plan: `in:A=212 g` for what is in of a part, `left:A=300 g` for what is left."""
    plan = _plan(shop, of_piece(shop, id_), reader)
    return TargetsTold(**tree_of(shown.new_targets(plan, cup, dict(request.query_params))))


@router.get("/api/pieces/{id_}/runs/{run}/rests", tags=["pieces"])
def rests(id_: str, run: str, stuff: Text, left: Text, shop: OpenShop, reader: Reading) -> CoverTold:
    """What the rest of a material still covers in a run: `stuff` a material's id or a part, `left` how much."""
    open_ = _run(shop, of_piece(shop, id_), run, reader)
    assert open_ is not None
    return CoverTold(**tree_of(covered(open_, [f"{stuff}={in_house_marks(left)}"])))


def _run(shop: Shop, of: OfPiece, written: str, reader: DeskReader) -> OpenRun | None:
    return in_units(open_run(shop, run_of(of, shop, written), now_ms()), reader.units) if written else None


def _plan(shop: Shop, of: OfPiece, reader: DeskReader) -> Plan:
    plan = latest_plan(shop, of, reader.units)
    if plan is None:
        raise InputRefused("piece-unplanned", of.piece.name, "a piece that is planned", "", "Plan it first.")
    return plan
