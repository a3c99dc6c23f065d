"""Which lots are in a cast of a run, numbered or not, or in the mold that the run made."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Path, Request
from pydantic import BaseModel
from starlette.responses import Response

from moldwright.log.codes import short_code
from moldwright.records.runs.start import MOST_CASTS
from moldwright.records.stock.story import lots_in
from moldwright.told.lot_story import use_tree
from moldwright.told.lots_in import NONE_IN, lots_told
from moldwright.web.at_hand import OpenShop, Reading
from moldwright.web.of_piece import of_piece
from moldwright.web.piece_runs import run_of
from moldwright.web.render import page
from moldwright.words.speaker import say

router = APIRouter()
Cast = Annotated[int, Path(ge=0, le=MOST_CASTS, description="Which cast of the run; 0 is its mold.")]


class LotsIn(BaseModel):
    """What went into it, as `moldwright lot in --json` tells it."""

    run: str
    cast: int
    lots: list[dict[str, Any]]


@router.get("/pieces/{id_}/casts/{run}/{cast}", include_in_schema=False)
def lots(request: Request, id_: str, run: str, cast: Cast, shop: OpenShop, reader: Reading) -> Response:
    """The lots in a cast, or in the mold of a run."""
    of = of_piece(shop, id_)
    meant = run_of(of, shop, run)
    told = tuple(lots_told(shop, lots_in(shop, meant, cast), reader.units.value))
    values = {"name": "casts", "of": of, "lots": told, "cast": cast, "run": short_code(meant), "none_in": say(NONE_IN)}
    return page(request, "pages/casts/lots.html", values)


@router.get("/api/pieces/{id_}/runs/{run}/casts/{cast}/lots", tags=["pieces"])
def lots_of_cast(id_: str, run: str, cast: Cast, shop: OpenShop) -> LotsIn:
    """The same for programs."""
    meant = run_of(of_piece(shop, id_), shop, run)
    return LotsIn(run=meant, cast=cast, lots=[use_tree(use) for use in lots_in(shop, meant, cast)])
