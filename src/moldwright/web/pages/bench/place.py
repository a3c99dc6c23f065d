"""Where a screen is at a run, as its calls tell it: what it turned to, passed over, chose."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from fastapi import Depends, Query, Request

from moldwright.bench.acts import Act
from moldwright.errors import InputRefused
from moldwright.log.ids import LotId, SubjectId
from moldwright.plan.ids import StepId
from moldwright.plan.mixes import StuffKey
from moldwright.records.clock import now_ms
from moldwright.records.runs.boxes import BoxId
from moldwright.records.runs.place import BenchPlace
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.told import day_of
from moldwright.text.shown import short
from moldwright.web.at_hand import OpenShop
from moldwright.web.doors.visitor import Visitor

MOST = 200
Turn = Annotated[int, Query(ge=0, le=1_000_000)]
Passed = Annotated[Sequence[str], Query(max_length=MOST, description="Boxes with nothing in them: step/cast/box.")]
Chosen = Annotated[Sequence[str], Query(max_length=MOST, description="Lots that were chosen.")]


def _place(shop: OpenShop, step: str = "", turn: Turn = 0, passed: Passed = (), lot: Chosen = ()) -> BenchPlace:
    wanted = Act(StepId(step), turn) if step else None
    chosen = _chosen(shop, lot) if lot else {}
    return BenchPlace(wanted, frozenset(map(_box, passed)), chosen)


Place = Annotated[BenchPlace, Depends(_place)]


def _box(written: str) -> BoxId:
    step, _, rest = written.partition("/")
    turn, _, key = rest.partition("/")
    if not (turn.isdecimal() and turn.isascii() and len(turn) < 8 and key):
        raise InputRefused("box-unclear", short(written), "step/cast/box", "", "Reload the page.")
    return StepId(step), int(turn), key


def _chosen(shop: OpenShop, lots: Sequence[str]) -> dict[StuffKey, LotId]:
    today = day_of(now_ms()).isoformat()
    shelves = {each.lot.id: each.lot.stuff.key for each in on_shelf(shop, today)}
    known = (LotId(SubjectId(each)) for each in lots)
    return {shelves[lot]: lot for lot in known if lot in shelves}


def device_of(request: Request) -> str:
    """Under which name the device that calls stands in the log.

    Parameters
    ----------
    request : the call.
    """
    visitor: Visitor = request.state.visitor
    return visitor.device
