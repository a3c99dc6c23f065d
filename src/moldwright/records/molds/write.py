"""What is written of molds: registered, looked over, measured, moved, retired."""

from __future__ import annotations

from math import isfinite

from sqlalchemy import Connection

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.any_events import Noted
from moldwright.log.codes import short_code
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import MoldId, PlanId, RunId, SubjectId
from moldwright.log.mold_events import MoldInspected, MoldMade, MoldMeasured, MoldRetired, MoldState, MoldStored
from moldwright.log.run_events import MoldRegistered, Replanned, Started
from moldwright.log.standing import standing
from moldwright.records.clock import BenchClock
from moldwright.records.molds.mold import mold_of
from moldwright.records.molds.shrink import MOST_PCT
from moldwright.records.shop import Shop, append_within
from moldwright.records.told import line_told
from moldwright.records.within import events_within, hold
from moldwright.ways import Deed

MOST_CASTS = 100_000
"""Casts of one mold at the most; our own, far above any."""
NOTE_LONGEST = 2000


def register_made(shop: Shop, clock: BenchClock, run: RunId, name: str = "", stored: str = "") -> MoldId:
    """Put the mold that a run made into the register; its casts are counted from the log.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    run : which made it.
    name : what it is called; "" for the run's.
    stored : where it stands.

    Raises InputRefused ("run-not-started"), RecordConflict ("mold-registered", "run-has-mold").
    """
    place = line_told(stored, "a place", may_lack=True)
    with shop.writing() as connection:
        hold(connection, run)
        events = standing(events_within(connection, run))
        started = _started(connection, events)
        plan = next((each.body.plan for each in reversed(events) if isinstance(each.body, Replanned)), started.plan)
        called = line_told(name or started.name, "a name")
        id_ = MoldId(SubjectId(clock.new_id()))
        made = MoldMade(called, run, plan, shop.plan(plan).rubber, stored=place)
        told = (clock.event(About.MOLD, id_, made), clock.event(About.RUN, run, MoldRegistered(id_)))
        append_within(connection, told)
        return id_


def register_older(
    shop: Shop,
    clock: BenchClock,
    name: str,
    rubber: str = "",
    plan: PlanId | None = None,
    drawn: int = 0,
    lasts: int | None = None,
    stored: str = "",
    cast: str = "",
) -> MoldId:
    """Put a mold into the register that is older than the records.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    name : what it is called.
    rubber : the class or the sheet that it is of, by its name; "" for its plan's, or where nobody knows.
    plan : the kept plan by which it was made, None where there is none.
    drawn : casts drawn so far.
    lasts : casts that it gives in all, None: by its rubber.
    stored : where it stands.
    cast : what is cast in it, by its name; "" for what its plan tells.

    Raises InputRefused ("casts-impossible").
    """
    called, place = line_told(name, "a name"), line_told(stored, "a place", may_lack=True)
    of = line_told(rubber, "a rubber", may_lack=True) or (shop.plan(plan).rubber if plan else "")
    _check_casts(drawn, 0)
    _check_casts(1 if lasts is None else lasts, 1)
    what = line_told(cast, "what is cast", may_lack=True)
    id_ = MoldId(SubjectId(clock.new_id()))
    shop.append([clock.event(About.MOLD, id_, MoldMade(called, None, plan, of, drawn, lasts, place, what))])
    return id_


def look_over(shop: Shop, clock: BenchClock, id_: MoldId, state: MoldState, text: str = "") -> Event:
    """Write down how a mold was found.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which mold.
    state : how it is.
    text : where and what, in words.
    """
    return _write(shop, clock, id_, MoldInspected(state, line_told(text, "what was found", may_lack=True)))


def measure_shrink(shop: Shop, clock: BenchClock, id_: MoldId, shrink_pct: float) -> Event:
    """Write down how much smaller a cast of it, or its mouth, is than the original.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which mold.
    shrink_pct : in percent; below 0 where it is larger.

    Raises InputRefused ("shrink-impossible").
    """
    if not isfinite(shrink_pct) or abs(shrink_pct) > MOST_PCT:
        remedy = "Measure the same height on the original and on the cast, and write how much smaller the cast is."
        raise InputRefused("shrink-impossible", shrink_pct, MOST_PCT, "%", remedy)
    return _write(shop, clock, id_, MoldMeasured(shrink_pct))


def move_mold(shop: Shop, clock: BenchClock, id_: MoldId, stored: str) -> Event:
    """Write down where a mold stands now.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which mold.
    stored : the place.
    """
    return _write(shop, clock, id_, MoldStored(line_told(stored, "a place")))


def retire_mold(shop: Shop, clock: BenchClock, id_: MoldId, why: str = "") -> Event:
    """Take a mold out of use; it stays in the register.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which mold.
    why : in words.
    """
    return _write(shop, clock, id_, MoldRetired(line_told(why, "a reason", may_lack=True)))


def note_on_mold(shop: Shop, clock: BenchClock, id_: MoldId, text: str) -> Event:
    """Write a note on a mold.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    id_ : which mold.
    text : the note.
    """
    return _write(shop, clock, id_, Noted(line_told(text, "a note", longest=NOTE_LONGEST)))


def _write(shop: Shop, clock: BenchClock, id_: MoldId, body: Body) -> Event:
    event = clock.event(About.MOLD, id_, body)
    shop.append([event])
    return event


def _started(connection: Connection, events: tuple[Event, ...]) -> Started:
    """How the run began; refused where it casts from a mold, or has one in the register."""
    started = next((event.body for event in events if isinstance(event.body, Started)), None)
    if started is None:
        remedy = "Start the run first"
        told = "a run without its start"
        raise InputRefused("run-not-started", told, "a run that is under way", "", remedy, Deed.BEGIN_RUN)
    if started.mold is not None:
        remedy = "It casts from a mold of the register and makes none."
        raise RecordConflict("run-has-mold", short_code(started.mold), "a run that makes its mold", "", remedy)
    for event in events:
        if isinstance(event.body, MoldRegistered) and mold_of(events_within(connection, event.body.mold)):
            remedy = "A run makes one mold. Another one is a run of its own, or typed in without a run."
            raise RecordConflict("mold-registered", short_code(event.body.mold), "a run without one", "", remedy)
    return started


def _check_casts(count: int, least: int) -> None:
    if not least <= count <= MOST_CASTS:
        raise InputRefused("casts-impossible", count, f"{least} to {MOST_CASTS}", "casts", "Count the casts again.")
