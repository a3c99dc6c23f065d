"""A piece's mold: the page, and what its element asks for."""

from __future__ import annotations

from typing import Annotated, Any

import numpy as np
from fastapi import APIRouter, Query, Request
from starlette.responses import FileResponse, Response

from moldwright.errors import InputRefused
from moldwright.making.files.plan import APART, CUT
from moldwright.making.screen.kept import made_screen_file, screen_file, screen_of
from moldwright.making.screen.packed_parts import ScreenPart
from moldwright.records.told import day_of
from moldwright.sheets.figures import figure_pairs
from moldwright.told.surfaces.places import Place, between_words, place_rows
from moldwright.told.surfaces.quantity import Solid
from moldwright.told.surfaces.solids import solid_words
from moldwright.web.at_hand import OpenShop, Reading, Told
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.of_piece import of_piece
from moldwright.web.of_plan import FoundPlan, found_plan
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.mold.table import mold_table
from moldwright.web.pages.mold.told import solids_path, told_mold
from moldwright.web.render import page
from moldwright.web.words.marked import words

router = APIRouter(dependencies=[needs(Role.VIEW)])
PAGE = Page(router, part=DeskPlace(words("Mold"), "/mold", 20))
FOREVER = {"Cache-Control": "private, max-age=31536000, immutable"}
PICTURES = {"apart": APART, "cut": CUT}


@router.get("/pieces/{piece}/mold", include_in_schema=False)
def mold(request: Request, piece: str, shop: OpenShop, settings: Told, reader: Reading) -> Response:
    """The mold of a piece's latest plan."""
    of = of_piece(shop, piece)
    if of.piece.plan is None:
        return page(request, "mold", {"of": of, "plan": None})
    found = found_plan(settings, of.piece.plan.plan, reader.units)
    made = screen_file(found.folder)
    values = {
        "of": of,
        "plan": found.plan,
        "id": found.id,
        "figures": figure_pairs(found.plan),
        "pictures": [name for name, file in PICTURES.items() if (found.folder / file).is_file()],
        "day_of": day_of,
        "solids": solids_path(found.id, made.tag) if made is not None else "",
        "table": mold_table(found.plan, screen_of(made) if made is not None else None),
    }
    return page(request, "mold", values)


@router.get("/api/plans/{plan}/mold")
def solids_told(plan: str, settings: Told, reader: Reading) -> dict[str, Any]:
    """The solids of a plan in words, made ready for the screen where they are not yet."""
    found = found_plan(settings, plan, reader.units)
    file = made_screen_file(found.folder)
    return told_mold(found, screen_of(file), file.tag)


@router.get("/api/plans/{plan}/solids/{tag}")
def solids(request: Request, plan: str, tag: str, settings: Told, reader: Reading) -> Response:
    """The solids themselves, in the form that `making/screen/packed_parts.py` tells."""
    file = screen_file(found_plan(settings, plan, reader.units).folder)
    if file is None or file.tag != tag:
        raise InputRefused("not-kept", "solids", "those of this version", "", "Reload the page.")
    headers = FOREVER | {"ETag": f'"{tag}"', "Content-Encoding": "gzip"}
    if request.headers.get("if-none-match") == headers["ETag"]:
        return Response(status_code=304, headers=headers)
    return FileResponse(file.path, media_type="application/octet-stream", headers=headers)


@router.get("/api/plans/{plan}/pictures/{name}")
def picture(plan: str, name: str, settings: Told, reader: Reading) -> Response:
    """A picture of the plan: `apart` or `cut`."""
    found = found_plan(settings, plan, reader.units)
    file = found.folder / PICTURES.get(name, "pictures/none")
    if not file.is_file():
        raise InputRefused("not-kept", "a picture", "one of the plan's", "", "Plan the piece again.")
    return FileResponse(file, media_type="image/png", headers=FOREVER)


@router.get("/api/plans/{plan}/place")
def place(plan: str, part: str, corner: Annotated[int, Query(ge=0)], settings: Told, reader: Reading) -> dict[str, Any]:
    """What is read at a corner of a solid."""
    found = found_plan(settings, plan, reader.units)
    solid, at = _corner(found, part, corner)
    name, over = (
        solid_words(each.id, Solid(each.kind), found.plan, reader.units)[0] for each in _with_piece(found, solid, at)
    )
    here = {each: float(values[corner]) for each, values in solid.quantities.items()}
    return {"rows": place_rows(name, over, at, here, reader.units)}


@router.get("/api/plans/{plan}/between")
def between(
    plan: str,
    part: str,
    corner: Annotated[int, Query(ge=0)],
    other_part: str,
    other_corner: Annotated[int, Query(ge=0)],
    settings: Told,
    reader: Reading,
) -> dict[str, Any]:
    """How far two corners of solids are apart, where all are in their places."""
    found = found_plan(settings, plan, reader.units)
    one, other = _corner(found, part, corner)[1], _corner(found, other_part, other_corner)[1]
    return {"rows": between_words(one, other, reader.units)}


def _corner(found: FoundPlan, id_: str, corner: int) -> tuple[ScreenPart, Place]:
    solid = screen_of(made_screen_file(found.folder)).part(id_)
    if solid is None or corner >= len(solid.vertices):
        raise InputRefused("not-kept", "a place", "one on a solid of the plan", "", "Reload the page.")
    x, y, z = solid.vertices[corner].tolist()
    return solid, (x, y, z)


def _with_piece(found: FoundPlan, solid: ScreenPart, at: Place) -> tuple[ScreenPart, ScreenPart]:
    """A solid, and the piece of the shell that is nearest to a place of it."""
    pieces = [part for part in screen_of(made_screen_file(found.folder)).parts if part.kind == Solid.SHELL]
    return solid, min(pieces, key=lambda part: float(((part.vertices - np.array(at)) ** 2).sum(axis=1).min()))
