"""Materials: the library looked through, one sheet with its sources, a shop's own sheet checked."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.materials import Sheet
from moldwright.materials.hazards import cautions_for
from moldwright.materials.originals import ORIGINAL, OriginalMaterial
from moldwright.text.looked_for import says_all
from moldwright.told.material_words import (
    KINDS,
    SAFETY,
    kind_meant,
    original_meant,
    original_rows,
    originals_of_kind,
    sheet_rows,
    sheets_of_kind,
)
from moldwright.web.at_hand import OpenShop
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import Page
from moldwright.web.pages.materials import api
from moldwright.web.pages.materials.asked import Of, library_for, pieces_with_sheets
from moldwright.web.render import page
from moldwright.web.typed_in import Word
from moldwright.words.speaker import say

router = APIRouter()
PAGE = Page(router)
VIEW = [needs(Role.VIEW)]
ABOVE = ("name", "hazards", "cautions")
"""What a page tells above the figures."""
router.include_router(api.router)


@router.get("/materials", include_in_schema=False, dependencies=VIEW)
def listed(request: Request, shop: OpenShop, q: Word = "", kind: Word = "", of: Of = "") -> Response:
    """The library, by kind."""
    wanted = kind_meant(kind)
    rows = [(each, s.id, s.name, s.own_file) for each, s in sheets_of_kind(library_for(shop, of), wanted) if _is(s, q)]
    rows += [(ORIGINAL, m.name, m.name, None) for m in originals_of_kind(wanted) if _is_original(m, q)]
    values = {
        "groups": [(each, found) for each in KINDS if (found := [row[1:] for row in rows if row[0] == each])],
        "many": len(rows), "kinds": KINDS, "kind": wanted, "q": q, "of": of, "own": pieces_with_sheets(shop),
        "query": request.url.query, "safety": say(SAFETY),
    }  # fmt: skip
    return page(request, "materials", values)


@router.get("/materials/check", include_in_schema=False, dependencies=[needs(Role.BENCH)])
def checking(request: Request) -> Response:
    """A sheet of the shop's own, to be checked."""
    return page(request, "pages/materials/check.html", {"name": "materials", "safety": say(SAFETY)})


@router.get("/materials/{material}", include_in_schema=False, dependencies=VIEW)
def one(material: str, request: Request, shop: OpenShop, of: Of = "") -> Response:
    """One sheet: every figure with where it comes from, and its hazards."""
    known = library_for(shop, of)
    original = original_meant(material, known)
    values = {"name": "materials", "of": of, "safety": say(SAFETY)}
    if original is not None:
        told = {"title": original.name, "kind": ORIGINAL, "id": original.name, "own_file": None, "cautions": ()}
        return page(request, "pages/materials/one.html", {**values, **told, "rows": original_rows(original)})
    kind, sheet = known.find(material)
    told = {"title": sheet.name, "kind": kind, "id": sheet.id, "own_file": sheet.own_file}
    beside = {"cautions": cautions_for(sheet), "rows": sheet_rows(sheet, ABOVE)}
    return page(request, "pages/materials/one.html", {**values, **told, **beside})


def _is(sheet: Sheet, text: str) -> bool:
    told = (sheet.id, sheet.name, say(sheet.name), sheet.own_file or "", *map(str, sheet.tags))
    return says_all("\n".join(told), text)


def _is_original(material: OriginalMaterial, text: str) -> bool:
    return says_all("\n".join((material.name, say(material.name), *material.also)), text)
