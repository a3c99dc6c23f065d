"""The shelf: the lots, one lot, a lot that comes in."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.log.any_events import Undone
from moldwright.log.event import Event
from moldwright.log.ids import LotId
from moldwright.records.clock import today
from moldwright.records.files.attached import attached_to
from moldwright.records.shop import Shop
from moldwright.records.stock.arrival import known_to
from moldwright.records.stock.doing import log_of, lot_meant
from moldwright.records.stock.left import LotState
from moldwright.records.stock.listing import LotOrder, lots_asked
from moldwright.records.stock.shelf import OnShelf, on_shelf
from moldwright.records.stock.story import lot_story
from moldwright.told.any_words import moment
from moldwright.told.lot_done import DISPOSAL
from moldwright.told.lot_row import TAKE_FIRST, lot_row
from moldwright.told.lot_story import RECALLED, UNMADE, story_parts
from moldwright.told.lot_words import facts_of, happened, name_of, papers_of
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.doors.may import May, may_of
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.shelf import ahead, api
from moldwright.web.pages.shelf.asked import LotsWanted
from moldwright.web.render import page
from moldwright.web.words.marked import words
from moldwright.words.speaker import say

router = APIRouter()
PAGE = Page(router, DeskPlace(words("Shelf"), "/shelf", 40, on_phone=True))
VIEW = [needs(Role.VIEW)]
MOST_ROWS = 300
"""Rows that a page shows: more are found by a word; the table for a spreadsheet has all."""
ORDERS = {
    LotOrder.MATERIAL: words("by material, which to take first"),
    LotOrder.EXPIRY: words("what expires first"),
    LotOrder.LEFT: words("what is least"),
    LotOrder.PLACE: words("by place"),
    LotOrder.NEWEST: words("what came in last"),
}
for each in (ahead.router, api.router, api.strikes):
    router.include_router(each)


@router.get("/shelf", include_in_schema=False, dependencies=VIEW)
def shelf(request: Request, shop: OpenShop, reader: Reading, asked: LotsWanted) -> Response:
    """The lots."""
    every = on_shelf(shop, today())
    found = lots_asked(every, asked)
    values = {
        "rows": [lot_row(each.shelf, reader.units.value, each.first) for each in found[:MOST_ROWS]],
        "more": max(len(found) - MOST_ROWS, 0),
        "any": bool(every),
        "asked": asked,
        "kinds": sorted({each.lot.stuff.kind for each in every if each.lot.stuff.kind}),
        "states": list(LotState),
        "orders": ORDERS,
        "query": request.url.query,
        "take_first": say(TAKE_FIRST),
    }
    return page(request, "shelf", values)


@router.get("/shelf/add", include_in_schema=False, dependencies=[needs(Role.OWNER)])
def arriving(request: Request, shop: OpenShop) -> Response:
    """A lot that comes in."""
    day = today()
    lots = [each.lot for each in on_shelf(shop, day)]
    values = {
        "name": "shelf",
        "offers": known_to(shop, (), day),
        "suppliers": sorted({lot.received.supplier for lot in lots} - {""}),
        "places_here": sorted({lot.stored for lot in lots} - {""}),
        "today": day,
    }
    return page(request, "pages/shelf/add.html", values)


@router.get("/shelf/{lot}", include_in_schema=False, dependencies=VIEW)
def one(lot: str, request: Request, shop: OpenShop, reader: Reading) -> Response:
    """One lot: what is left, what may be done, what it went into, its log."""
    story, units = lot_story(shop, lot_meant(shop, lot), today()), reader.units.value
    standing = story.shelf
    values = {
        "name": "shelf",
        "row": lot_row(standing, units),
        "title": name_of(standing.lot),
        "facts": facts_of(standing, units),
        "papers": papers_of(standing.lot),
        "parts": story_parts(story, units),
        "pieces": bool(story.pieces),
        "laid": attached_to(shop, standing.lot.id),
        "log": _log(shop, standing, units, may_of(request)),
        "said": {"recalled": say(RECALLED), "unmade": say(UNMADE), "disposal": say(DISPOSAL)},
        "today": today(),
    }
    return page(request, "pages/shelf/lot.html", values)


def _log(shop: Shop, shelf: OnShelf, units: str, may: May) -> list[dict[str, object]]:
    events, gone = log_of(shop, LotId(shelf.lot.id))
    return [
        {
            "id": event.id, "at": moment(event.at_ms), "by": event.by or event.bench, "struck": event.id in gone,
            "words": happened(event.body, shelf.lot.unit, units),
            "strikable": event.id not in gone and _strikable(event, may),
        }
        for event in reversed(events)
    ]  # fmt: skip


def _strikable(event: Event, may: May) -> bool:
    """Whether who reads may strike an entry out; nobody a line that was drawn."""
    return not isinstance(event.body, Undone) and may.has(api.role_to_strike(event.body))
