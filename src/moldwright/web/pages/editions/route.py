"""The editions, and one of them with its numbers."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from moldwright.log.codes import short_code
from moldwright.log.edition_events import PieceState, Series
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.editions.open_casts import open_casts
from moldwright.records.editions.read import edition_meant, editions
from moldwright.records.files.attached import attached_to
from moldwright.records.shop import Shop
from moldwright.records.stock.story import lots_in
from moldwright.told.any_words import moment
from moldwright.told.edition_words import left_words, number_words, place_words, states_words
from moldwright.told.lots_in import LotIn, lots_told
from moldwright.units.system import UnitSystem
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.editions import api
from moldwright.web.pages.editions.places import chosen_place, place_rows
from moldwright.web.render import page
from moldwright.web.words.marked import words

router = APIRouter(dependencies=[needs(Role.VIEW)])
router.include_router(api.router)
PAGE = Page(router, DeskPlace(words("Editions"), "/editions", 60))
Find = Annotated[str, Query(max_length=200)]


@router.get("/editions", include_in_schema=False)
def all_editions(request: Request, shop: OpenShop, find: Find = "") -> Response:
    """The editions with what is left of each."""
    every = editions(shop)
    found = [
        each for each in every if find.casefold() in f"{each.name} {each.material} {short_code(each.id)}".casefold()
    ]
    values = {"one": None, "rows": [_row(each) for each in found], "any": bool(every), "find": find}
    return page(request, "editions", values)


@router.get("/editions/{id_}", include_in_schema=False)
def edition(
    request: Request,
    id_: str,
    shop: OpenShop,
    reader: Reading,
    number: Annotated[int, Query(ge=0, le=100_000)] = 0,
    series: Annotated[str, Query(max_length=20)] = "",
    find: Find = "",
) -> Response:
    """One edition: every number as a place, and what is done at the chosen one."""
    found = edition_meant(shop, id_)
    of = Series.PROOF if series == Series.PROOF.name.lower() else Series.NUMBERED
    chosen = chosen_place(found, (of, number) if number else None)
    piece = chosen.piece if chosen else None
    values = {
        "one": _row(found),
        "size": found.size,
        "proofs": found.proofs,
        "fixed": bool(found.pieces),
        "series_rows": place_rows(found, (of, number) if number else None),
        "chosen": chosen,
        "whole": number_words(piece) if piece else "",
        "code": short_code(piece.id) if piece else "",
        "given": moment(piece.given_ms) if piece else "",
        "certificates": [moment(at) for at in piece.certificates_ms] if piece else [],
        "cast": f"{short_code(piece.run)}/{piece.turn}" if piece and piece.run else "",
        "lots": _lots(shop, piece, reader.units),
        "laid": attached_to(shop, found.id),
        "broken": PieceState.BROKEN.value,
        "casts": [(f"{short_code(cast.run)}/{cast.turn}", cast.name, cast.turn) for cast in open_casts(shop, found.id)],
        "pieces": _pieces(found, find) if find else [],
        "find": find,
    }
    return page(request, "editions", values)


def _row(edition: Edition) -> dict[str, str]:
    return {
        "id": edition.id,
        "code": short_code(edition.id),
        "name": edition.name,
        "material": edition.material,
        "left": left_words(edition),
        "states": states_words(edition),
    }


def _lots(shop: Shop, piece: NumberedPiece | None, units: UnitSystem) -> tuple[LotIn, ...] | None:
    """The lots that are in a piece; None where its cast is not known."""
    if piece is None or piece.run is None:
        return None
    return tuple(lots_told(shop, lots_in(shop, piece.run, piece.turn), units.value))


def _pieces(edition: Edition, find: str) -> list[dict[str, object]]:
    """Those whose number, code, state or buyer is looked for."""
    rows = [
        {"number": number_words(each), "at": each.number, "series": each.series.name.lower(),
         "code": short_code(each.id), "place": place_words(each)}
        for each in edition.pieces
    ]  # fmt: skip
    return [row for row in rows if find.casefold() in f"{row['number']} {row['code']} {row['place']}".casefold()]
