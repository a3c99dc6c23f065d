"""One of the shop's things by what a person types: its id, what a code on a label holds, or its short code."""

from __future__ import annotations

from sqlalchemy import Connection, Select, select

from moldwright.errors import InputRefused
from moldwright.log.codes import CODE_LENGTH, URN
from moldwright.log.edition_events import EditionOpened
from moldwright.log.event import About
from moldwright.log.ids import SubjectId
from moldwright.log.kinds import NAMES
from moldwright.log.lot_events import LotReceived
from moldwright.log.mold_events import MoldMade
from moldwright.log.piece_events import PieceTakenIn
from moldwright.log.recipe_events import RecipeKept
from moldwright.log.run_events import Started
from moldwright.records.shop import Shop
from moldwright.records.store.tables import EVENT
from moldwright.text.shown import short
from moldwright.ways import Deed
from moldwright.words.speaker import say

BEGINNINGS = {
    About.RUN: NAMES[Started],
    About.LOT: NAMES[LotReceived],
    About.MOLD: NAMES[MoldMade],
    About.EDITION: NAMES[EditionOpened],
    About.RECIPE: NAMES[RecipeKept],
    About.PIECE: NAMES[PieceTakenIn],
}
"""The kind of event that a thing begins with: few among many, so they are looked at first. What was written of a thing
whose beginning has not arrived yet is found all the same."""
NAMED = "Look which there are"
SEEN = {
    About.RUN: Deed.SEE_RUNS,
    About.LOT: Deed.SEE_LOTS,
    About.MOLD: Deed.SEE_MOLDS,
    About.EDITION: Deed.SEE_EDITIONS,
    About.RECIPE: Deed.SEE_RECIPES,
    About.PIECE: Deed.SEE_PIECES,
}
"""Where all things of a sort are told."""


def find(shop: Shop, about: About, written: str) -> SubjectId:
    """The one thing that is meant.

    Parameters
    ----------
    shop : the store.
    about : which sort of thing.
    written : its id, with or without what a printed code puts before it, or its short code, in any case.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    wanted = written.strip().lower().removeprefix(URN)
    code = wanted.replace("-", "") if len(wanted) <= CODE_LENGTH + 1 else ""
    column = EVENT.c.subject
    order = select(column).where(EVENT.c.about == about.value).distinct()
    order = order.where(column.like(f"%{code}")) if code.isalnum() else order.where(column == wanted)
    with shop.reading() as connection:
        found = _subjects(connection, order.where(EVENT.c.kind == BEGINNINGS[about])) or _subjects(connection, order)
    if not found:
        raise InputRefused(
            "not-kept", short(written), say("a {value} of this shop", value=say(about.value)), "", NAMED, SEEN[about]
        )
    if len(found) > 1 or (code and len(code) < CODE_LENGTH):
        raise InputRefused(
            "code-of-several", short(written), say("one {value}", value=say(about.value)), "", "Write the whole id."
        )
    return found[0]


def _subjects(connection: Connection, order: Select[str]) -> list[SubjectId]:
    return [SubjectId(each) for each in connection.execute(order).scalars()]
