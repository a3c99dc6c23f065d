"""What the bench's screen asks: how the run stands, the server's time, and that what was pressed is kept."""

from __future__ import annotations

from functools import partial
from typing import Annotated, Any

from anyio.to_thread import run_sync
from fastapi import APIRouter, Query, Request
from pydantic import BaseModel, Field
from starlette.concurrency import run_in_threadpool
from starlette.responses import JSONResponse, Response

from moldwright.log.ids import PlanId, RunId, SubjectId
from moldwright.plan.ids import StepId
from moldwright.plan.json_text import tree_of
from moldwright.records.clock import now_ms
from moldwright.records.molds.write import register_made
from moldwright.records.runs.mark import run_mark
from moldwright.records.runs.place import BenchPlace
from moldwright.records.runs.received import EntryAnswer, receive
from moldwright.records.runs.sent import Sender
from moldwright.records.runs.start import MOST_CASTS, start_run
from moldwright.records.shop import Shop
from moldwright.text.harmless import harmless
from moldwright.web.at_hand import Clock, OpenShop, far_limit
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role, Visitor
from moldwright.web.pages.bench.lately import AskedFor, ToldLately
from moldwright.web.pages.bench.numbering import give_to_cast
from moldwright.web.pages.bench.place import Place, device_of
from moldwright.web.refusals import said
from moldwright.words.speaker import say

router = APIRouter(prefix="/api/bench")
READS, WRITES = [needs(Role.VIEW)], [needs(Role.BENCH)]
NEVER_KEPT = {"Cache-Control": "no-store"}
BATCH = {"requestBody": {"required": True, "content": {"application/json": {"schema": {"type": "object"}}}}}
Ahead = tuple[int, int, int]
AT_ONCE, FAR = (3, 1, 0), (40, 4, 16)
"""Presses that are told ahead, of how many parts what to do with too much, of how many screens what follows where the
work turns aside: with every answer, and for going on without the server, which takes it longer; our own."""
LATELY = ToldLately()
Id = Annotated[str, Field(max_length=80)]


class RunToBegin(BaseModel):
    """A run that is to begin: of which kept plan, for how many casts (None: as many as the plan's edition)."""

    plan: Id
    casts: int | None = Field(None, ge=0, le=MOST_CASTS)
    batch: int = Field(1, ge=1, le=MOST_CASTS)


class NumberAsked(BaseModel):
    """A number for a cast: at which step, of which cast; `which`: the press: number, number-chosen, number-proof."""

    step: Id
    turn: int = Field(ge=0, le=MOST_CASTS)
    which: Id = "number"
    number: Annotated[str, Field(max_length=80)] = ""


@router.post("", dependencies=WRITES)
def begin(asked: RunToBegin, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """Start a run of a kept plan."""
    run = start_run(shop, clock, shop.plan_text(PlanId(asked.plan)), asked.casts, batch=asked.batch)
    return {"run": run.id}


@router.get("/{run}", dependencies=READS)
async def stands(
    request: Request,
    run: str,
    shop: OpenShop,
    place: Place,
    mark: Annotated[str, Query(max_length=80)] = "",
    far: bool = False,
) -> Response:
    """How a run stands, and how it goes on if every press goes right (`far`: for as long as a Wi-Fi may be gone); with
    the mark of the last answer nothing where nothing was written since."""
    asked = partial(_stands, request, _run(run), shop, place, mark, FAR if far else AT_ONCE)
    return await run_sync(asked, limiter=far_limit(request) if far else None)


def _stands(request: Request, run: RunId, shop: Shop, place: BenchPlace, mark: str, ahead: Ahead) -> Response:
    if mark and run_mark(shop, run) == mark:
        return Response(status_code=204, headers=NEVER_KEPT)
    return JSONResponse(told_to(request, shop, run, place, ahead), headers=NEVER_KEPT)


@router.post("/{run}/events", dependencies=WRITES, openapi_extra=BATCH)
async def events(request: Request, run: str, shop: OpenShop, place: Place, told: bool = False) -> Response:
    """Keep what was pressed: `{"events": [{"id", "kind", "at_ms", "body"}]}`; each is kept, known already, or refused
    with why. With `told` how the run stands then comes along."""
    return await run_in_threadpool(_receive, request, _run(run), await request.body(), shop, place if told else None)


def _receive(request: Request, run: RunId, body: bytes, shop: Shop, place: BenchPlace | None) -> Response:
    visitor: Visitor = request.state.visitor
    received = receive(shop, run, body, Sender(visitor.device, visitor.by), now_ms())
    answers = [_answer(each) for each in received.answers]
    now = None if place is None else told_to(request, shop, run, place)
    return JSONResponse({"events": answers, "told": now}, headers=NEVER_KEPT)


def _answer(answer: EntryAnswer) -> dict[str, Any]:
    tree: dict[str, Any] = tree_of(answer)
    refusal = answer.refusal
    if answer.told_by is not None:
        return tree | {"note": say("already written by {device}", device=harmless(answer.told_by))}
    if refusal is None:
        return tree
    shown = said(refusal)
    return tree | {"said": {"found": shown["found"], "remedy": shown["remedy"]}}


@router.post("/{run}/number", dependencies=WRITES)
def number(run: str, asked: NumberAsked, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """Give a cast its number of the edition."""
    told = give_to_cast(shop, clock, _run(run), (StepId(asked.step), asked.turn), asked.which, asked.number)
    return {"number": told}


@router.post("/{run}/mold", dependencies=WRITES)
def mold(run: str, shop: OpenShop, clock: Clock) -> dict[str, str]:
    """Put the mold that the run made into the register."""
    return {"mold": register_made(shop, clock, _run(run))}


def _run(written: str) -> RunId:
    return RunId(SubjectId(written))


def told_to(request: Request, shop: Shop, run: RunId, place: BenchPlace, ahead: Ahead = AT_ONCE) -> dict[str, Any]:
    """How a run stands, for the device that calls.

    Parameters
    ----------
    request : the call.
    shop : the store.
    run : which.
    place : where its screen is.
    ahead : how many presses, parts that were poured over, and screens where the work may turn, are told ahead.
    """
    return LATELY.tree(shop, AskedFor(run, place, *ahead), device_of(request), now_ms())
