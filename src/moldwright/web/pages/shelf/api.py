"""The lots for programs, and every act on one: what is told is what `moldwright lot` tells."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.log.any_events import Noted
from moldwright.log.codes import short_code
from moldwright.log.event import About, Body
from moldwright.log.ids import FileHash
from moldwright.log.lot_events import LotCounted, LotDiscarded, LotMoved, LotOpened, LotRecalled, LotUsed
from moldwright.records.clock import today
from moldwright.records.stock.arrival import Arrival, add_papers, arrive
from moldwright.records.stock.doing import count_lot, happen, log_of, lot_meant, open_lot, strike_lot_entry, use_lot
from moldwright.records.stock.keep import Written
from moldwright.records.stock.listing import lots_asked
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.stock.story import lot_story
from moldwright.records.strike import find_event
from moldwright.told.log_tree import entry_tree
from moldwright.told.lot_done import done_words, struck_words
from moldwright.told.lot_story import PIECE_HEADS, piece_cells, story_tree
from moldwright.told.lot_table import LOT_HEADS, lot_cells
from moldwright.told.lot_words import heeds_of, shelf_tree
from moldwright.web.answers import csv_answer
from moldwright.web.at_hand import Clock, OpenShop, Reading
from moldwright.web.doors.needs import Needs, needs
from moldwright.web.doors.visitor import Role
from moldwright.web.pages.shelf.asked import LotsWanted
from moldwright.web.pages.shelf.told import (
    CountTold,
    EntryStruck,
    LotArriving,
    LotCounting,
    LotDone,
    LotMoving,
    LotNote,
    LotOpening,
    LotPapersSent,
    LotReason,
    LotsTold,
    LotStoryTold,
    LotTold,
    LotUsing,
)
from moldwright.web.reader import DeskReader

router = APIRouter(prefix="/api/lots", tags=["lots"])
BENCH, OWNER, VIEW = [needs(Role.BENCH)], [needs(Role.OWNER)], [needs(Role.VIEW)]
BENCH_KINDS = (LotOpened, LotCounted, LotUsed, LotMoved, Noted)
"""Entries that the bench writes, and may strike out."""


def role_to_strike(body: Body) -> Role:
    """Who may strike out an entry: who may write it.

    Parameters
    ----------
    body : of the entry.
    """
    return Role.BENCH if isinstance(body, BENCH_KINDS) else Role.OWNER


def _done(written: Written, reader: DeskReader) -> LotDone:
    units = reader.units.value
    return LotDone(
        done_words(written, units),
        heeds_of(written.shelf, units),
        written.event.id,
        LotTold(**shelf_tree(written.shelf)),
    )


@router.get("", dependencies=VIEW)
def lots(shop: OpenShop, asked: LotsWanted) -> LotsTold:
    """The lots of the shop, searched and in some order."""
    found = lots_asked(on_shelf(shop, today()), asked)
    told = [LotTold(**shelf_tree(each.shelf)) for each in found]
    return LotsTold(told, [each.shelf.lot.id for each in found if each.first])


@router.get(".csv", dependencies=VIEW, response_class=Response)
def lots_table(shop: OpenShop, asked: LotsWanted) -> Response:
    """The same as a table for a spreadsheet (RFC 4180)."""
    found = lots_asked(on_shelf(shop, today()), asked)
    return csv_answer("lots.csv", LOT_HEADS, lot_cells(each.shelf for each in found))


@router.post("", dependencies=OWNER)
def add(shop: OpenShop, clock: Clock, reader: Reading, body: LotArriving) -> LotDone:
    """Put a lot on the shelf."""
    told = body.model_dump(exclude={"certificate", "data_sheet"})
    papers = [FileHash(each) if each else None for each in (body.certificate, body.data_sheet)]
    return _done(arrive(shop, clock, Arrival(**told, certificate=papers[0], sheet=papers[1])), reader)


@router.get("/{lot}", dependencies=VIEW)
def lot_told(lot: str, shop: OpenShop) -> LotStoryTold:
    """A lot, what it went into and its log; by its code, its id or the number on its label."""
    story = lot_story(shop, lot_meant(shop, lot), today())
    events, gone = log_of(shop, story.shelf.lot.id)
    tree = story_tree(story)
    return LotStoryTold(
        LotTold(**shelf_tree(story.shelf)),
        [CountTold(**each) for each in tree["counts"]],
        tree["went_into"],
        tree["molds"],
        tree["pieces"],
        [entry_tree(event, event.id in gone) for event in events],
    )


@router.get("/{lot}/pieces.csv", dependencies=VIEW, response_class=Response)
def pieces_table(lot: str, shop: OpenShop) -> Response:
    """Who has the numbered pieces that a lot is in, or that were drawn from its molds, as a table."""
    story = lot_story(shop, lot_meant(shop, lot), today())
    return csv_answer(f"lot-{short_code(story.shelf.lot.id)}-pieces.csv", PIECE_HEADS, piece_cells(story))


@router.post("/{lot}/open", dependencies=BENCH)
def opened(lot: str, shop: OpenShop, clock: Clock, reader: Reading, body: LotOpening) -> LotDone:
    """Its seal is broken: from here on it keeps as long as an open one."""
    return _done(open_lot(shop, clock, lot, body.on), reader)


@router.post("/{lot}/count", dependencies=BENCH)
def counted(lot: str, shop: OpenShop, clock: Clock, reader: Reading, body: LotCounting) -> LotDone:
    """What there is of it: the figures count on from here, and what the log said is compared."""
    return _done(count_lot(shop, clock, lot, (body.amount, body.empty, body.at)), reader)


@router.post("/{lot}/use", dependencies=BENCH)
def used(lot: str, shop: OpenShop, clock: Clock, reader: Reading, body: LotUsing) -> LotDone:
    """Some of it was used outside of a run."""
    return _done(use_lot(shop, clock, lot, (body.amount, body.why, body.at)), reader)


@router.post("/{lot}/move", dependencies=BENCH)
def moved(lot: str, shop: OpenShop, clock: Clock, reader: Reading, body: LotMoving) -> LotDone:
    """It stands elsewhere now."""
    return _done(happen(shop, clock, lot, LotMoved(body.stored)), reader)


@router.post("/{lot}/note", dependencies=BENCH)
def noted(lot: str, shop: OpenShop, clock: Clock, reader: Reading, body: LotNote) -> LotDone:
    """A note about it."""
    return _done(happen(shop, clock, lot, Noted(body.text)), reader)


@router.post("/{lot}/papers", dependencies=OWNER)
def papers(lot: str, shop: OpenShop, clock: Clock, reader: Reading, body: LotPapersSent) -> LotDone:
    """Papers of it that came later, or in place of others."""
    certificate, sheet = (FileHash(each) if each else None for each in (body.certificate, body.data_sheet))
    return _done(add_papers(shop, clock, lot, certificate, sheet), reader)


@router.post("/{lot}/discard", dependencies=OWNER)
def discarded(lot: str, shop: OpenShop, clock: Clock, reader: Reading, body: LotReason) -> LotDone:
    """The rest of it is gone."""
    return _done(happen(shop, clock, lot, LotDiscarded(body.why)), reader)


@router.post("/{lot}/recall", dependencies=OWNER)
def recalled(lot: str, shop: OpenShop, clock: Clock, reader: Reading, body: LotReason) -> LotDone:
    """It is not to be used; what was made of it is told by the lot's story."""
    return _done(happen(shop, clock, lot, LotRecalled(body.why)), reader)


strikes = APIRouter(prefix="/api/lot-entries", tags=["lots"])


@strikes.post("/{event}/strike", dependencies=BENCH)
def strike(event: str, request: Request, shop: OpenShop, clock: Clock, reader: Reading, body: LotReason) -> EntryStruck:
    """A line through an entry of a lot's log: it stays readable and counts in nothing. Who may write one strikes it."""
    Needs(role_to_strike(find_event(shop, About.LOT, event).body))(request)
    found, unit = strike_lot_entry(shop, clock, event, body.why)
    return EntryStruck(struck_words(found.body, unit, reader.units.value), found.id, found.subject)
