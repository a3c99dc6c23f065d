"""A mold as its events and those of its runs tell it: a pure fold."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from moldwright.log.any_events import Attached
from moldwright.log.event import About, Event
from moldwright.log.ids import EventId, MoldId, PlanId, RunId
from moldwright.log.mold_events import MoldInspected, MoldMade, MoldMeasured, MoldRetired, MoldState, MoldStored
from moldwright.log.run_events import Mishap, Problem
from moldwright.log.standing import standing


@dataclass(frozen=True, slots=True)
class MoldLook:
    """How it was found; `run`: a tear that was written down in a run, None: it was looked over."""

    event: EventId
    at_ms: int
    state: MoldState
    text: str
    run: RunId | None = None


@dataclass(frozen=True, slots=True)
class Mold:
    """A mold of the register.

    Parameters
    ----------
    id, name, rubber, cast, stored : what it is, of what, what is cast in it where somebody told, where it stands.
    event, made_ms : that which registered it, and when it was made [ms].
    run, plan : what made it, None where it is older than the records or nobody told.
    drawn_before : casts drawn before the records.
    lasts : casts that the maker expects of it, None: by its rubber.
    state : how it was found last, or what tore it since.
    looks : how it was found, in their order.
    measured : how much smaller casts of it, or its mouth, were [%].
    files : photos and files of it.
    retired : why no more is cast of it, None: it is in use.
    """

    id: MoldId
    name: str
    rubber: str
    cast: str
    stored: str
    event: EventId
    made_ms: int
    run: RunId | None
    plan: PlanId | None
    drawn_before: int
    lasts: int | None
    state: MoldState = MoldState.GOOD
    looks: tuple[MoldLook, ...] = ()
    measured: tuple[float, ...] = ()
    files: tuple[Attached, ...] = ()
    retired: str | None = None


def mold_of(events: Iterable[Event], runs: Iterable[Event] = ()) -> Mold | None:
    """The mold that events tell; None where none was registered, or that was struck out.

    Parameters
    ----------
    events : of one mold, in any order, some perhaps twice.
    runs : of the runs that made it or cast from it; only tears are looked for.
    """
    stand = standing((*events, *runs))
    made = [(event, event.body) for event in stand if isinstance(event.body, MoldMade)]
    if not made:
        return None
    event, body = made[-1]
    mold = Mold(
        id=MoldId(event.subject),
        name=body.name,
        rubber=body.rubber,
        cast=body.cast,
        stored=body.stored,
        event=event.id,
        made_ms=event.at_ms,
        run=body.run,
        plan=body.plan,
        drawn_before=body.drawn,
        lasts=body.lasts,
    )
    for each in stand:
        mold = _after(mold, each)
    return mold


def _after(mold: Mold, event: Event) -> Mold:  # noqa: PLR0911
    match event.body:
        case MoldInspected(state, text):
            return _found(mold, MoldLook(event.id, event.at_ms, state, text))
        case Problem(Mishap.TORN, text):
            return _found(mold, MoldLook(event.id, event.at_ms, MoldState.TORN, text, RunId(event.subject)))
        case MoldMeasured(shrink_pct):
            return replace(mold, measured=(*mold.measured, shrink_pct))
        case MoldStored(stored):
            return replace(mold, stored=stored)
        case MoldRetired(why):
            return replace(mold, retired=why)
        case Attached() if event.about is About.MOLD:
            return replace(mold, files=(*mold.files, event.body))
        case _:
            return mold


def _found(mold: Mold, look: MoldLook) -> Mold:
    return replace(mold, state=look.state, looks=(*mold.looks, look))
