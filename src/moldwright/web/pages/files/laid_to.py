"""A photo, a PDF or a text laid to a run, a lot, a mold, an edition, a recipe or a piece."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter
from pydantic import BaseModel, Field

from moldwright.errors import InputRefused
from moldwright.log.any_events import Attached
from moldwright.log.event import About
from moldwright.log.ids import FileHash
from moldwright.records.files.keep import attach
from moldwright.records.files.kept import size_of
from moldwright.records.find import find
from moldwright.records.strike import CODES, LOGS, find_event, strike_out
from moldwright.records.told import line_told
from moldwright.text.shown import short
from moldwright.web.at_hand import Clock, OpenShop
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role
from moldwright.web.typed_in import Line
from moldwright.words.speaker import say

router = APIRouter(tags=["files"])


class FileLaid(BaseModel):
    """A kept file, what it belongs to by id or code, and what it shows."""

    about: About
    to: Line
    file: str = Field(max_length=80)
    text: Line = ""


@dataclass(frozen=True, slots=True)
class LaidTo:
    """What was done, in words; `event`: the entry of the log."""

    said: str
    event: str


@router.post("/api/attachments", dependencies=[needs(Role.BENCH)])
def lay(body: FileLaid, shop: OpenShop, clock: Clock) -> LaidTo:
    """Lay a kept file to something, as `moldwright shop attach` does."""
    subject, file = find(shop, body.about, body.to), FileHash(body.file)
    size_of(shop.files, file)
    event = attach(shop, clock, body.about, subject, file, line_told(body.text, "what it shows", may_lack=True))
    return LaidTo(say("It is kept with it."), event.id)


@router.post("/api/attachments/{about}/{event}/strike", dependencies=[needs(Role.BENCH)])
def strike(about: About, event: str, shop: OpenShop, clock: Clock) -> LaidTo:
    """Draw a line through the entry that laid a file to something: the file stays kept, and belongs to it no more."""
    if not isinstance(find_event(shop, about, event).body, Attached):
        raise InputRefused("event-not-kept", short(event), say("a file that was laid to it"), "", CODES, LOGS[about])
    return LaidTo(
        say("It belongs to it no more; the log still tells that it did."), strike_out(shop, clock, about, event).id
    )
