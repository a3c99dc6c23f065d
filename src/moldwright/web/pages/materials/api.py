"""The sheets for programs: what is told is what `moldwright materials` tells."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.responses import Response

from moldwright.materials import check_sheet
from moldwright.materials.finding import SheetFinding, SheetSeverity
from moldwright.materials.originals import ORIGINAL
from moldwright.told.material_words import (
    MATERIAL_HEADS,
    SAFETY,
    kind_meant,
    material_cells,
    original_meant,
    original_tree,
    originals_of_kind,
    sheet_tree,
    sheets_of_kind,
)
from moldwright.web.answers import csv_answer
from moldwright.web.at_hand import OpenShop
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.pages.materials.asked import (
    FoundInSheet,
    MaterialInList,
    MaterialsTold,
    MaterialTold,
    Of,
    SheetChecked,
    SheetSent,
    library_for,
)
from moldwright.web.refusals import said
from moldwright.web.typed_in import Word
from moldwright.words.speaker import say, say_count

router = APIRouter(tags=["materials"])
VIEW = [needs(Role.VIEW)]


@router.get("/api/materials", dependencies=VIEW)
def materials(shop: OpenShop, kind: Word = "", of: Of = "") -> MaterialsTold:
    """The materials by kind."""
    wanted = kind_meant(kind)
    rows = [MaterialInList(k, s.id, s.name, s.own_file) for k, s in sheets_of_kind(library_for(shop, of), wanted)]
    return MaterialsTold([*rows, *(MaterialInList(ORIGINAL, m.name, m.name, None) for m in originals_of_kind(wanted))])


@router.get("/api/materials.csv", dependencies=VIEW, response_class=Response)
def table(shop: OpenShop, kind: Word = "", of: Of = "") -> Response:
    """Every figure of every sheet, with where it comes from, as a table for a spreadsheet (RFC 4180)."""
    rows = sheets_of_kind(library_for(shop, of), kind_meant(kind))
    return csv_answer("materials.csv", MATERIAL_HEADS, material_cells(rows))


@router.get("/api/materials/{material}", dependencies=VIEW)
def material_told(material: str, shop: OpenShop, of: Of = "") -> MaterialTold:
    """One sheet, by its id or its name."""
    known = library_for(shop, of)
    original = original_meant(material, known)
    return MaterialTold(original_tree(original) if original is not None else sheet_tree(*known.find(material)))


@router.post("/api/materials/check", dependencies=[needs(Role.BENCH)])
def check(body: SheetSent) -> SheetChecked:
    """What is wrong or doubtful in a shop's own sheet. Nothing is kept."""
    found = [found_in(each) for each in check_sheet(body.text)]
    if not found:
        return SheetChecked(f"{say('Nothing to read again.')} {say(SAFETY)}", [])
    grave = any(each.grave for each in found)
    told = say("It cannot be used as it is.") if grave else say("It can be used; read these again.")
    many = say_count("{num} place to read again.", "{num} places to read again.", len(found), num=len(found))
    return SheetChecked(f"{told} {many} {say(SAFETY)}", found)


def found_in(finding: SheetFinding) -> FoundInSheet:
    """A finding in the reader's words.

    Parameters
    ----------
    finding : of a sheet's check.
    """
    told = said(finding.bare())
    return FoundInSheet(
        finding.severity is SheetSeverity.STOP, finding.where, told["found"], told["wanted"], told["remedy"]
    )
