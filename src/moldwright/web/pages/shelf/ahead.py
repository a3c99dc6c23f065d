"""How long each material lasts and what to buy: for programs, and as a page."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.materials import library
from moldwright.plan.plan import Plan
from moldwright.records.clock import now_ms, today
from moldwright.records.pieces.listing import PieceStage, pieces
from moldwright.records.shop import Shop
from moldwright.records.stock.ahead import Forecast, forecast, outlooks_of
from moldwright.records.stock.order import to_buy
from moldwright.told.ahead_words import (
    BUY_HEADS,
    ENOUGH,
    NOTHING,
    SURE,
    buy_cells,
    buy_told,
    buy_tree,
    outlook_told,
    outlook_tree,
    work_lines,
    work_tree,
    worth_telling,
)
from moldwright.told.stock_course import course_told
from moldwright.web.answers import csv_answer
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.pages.shelf.asked import PlansAhead, UntilDay
from moldwright.web.pages.shelf.told import OutlooksTold, ToBuyTold
from moldwright.web.render import page
from moldwright.words.speaker import say

router = APIRouter(dependencies=[needs(Role.VIEW)], tags=["lots"])


def _found(shop: Shop, plans: tuple[Plan, ...]) -> Forecast:
    return forecast(shop, library(), today(), now_ms(), plans)


@router.get("/api/lots/forecast")
def forecast_told(shop: OpenShop, plans: PlansAhead, material: str = "") -> OutlooksTold:
    """How long each material lasts, what runs under way and the plans that are named take, what will expire unused."""
    found = _found(shop, plans)
    rows = outlooks_of(found, material[:200])
    return OutlooksTold([outlook_tree(row) for row in rows], [work_tree(run) for run in found.runs])


@router.get("/api/lots/order")
def order_told(shop: OpenShop, plans: PlansAhead, until: UntilDay) -> ToBuyTold:
    """What to buy for the runs under way, the plans that are named and, to a day, the usual use, less what is there."""
    rows = to_buy(_found(shop, plans).outlooks, today(), until)
    return ToBuyTold(until, [buy_tree(row) for row in rows])


@router.get("/api/lots/order.csv", response_class=Response)
def order_table(shop: OpenShop, plans: PlansAhead, until: UntilDay) -> Response:
    """The same as a table for a spreadsheet (RFC 4180)."""
    rows = to_buy(_found(shop, plans).outlooks, today(), until)
    return csv_answer("to-buy.csv", BUY_HEADS, map(buy_cells, rows))


@router.get("/shelf/ahead", include_in_schema=False)
def ahead(request: Request, shop: OpenShop, reader: Reading, plans: PlansAhead, until: UntilDay) -> Response:
    """How long each material lasts, and what to buy."""
    units, found = reader.units.value, _found(shop, plans)
    shown = [row for row in found.outlooks if worth_telling(row)]
    values = {
        "name": "shelf",
        "until": until,
        "chosen": request.query_params.getlist("plan"),
        "planned": _planned(shop),
        "materials": [(outlook_told(row, units), course_told(row, today(), units)) for row in shown],
        "buy": [buy_told(row, units) for row in to_buy(found.outlooks, today(), until)],
        "work": work_lines(found),
        "said": {"nothing": say(NOTHING), "sure": say(SURE), "enough": say(ENOUGH)},
        "query": request.url.query,
    }
    return page(request, "pages/shelf/ahead.html", values)


def _planned(shop: Shop) -> list[tuple[str, str]]:
    """Plans of pieces that are planned and not begun: their ids, and what the piece is called."""
    ready = (each.piece for each in pieces(shop) if each.stage is PieceStage.PLANNED)
    return [(piece.plan.plan, piece.name) for piece in ready if piece.plan is not None]
