"""A line through an event that was written by mistake: it stays readable and counts in nothing."""

from __future__ import annotations

from sqlalchemy import select

from moldwright.errors import InputRefused
from moldwright.log.any_events import Undone
from moldwright.log.codes import CODE_LENGTH, URN
from moldwright.log.event import About, Event
from moldwright.log.ids import EventId, SubjectId
from moldwright.log.kinds import NAMES
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT
from moldwright.records.told import line_told
from moldwright.text.shown import short
from moldwright.ways import Deed
from moldwright.words.speaker import say

CODES = "Look for its code in the log"
LOGS = {
    About.RUN: Deed.SEE_RUN_LOG,
    About.LOT: Deed.SEE_LOT_LOG,
    About.MOLD: Deed.SEE_MOLD_LOG,
    About.EDITION: Deed.SEE_EDITION_LOG,
    About.RECIPE: Deed.SEE_RECIPE_LOG,
    About.PIECE: Deed.SEE_PIECE_LOG,
}
"""Where the codes of entries are told."""


def strike_out(
    shop: Shop, clock: BenchClock, about: About, written: str, why: str = "", of: SubjectId | None = None
) -> Event:
    """Draw a line through an event; returns the event that is struck out.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    about : which sort of thing the event is about.
    written : the event's id or its short code.
    why : in words, "" where nobody said.
    of : the one thing whose entry it must be, None: any.

    Raises InputRefused ("event-not-kept", "code-of-several", "line-struck-out", "text-unusable").
    """
    told = line_told(why, "a reason", may_lack=True)
    event = find_event(shop, about, written)
    if of not in (None, event.subject):
        raise _not_kept(about, written, say("an entry of this {value}", value=say(about.value)))
    if isinstance(event.body, Undone):
        remedy = "A line takes nothing back once it is drawn: write down anew what was struck out by mistake."
        raise InputRefused("line-struck-out", short(written), "an event that is no line", "", remedy)
    shop.append([clock.event(about, event.subject, Undone(event.id, told))])
    return event


def find_event(shop: Shop, about: About, written: str) -> Event:
    """The one event that is meant.

    Parameters
    ----------
    shop : the store.
    about : which sort of thing it is about.
    written : its id, or its short code, in any case.

    Raises InputRefused ("event-not-kept", "code-of-several").
    """
    wanted = written.strip().lower().removeprefix(URN)
    code = wanted.replace("-", "")
    order = select(EVENT).where(EVENT.c.about == about.value)
    if len(code) == CODE_LENGTH and code.isalnum():
        named = EVENT.c.kind.in_(sorted(NAMES.values()))
        order = order.where(named, EVENT.c.id.like(f"%{code}"))
    else:
        order = order.where(EVENT.c.id == EventId(wanted))
    with shop.reading() as connection:
        found = tuple(event_of(row) for row in connection.execute(order.limit(2)))
    if not found:
        raise _not_kept(about, written, say("an event of a {value}", value=say(about.value)))
    if len(found) > 1:
        raise InputRefused("code-of-several", short(written), "one event", "", "Write the whole id.")
    return found[0]


def _not_kept(about: About, written: str, wanted: str) -> InputRefused:
    return InputRefused("event-not-kept", short(written), wanted, "", CODES, LOGS[about])
