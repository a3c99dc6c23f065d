"""The register of molds, and one mold's story."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from moldwright.log.any_events import Undone
from moldwright.log.codes import short_code
from moldwright.log.event import Event
from moldwright.log.mold_events import MoldState
from moldwright.materials import library
from moldwright.materials.words import Kind
from moldwright.records.clock import now_ms
from moldwright.records.editions.read import editions
from moldwright.records.molds.read import MoldKnown, mold_meant, molds
from moldwright.records.molds.story import mold_story
from moldwright.records.runs.listing import runs
from moldwright.records.shop import Shop
from moldwright.records.told import day_of
from moldwright.text.looked_for import says_all
from moldwright.told import mold_story as words_of
from moldwright.told.any_words import moment
from moldwright.told.mold_words import LOOK_FIRST, call_words, happened, next_words
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.doors.may import May, may_of
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.molds import api
from moldwright.web.pages.molds.wear import wear_of
from moldwright.web.render import page
from moldwright.web.words.marked import words
from moldwright.words.speaker import say

router = APIRouter(dependencies=[needs(Role.VIEW)])
router.include_router(api.router)
PAGE = Page(router, DeskPlace(words("Molds"), "/molds", 50))
STATES = (words("good"), words("worn"), words("torn"), words("mended"), words("spent"))


@router.get("/molds", include_in_schema=False)
def register(
    request: Request, shop: OpenShop, find: Annotated[str, Query(max_length=200)] = "", retired: bool = False
) -> Response:
    """The register."""
    every = molds(shop, library(), day_of(now_ms()), retired)
    found = [each for each in every if _meant(each, find)]
    return page(request, "molds", {"one": None, "rows": [_row(each) for each in found], "any": bool(every),
                                   "find": find, "retired": retired, **_to_register(shop)})  # fmt: skip


@router.get("/molds/{id_}", include_in_schema=False)
def mold(request: Request, id_: str, shop: OpenShop, reader: Reading) -> Response:
    """A mold's story, and what is done with it."""
    story = mold_story(shop, library(), day_of(now_ms()), mold_meant(shop, id_))
    known, units, may = story.known, reader.units, may_of(request)
    one = {
        **_row(known),
        "facts": [each for each in words_of.fact_lines(known) if each not in (next_words(known), LOOK_FIRST)],
        "next": next_words(known),
        "look_first": say(LOOK_FIRST) if known.look_first and known.mold.retired is None else "",
        "lots": [words_of.lot_words(lot, units) for lot in story.lots],
        "runs": [
            {
                "code": short_code(run.id),
                "id": run.id,
                "told": words_of.run_words(run),
                "casts": [words_of.cast_words(cast, units) for cast in run.casts],
                "problems": [words_of.problem_words(event) for event in run.problems],
            }
            for run in reversed(known.runs)
        ],
        "photos": [(each.file, each.text) for each in known.mold.files],
        "casts_by": bool(known.runs or known.mold.plan),
        "log": [
            {"code": short_code(e.id), "at": moment(e.at_ms), "by": e.by, "told": happened(e.body),
             "gone": e.id in story.gone, "strikable": e.id not in story.gone and _strikable(e, may)}
            for e in reversed(story.events)
        ],
    }  # fmt: skip
    values = {"one": one, "states": list(zip(MoldState, STATES, strict=True)), "editions": editions(shop)}
    return page(request, "molds", values)


def _strikable(event: Event, may: May) -> bool:
    """Whether who reads may strike an entry out; nobody a line that was drawn."""
    return not isinstance(event.body, Undone) and may.has(api.role_to_strike(event.body))


def _row(known: MoldKnown) -> dict[str, object]:
    mold = known.mold
    return {
        "id": mold.id,
        "code": short_code(mold.id),
        "name": mold.name,
        "rubber": mold.rubber,
        "state": words_of.state_words(known),
        "drawn": words_of.drawn_words(known),
        "call": call_words(known),
        "stored": mold.stored,
        "retired": mold.retired is not None,
        "wear": wear_of(known),
        "photo": mold.files[-1].file if mold.files else "",
    }


def _meant(known: MoldKnown, find: str) -> bool:
    """Whether all words stand in its name, its code, its rubber, its place or its state."""
    mold = known.mold
    return says_all(f"{mold.name} {short_code(mold.id)} {mold.rubber} {mold.stored} {mold.state}", find)


def _to_register(shop: Shop) -> dict[str, object]:
    """Runs that make a mold and have none in the register yet, and what the library knows."""
    made = {each.mold.run for each in molds(shop, library(), day_of(now_ms()), retired=True)}
    making = [run for run in runs(shop) if run.started.mold is None and run.id not in made]
    sheets = library().sheets
    return {
        "making": [(short_code(run.id), run.started.name) for run in making],
        "rubbers": [(id_, sheet.name) for id_, sheet in sheets[Kind.RUBBER].items()],
        "casts": [(id_, sheet.name) for id_, sheet in sheets[Kind.RESIN].items()],
    }
