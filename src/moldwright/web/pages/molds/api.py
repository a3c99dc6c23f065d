"""Molds for scripts: what there is, and every act."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.log.event import About, Body
from moldwright.log.ids import EditionId, FileHash, MoldId, RunId, SubjectId
from moldwright.log.mold_events import MoldRetired
from moldwright.materials import library
from moldwright.records.clock import now_ms
from moldwright.records.files.keep import attach
from moldwright.records.files.kept import size_of
from moldwright.records.find import find
from moldwright.records.molds import write
from moldwright.records.molds.read import mold_known, mold_meant, molds
from moldwright.records.molds.story import mold_story
from moldwright.records.molds.typed import OlderMold, cast_plan, register_told
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop
from moldwright.records.strike import find_event, strike_out
from moldwright.records.told import day_of, line_told
from moldwright.sheets.label_pages import label_pdf
from moldwright.told.label_print import SheetTold, print_told
from moldwright.told.label_things import label_of
from moldwright.told.mold_table import COLUMNS, mold_row
from moldwright.told.mold_trees import mold_tree, story_tree
from moldwright.units import share
from moldwright.web.answers import csv_answer, pdf_answer
from moldwright.web.at_hand import Clock, OpenShop, Reading
from moldwright.web.doors.needs import Needs, needs
from moldwright.web.doors.visitor import Role
from moldwright.web.pages.molds.asked import (
    LookAsked,
    MadeMold,
    MoldNote,
    MoldPhoto,
    MoldPlace,
    MoldRunAsked,
    MoldStrike,
    MoldWhy,
    OlderMoldAsked,
    ShrinkAsked,
)
from moldwright.web.pages.molds.told import MoldsTold, MoldStoryTold, MoldTold

router = APIRouter(prefix="/api", tags=["molds"])
ACT, OWN = [needs(Role.BENCH)], [needs(Role.OWNER)]


def role_to_strike(body: Body) -> Role:
    """Who may strike out an entry: who may write it.

    Parameters
    ----------
    body : the entry's.
    """
    return Role.OWNER if isinstance(body, MoldRetired) else Role.BENCH


WHAT = "what it shows"


@router.get("/molds")
def all_molds(shop: OpenShop, retired: bool = False) -> MoldsTold:
    """The register, the oldest first; `retired`: those too that are out of use."""
    found = molds(shop, library(), day_of(now_ms()), retired)
    return MoldsTold(molds=[MoldTold(**mold_tree(each)) for each in found])


@router.get("/molds.csv")
def molds_csv(shop: OpenShop, retired: bool = False) -> Response:
    """The register as a table for a spreadsheet."""
    found = molds(shop, library(), day_of(now_ms()), retired)
    return csv_answer("molds.csv", COLUMNS, map(mold_row, found))


@router.post("/molds", dependencies=ACT)
def register(asked: OlderMoldAsked, shop: OpenShop, clock: Clock) -> MoldTold:
    """Put a mold into the register that is older than the records."""
    told = OlderMold(asked.name, asked.rubber, asked.cast, asked.stored, "", asked.drawn or 0, asked.lasts)
    return _told(shop, register_told(shop, clock, told))


@router.post("/molds/made", dependencies=ACT)
def register_of_run(asked: MadeMold, shop: OpenShop, clock: Clock) -> MoldTold:
    """Put the mold into the register that a run made."""
    run = RunId(find(shop, About.RUN, asked.run))
    return _told(shop, write.register_made(shop, clock, run, asked.name, asked.stored))


@router.get("/molds/{id_}")
def story(id_: str, shop: OpenShop) -> MoldStoryTold:
    """A mold's whole story."""
    return MoldStoryTold(**story_tree(mold_story(shop, library(), day_of(now_ms()), mold_meant(shop, id_))))


@router.post("/molds/{id_}/looks", dependencies=ACT)
def look(id_: str, asked: LookAsked, shop: OpenShop, clock: Clock) -> MoldTold:
    """Write down how it was found."""
    found = mold_meant(shop, id_)
    if asked.file:
        size_of(shop.files, FileHash(asked.file))
    write.look_over(shop, clock, found, asked.state, asked.text)
    if asked.file:
        attach(shop, clock, About.MOLD, found, FileHash(asked.file), asked.text.strip() or asked.state.value)
    return _told(shop, found)


@router.post("/molds/{id_}/shrinks", dependencies=ACT)
def measure(id_: str, asked: ShrinkAsked, shop: OpenShop, clock: Clock) -> MoldTold:
    """Write down how much smaller a cast of it, or its mouth, is than the original."""
    found = mold_meant(shop, id_)
    write.measure_shrink(shop, clock, found, 100.0 * share(asked.shrink, "shrink"))
    return _told(shop, found)


@router.post("/molds/{id_}/place", dependencies=ACT)
def move(id_: str, asked: MoldPlace, shop: OpenShop, clock: Clock) -> MoldTold:
    """Write down where it stands now."""
    found = mold_meant(shop, id_)
    write.move_mold(shop, clock, found, asked.stored)
    return _told(shop, found)


@router.post("/molds/{id_}/notes", dependencies=ACT)
def note(id_: str, asked: MoldNote, shop: OpenShop, clock: Clock) -> MoldTold:
    """Write a note on it."""
    found = mold_meant(shop, id_)
    write.note_on_mold(shop, clock, found, asked.text)
    return _told(shop, found)


@router.post("/molds/{id_}/photos", dependencies=ACT)
def photo(id_: str, asked: MoldPhoto, shop: OpenShop, clock: Clock) -> MoldTold:
    """Lay a kept photo or file to it."""
    found = mold_meant(shop, id_)
    size_of(shop.files, FileHash(asked.file))
    attach(shop, clock, About.MOLD, found, FileHash(asked.file), line_told(asked.text, WHAT, may_lack=True))
    return _told(shop, found)


@router.post("/molds/{id_}/retire", dependencies=OWN)
def retire(id_: str, asked: MoldWhy, shop: OpenShop, clock: Clock) -> MoldTold:
    """Take it out of use; it stays in the register with its story."""
    found = mold_meant(shop, id_)
    write.retire_mold(shop, clock, found, asked.why)
    return _told(shop, found)


@router.post("/molds/{id_}/strike", dependencies=ACT)
def strike(request: Request, id_: str, asked: MoldStrike, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """Draw a line through an entry of its log. Who may write one strikes it: that it is retired, the owner."""
    Needs(role_to_strike(find_event(shop, About.MOLD, asked.event).body))(request)
    gone = strike_out(shop, clock, About.MOLD, asked.event, asked.why, mold_meant(shop, id_))
    return {"event": gone.id}


@router.post("/molds/{id_}/runs", dependencies=ACT)
def cast_from(id_: str, asked: MoldRunAsked, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """Start a run that casts from it, by the plan of its last run, else by that which made it."""
    known = mold_known(shop, library(), day_of(now_ms()), mold_meant(shop, id_))
    edition = EditionId(SubjectId(asked.edition)) if asked.edition else None
    text = shop.plan_text(cast_plan(known))
    run = start_run(shop, clock, text, asked.casts, known.mold.id, edition, asked.batch or 1)
    return {"run": run.id, "path": f"/bench/{run.id}"}


@router.get("/molds/{id_}/label.pdf")
def label(id_: str, shop: OpenShop, reader: Reading, start: int = 1) -> Response:
    """Its label, on the sheet that is usual; `start`: the first label that is still there."""
    text = label_of(shop, "mold", (mold_meant(shop, id_),))
    return pdf_answer(label_pdf([text], print_told(SheetTold(start=start), reader.units)), "label.pdf")


def _told(shop: Shop, id_: MoldId) -> MoldTold:
    tree: dict[str, Any] = mold_tree(mold_known(shop, library(), day_of(now_ms()), id_))
    return MoldTold(**tree)
