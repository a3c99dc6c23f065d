"""A piece taken along: its commission and files as one file."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.background import BackgroundTask
from starlette.responses import Response

from moldwright.records.pieces.folder import pack
from moldwright.web.at_hand import OpenShop, Told
from moldwright.web.doors.files import made_answer
from moldwright.web.doors.uploads import new_place, sweep
from moldwright.web.of_piece import of_piece

router = APIRouter(tags=["pieces"])


@router.get("/api/pieces/{id_}/folder.zip", response_class=Response)
def folder(id_: str, shop: OpenShop, settings: Told) -> Response:
    """Its commission and its files as `moldwright piece export` lays them out, ready for `moldwright plan`."""
    of = of_piece(shop, id_)
    sweep(settings.data)
    place = new_place(settings.data)
    try:
        pack(shop, of.piece, place)
    except BaseException:
        place.unlink(missing_ok=True)
        raise
    return made_answer(place, f"piece-{of.code}.zip", BackgroundTask(place.unlink, missing_ok=True))
