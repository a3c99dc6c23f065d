"""Take in: the page, and what its element asks for."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request
from pydantic import BaseModel
from starlette.responses import Response

from moldwright.errors import InputRefused, MoldwrightError
from moldwright.log.codes import short_code
from moldwright.records.files.kinds import LARGEST_OF_ALL, LARGEST_SCAN
from moldwright.records.pieces.listing import piece_meant
from moldwright.records.pieces.write import piece_known
from moldwright.text.shown import short
from moldwright.units.system import UnitSystem
from moldwright.web.at_hand import Clock, LongWork, OpenShop, Reading, Told
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.long_work.pieces import plan_piece
from moldwright.web.long_work.told import work_told
from moldwright.web.page import DeskPlace, Page
from moldwright.web.pages.take_in.along import what_goes_along, with_what_goes_along
from moldwright.web.pages.take_in.answers import own_only, typed
from moldwright.web.pages.take_in.arriving import arrived, check_photo, check_scan, harmless_name
from moldwright.web.pages.take_in.check import check
from moldwright.web.pages.take_in.draft import PHOTOS, Drafts, TakingIn
from moldwright.web.pages.take_in.fields import asked_fields
from moldwright.web.pages.take_in.looked import ask_look, look_so_far
from moldwright.web.pages.take_in.marks import marks_turned
from moldwright.web.pages.take_in.take import CHANGES, changing, taken_in, usual_answers
from moldwright.web.pages.take_in.tape import rows_so_far, tape_told
from moldwright.web.pages.take_in.told import check_told, look_told, photos_here, wrong_told
from moldwright.web.reader import DeskReader
from moldwright.web.render import page
from moldwright.web.words.marked import words

router = APIRouter(dependencies=[needs(Role.BENCH)])
PAGE = Page(router, DeskPlace(words("Take in"), "/take-in", 20, on_phone=True))
EMPTY: Mapping[str, Any] = {}
UNITS = "units"
log = logging.getLogger(__name__)


class AnswersSent(BaseModel):
    """What was answered, by dotted key as it was typed, and what is no key of a commission beside it."""

    answers: dict[str, Any] = {}
    beside: dict[str, Any] = {}


@router.get("/take-in", include_in_schema=False)
def new(request: Request, shop: OpenShop, reader: Reading) -> Response:
    """Nothing is answered yet but what the shop said of itself the last time."""
    return _page(request, reader, None, usual_answers(shop), {"way": "scan"})


@router.get("/take-in/{id_}", include_in_schema=False)
def going_on(request: Request, id_: str, settings: Told, work: LongWork, reader: Reading) -> Response:
    """What was begun; a number that was typed in other units is shown with its own."""
    drafts = Drafts(settings.data)
    draft = drafts.get(id_)
    if (told_in := _units(draft, reader)) is not reader.units:
        beside = {**draft.beside, UNITS: reader.units.value}
        draft = drafts.keep(draft.id, marks_turned(typed(draft.answers, told_in)), beside)
    return _page(request, reader, draft, draft.answers, draft.beside, _look(draft, work, reader))


@router.get("/take-in/{id_}/looked", include_in_schema=False)
def looked(request: Request, id_: str, settings: Told, work: LongWork, reader: Reading) -> Response:
    """What the last look found, as the page shows it."""
    draft = Drafts(settings.data).get(id_)
    told = {"draft": draft, "answers": draft.answers, "photos": _photos(draft)}
    values = {**told, "look": _look(draft, work, reader)}
    return page(request, "pages/take_in/looked.html", values)


@router.post("/api/take-in")
def begin(sent: AnswersSent, settings: Told, reader: Reading) -> dict[str, str]:
    """Begin to take something in."""
    return {"id": Drafts(settings.data).begin(sent.answers, _beside(sent.beside, EMPTY, reader)).id}


@router.post("/api/take-in/tape")
def tape(sent: AnswersSent, reader: Reading) -> dict[str, Any]:
    """What was understood of a tape so far."""
    given = typed(sent.answers, reader.units)
    told: dict[str, Any] = {"so_far": rows_so_far(given), "understood": None, "wrong": None}
    try:
        told["understood"] = tape_told(given, reader.units)
    except InputRefused as refused:
        told["wrong"] = wrong_told("", refused)
    return told


@router.post("/api/take-in/{id_}/check")
def checked(id_: str, sent: AnswersSent, settings: Told, work: LongWork, reader: Reading) -> dict[str, Any]:
    """Keep what is answered, and tell what is wrong with it and what can ruin the job."""
    drafts = Drafts(settings.data)
    before = drafts.get(id_)
    answers = with_what_goes_along(sent.answers, before.answers)
    draft = drafts.keep(before.id, answers, _beside(sent.beside, before.beside, reader))
    given = _given(draft, reader)
    look = look_so_far(work, draft, given)
    return check_told(check(draft, given, look.look, reader.units), look)


@router.put("/api/take-in/{id_}/scan")
async def scan(request: Request, id_: str, name: str, settings: Told) -> Any:
    """A scan, as raw bytes. What is answered while it comes stays answered."""
    drafts = Drafts(settings.data)
    draft, called = drafts.get(id_), harmless_name(name, "scan")
    await arrived(request, settings.data, draft.folder / called, LARGEST_SCAN, check_scan)
    draft = drafts.get(id_)
    before = draft.answers.get("original.file")
    if isinstance(before, str) and before != called and before in {each.name for each in draft.folder.iterdir()}:
        (draft.folder / before).unlink()
    drafts.keep(draft.id, {**draft.answers, "original.file": called}, {**draft.beside, "way": "scan", "job": ""})
    return {"file": called, "here": called}


@router.put("/api/take-in/{id_}/photos")
async def photo(request: Request, id_: str, name: str, settings: Told) -> Any:
    """One of the photos, as raw bytes."""
    drafts = Drafts(settings.data)
    draft, called = drafts.get(id_), harmless_name(name, "photo")
    await arrived(request, settings.data, draft.photos / called, LARGEST_OF_ALL, check_photo)
    draft = drafts.get(id_)
    drafts.keep(draft.id, {**draft.answers, "original.photos": PHOTOS}, {**draft.beside, "way": "photos", "job": ""})
    return {"file": called, "here": photos_here(len(_photos(draft)))}


@router.delete("/api/take-in/{id_}/photos/{name}")
def no_photo(id_: str, name: str, settings: Told) -> dict[str, Any]:
    """One of the photos less."""
    drafts = Drafts(settings.data)
    draft = drafts.get(id_)
    if name not in _photos(draft):
        raise InputRefused("not-kept", name, "one of its photos", "", "Reload the page.")
    (draft.photos / name).unlink(missing_ok=True)
    drafts.keep(draft.id, draft.answers, {**draft.beside, "job": ""})
    left = _photos(draft)
    return {"photos": left, "here": photos_here(len(left))}


@router.delete("/api/take-in/{id_}/answers/{key}")
def no_answer(id_: str, key: str, settings: Told) -> dict[str, Any]:
    """One thing that is asked for less."""
    drafts = Drafts(settings.data)
    draft = drafts.get(id_)
    if key not in draft.answers:
        raise InputRefused("not-kept", short(key), "something that is asked for", "", "Reload the page.")
    rest = {name: value for name, value in draft.answers.items() if name != key}
    return {"answers": sorted(drafts.keep(draft.id, rest, draft.beside).answers)}


@router.post("/api/take-in/{id_}/look")
def look(id_: str, settings: Told, work: LongWork, reader: Reading, clock: Clock) -> dict[str, Any]:
    """Look at the scan or the photos; what is under way for them is stopped."""
    drafts = Drafts(settings.data)
    draft = drafts.get(id_)
    earlier = look_so_far(work, draft, EMPTY).job
    if earlier is not None and not earlier.state.ended:
        work.stop(earlier.id)
    job = ask_look(work, draft, _given(draft, reader), clock.by)
    drafts.keep(draft.id, draft.answers, {**draft.beside, "job": job.id})
    return work_told(work, job)


@router.post("/api/take-in/{id_}/piece")
def piece(id_: str, settings: Told, shop: OpenShop, work: LongWork, reader: Reading, clock: Clock) -> dict[str, str]:
    """Take it in, and begin its plan. Where that cannot be begun the piece is in the records all the same: its page
    offers to plan it, and tells then what stands in the way."""
    drafts = Drafts(settings.data)
    with drafts.held(drafts.get(id_)) as draft:
        made = taken_in(shop, clock, draft, _given(draft, reader))
        drafts.drop(draft.id)
    try:
        plan_piece(work, shop, made, clock.by)
    except (MoldwrightError, OSError):
        log.warning("the plan of a piece that was taken in could not be begun", exc_info=True)
    return {"piece": made, "path": f"/pieces/{short_code(made)}"}


@router.delete("/api/take-in/{id_}")
def drop(id_: str, settings: Told, work: LongWork) -> dict[str, str]:
    """Take nothing in: its answers and files are gone."""
    drafts = Drafts(settings.data)
    draft = drafts.get(id_)
    under_way = look_so_far(work, draft, EMPTY).job
    if under_way is not None and not under_way.state.ended:
        work.stop(under_way.id)
    drafts.drop(draft.id)
    return {"id": draft.id}


@router.post("/api/pieces/{id_}/change")
def change(id_: str, settings: Told, shop: OpenShop) -> dict[str, str]:
    """Begin to ask for something else of a piece."""
    draft = changing(Drafts(settings.data), shop, piece_known(shop, piece_meant(shop, id_)))
    return {"id": draft.id, "path": f"/take-in/{draft.id}"}


def _given(draft: TakingIn, reader: DeskReader) -> dict[str, Any]:
    return own_only(typed(draft.answers, _units(draft, reader)), str(draft.beside.get("way", "scan")), draft.folder)


def _units(draft: TakingIn, reader: DeskReader) -> UnitSystem:
    """In which its bare numbers were typed: who goes on with it may read in others."""
    return UnitSystem(draft.beside.get(UNITS, reader.units))


def _beside(sent: Mapping[str, Any], before: Mapping[str, Any], reader: DeskReader) -> dict[str, Any]:
    """What a page may tell beside the answers; which piece is changed and which look was asked for it may not."""
    told = {name: str(sent[name])[:400] for name in ("whom", "due", "why", "way") if name in sent}
    where = sent.get("where")
    kept = {name: before[name] for name in (CHANGES, "job") if name in before}
    return {
        **before,
        **told,
        **kept,
        UNITS: reader.units.value,
        **({"where": [str(each)[:80] for each in where]} if isinstance(where, list) else {}),
    }


def _look(draft: TakingIn, work: LongWork, reader: DeskReader) -> dict[str, Any]:
    return look_told(work, look_so_far(work, draft, _given(draft, reader)), reader.units)


def _photos(draft: TakingIn) -> list[str]:
    return sorted(each.name for each in draft.photos.iterdir()) if draft.photos.is_dir() else []


def _page(
    request: Request,
    reader: DeskReader,
    draft: TakingIn | None,
    answers: Mapping[str, Any],
    beside: Mapping[str, Any],
    look: dict[str, Any] | None = None,
) -> Response:
    photos = _photos(draft) if draft is not None else []
    values = {
        "draft": draft,
        "answers": answers,
        "beside": beside,
        "fields": asked_fields(dict(answers), reader.units),
        "along": what_goes_along(answers),
        "look": look,
        "photos": photos,
        "photos_here": photos_here(len(photos)),
        "most_mb": LARGEST_SCAN // 1_000_000,
    }
    return page(request, "take_in", values)
