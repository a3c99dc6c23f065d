"""What if: a plan is tried, told against the piece's own, and kept or put back."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.errors import MoldwrightError
from moldwright.log.ids import PlanId
from moldwright.records.shop import Shop
from moldwright.sheets.mold_words import kinds_reason
from moldwright.told.kind_rows import kind_rows
from moldwright.told.pieces_rows import pieces_reason, pieces_rows
from moldwright.told.plan_compared import plans_compared
from moldwright.told.sure_rows import sure_rows
from moldwright.units.system import UnitSystem
from moldwright.web.at_hand import Clock, LongWork, OpenShop, Reading, Told
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.long_work.job import WorkState
from moldwright.web.long_work.told import work_told
from moldwright.web.long_work.trials import keep_trial, last_trial, put_back, try_plan
from moldwright.web.of_piece import of_piece
from moldwright.web.of_plan import found_plan
from moldwright.web.page import Page
from moldwright.web.pages.what_if.asked import TrialAsked, asked_now, tried_commission
from moldwright.web.render import page

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router)
ACT = [needs(Role.BENCH)]


@router.get("/pieces/{piece}/what-if", include_in_schema=False)
def what_if(request: Request, piece: str, shop: OpenShop, settings: Told, work: LongWork, reader: Reading) -> Response:
    """What can be tried, and what was."""
    of = of_piece(shop, piece)
    job = last_trial(work, of.piece.id)
    values: dict[str, Any] = {
        "of": of,
        "job": None,
        "both": None,
        "trial": None,
        "now": None,
        "pieces": (),
        "sure": None,
        "kinds": (),
    }
    if of.piece.plan is not None:
        values["now"] = asked_now(shop, of.piece, reader.units)
        values |= _held_against(shop, of.piece.plan.plan, reader.units)
        values["job"] = work_told(work, job) if job is not None else None
    if of.piece.plan is not None and job is not None and job.state is WorkState.DONE and job.result is not None:
        own = found_plan(settings, of.piece.plan.plan, reader.units)
        tried = found_plan(settings, PlanId(job.result["plan"]), reader.units)
        values |= {"both": plans_compared(own.plan, tried.plan), "own": own, "trial": tried}
    return page(request, "what_if", values)


def _held_against(shop: Shop, id_: PlanId, units: UnitSystem) -> dict[str, Any]:
    """What other numbers of pieces and other kinds of mold would take, why one is recommended, what is sure; nothing of
    a plan that cannot be read."""
    try:
        plan = shop.plan(id_)
    except MoldwrightError:
        return {}
    return {
        "pieces": pieces_rows(plan.shell, units),
        "reason": pieces_reason(plan.shell, units),
        "sure": sure_rows(plan, units),
        "kinds": kind_rows(plan, units),
        "kinds_reason": kinds_reason(plan.strategies) if plan.strategies is not None else "",
    }


@router.post("/api/pieces/{piece}/trial", dependencies=ACT)
def begin(
    piece: str, asked: TrialAsked, shop: OpenShop, settings: Told, work: LongWork, reader: Reading, clock: Clock
) -> dict[str, Any]:
    """Try a plan by other values; the piece's own stays."""
    of = of_piece(shop, piece)
    text = tried_commission(shop, of.piece, asked, reader.units)
    return work_told(work, try_plan(work, shop, settings, of.piece.id, text, clock.by))


@router.post("/api/pieces/{piece}/trial/keep", dependencies=ACT)
def keep(piece: str, shop: OpenShop, settings: Told, work: LongWork, clock: Clock) -> dict[str, str]:
    """What was tried is the piece's plan from now on."""
    return {"plan": keep_trial(work, shop, settings, clock, of_piece(shop, piece).piece.id)}


@router.post("/api/pieces/{piece}/trial/back", dependencies=ACT)
def back(piece: str, shop: OpenShop, settings: Told, work: LongWork) -> dict[str, str]:
    """Nothing is tried any more."""
    id_ = of_piece(shop, piece).piece.id
    put_back(work, shop, settings, id_)
    return {"piece": id_}
