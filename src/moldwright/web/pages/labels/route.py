"""Labels: chosen, laid on a sheet that may be begun, opened as a PDF."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import date
from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.materials import library
from moldwright.records.clock import today
from moldwright.records.editions.read import editions
from moldwright.records.molds.read import molds
from moldwright.records.runs.listing import runs
from moldwright.records.shop import Shop
from moldwright.records.stock.listing import GONE
from moldwright.records.stock.shelf import on_shelf
from moldwright.sheets.label_pages import LabelPrint, label_pdf
from moldwright.sheets.label_sheets import PAPER_MM, SINGLES, USUAL, label_sheets
from moldwright.text.looked_for import says_all
from moldwright.told.label_print import (
    SheetTold,
    heeds_of_labels,
    label_tree,
    label_words,
    next_start,
    pages_of,
    print_told,
    sheet_tree,
    sheet_words,
)
from moldwright.told.lot_done import short_words
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.labels.asked import LabelThing, SheetAsked, Things, labels_of, things_told
from moldwright.web.refusals import said
from moldwright.web.render import page
from moldwright.web.typed_in import Word
from moldwright.web.words.marked import words
from moldwright.words.speaker import say

KINDS = (words("Lot"), words("Mold"), words("Cup"), words("Cast"))
router = APIRouter(dependencies=[needs(Role.VIEW)], tags=["labels"])
PAGE = Page(router, DeskPlace(words("Labels"), "/labels", 68))
MOST_RUNS = 20
Offered = list[tuple[str, list[tuple[str, str]]]]
"""Each sort with its things, as the address names them and as people do."""


@dataclass(frozen=True, slots=True)
class LabelJson:
    """One label: what it is stuck to, its name, the id that its code holds."""

    kind: str
    title: str
    id: str
    code: str


@dataclass(frozen=True, slots=True)
class LabelsJson:
    """Labels as they would be printed; `next_start`: the first label that is left on the last sheet."""

    sheet: str
    pages: int
    labels: list[LabelJson]
    next_start: int | None
    heeds: list[str]


@dataclass(frozen=True, slots=True)
class LabelSheetsJson:
    """The sheets of labels that are known, and usual single ones; lengths in mm."""

    sheets: list[dict[str, Any]]
    singles: list[str]


@router.get("/api/labels")
def labels_told(shop: OpenShop, reader: Reading, told: SheetAsked, thing: Things) -> LabelsJson:
    """What labels would say, and how many sheets they take."""
    how, texts = print_told(told, reader.units.value), labels_of(shop, thing)
    return LabelsJson(
        how.sheet.name,
        pages_of(len(texts), how),
        [LabelJson(**label_tree(text)) for text in texts],
        next_start(len(texts), how),
        heeds_of_labels(texts, how),
    )


@router.get("/api/labels/sheets")
def sheets_told() -> LabelSheetsJson:
    """The sheets of labels that are known."""
    return LabelSheetsJson([sheet_tree(sheet) for sheet in label_sheets().values()], list(SINGLES))


@router.get("/api/labels.pdf", response_class=Response)
def labels_pdf(shop: OpenShop, reader: Reading, told: SheetAsked, thing: Things) -> Response:
    """The labels as a PDF, to be printed at 100 %."""
    made = label_pdf(labels_of(shop, thing), print_told(told, reader.units.value))
    shown = {"Content-Disposition": 'inline; filename="labels.pdf"', "Cache-Control": "no-store"}
    return Response(made, media_type="application/pdf", headers=shown)


@router.get("/labels", include_in_schema=False)
def labels(request: Request, shop: OpenShop, reader: Reading, told: SheetAsked, q: Word = "") -> Response:
    """Labels to choose, and the sheet that they go on."""
    things = things_told(shop, list(dict.fromkeys(request.query_params.getlist("thing")))[:400])
    texts, offered = [each.label for each in things if each.label is not None], _offered(shop)
    how, refused = _how(told, reader.units.value)
    start = min(max(told.start, 1), how.sheet.count)
    asked = [("thing", each.asked) for each in things if each.label is not None]
    values = {
        "things": [(each.asked, _words(each), each.refused) for each in things],
        "sheets": [(name, sheet_words(sheet)) for name, sheet in label_sheets().items()], "singles": SINGLES,
        "sheet": how.sheet, "sheet_words": sheet_words(how.sheet), "start": start, "told": told, "refused": refused,
        "said": said, "usual": USUAL[reader.units], "filled": len(texts), "papers": list(PAPER_MM),
        "next": next_start(len(texts), how), "pages": pages_of(len(texts), how), "heeds": heeds_of_labels(texts, how),
        "q": q, "offered": offered, "found": _looked_for(offered, q), "query": _query(asked, told, start),
    }  # fmt: skip
    return page(request, "labels", values)


def _words(thing: LabelThing) -> tuple[str, str]:
    """A label in words, and its code."""
    return (label_words(thing.label), short_code(thing.label.id)) if thing.label else ("", "")


def _how(told: SheetTold, units: str) -> tuple[LabelPrint, InputRefused | None]:
    """How they are printed; on the usual sheet where what was typed is none, and why it is none."""
    try:
        return print_told(told, units), None
    except InputRefused as refused:
        return print_told(SheetTold(), units), refused


def _query(asked: list[tuple[str, str]], told: SheetTold, start: int) -> list[tuple[str, str]]:
    usual = asdict(SheetTold())
    changed = [(name, value) for name, value in asdict(told).items() if value != usual[name] and name != "start"]
    return [*asked, *((name, str(value).lower() if value is True else value) for name, value in changed),
            ("start", str(start))]  # fmt: skip


def _offered(shop: Shop) -> Offered:
    """What can be labeled."""
    lots = [(f"lot:{s.lot.id}", short_words(s, "metric")) for s in on_shelf(shop, today()) if s.state not in GONE]
    known = [(f"mold:{each.mold.id}", each.mold.name) for each in molds(shop, library(), date.today(), False)]
    casts = [
        (f"piece:{piece.id}", f"{edition.name} {piece.number}")
        for edition in editions(shop)
        for piece in edition.pieces
        if not piece.void
    ]
    cups = [
        (f"cup:{run.id}:{mix.id}", f"{mix.id}, {run.started.name} ({short_code(run.id)})")
        for run in runs(shop, ended=False)[:MOST_RUNS]
        for mix in shop.plan(run.plan).mixes
    ]
    return [(say(name), found) for name, found in zip(KINDS, (lots, known, cups, casts), strict=True) if found]


def _looked_for(offered: Offered, q: str) -> Offered:
    """Those in whose words, or whose code, all that is looked for stands."""
    found = [(kind, [row for row in rows if says_all(f"{row[1]} {_code(row[0])}", q)]) for kind, rows in offered]
    return [(kind, rows) for kind, rows in found if rows]


def _code(thing: str) -> str:
    """The short code of what an address names."""
    return short_code(thing.split(":")[1])
