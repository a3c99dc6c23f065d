"""Molds of the shop with all that is reckoned of them, and which one is meant by what a person types."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.edition_events import Series
from moldwright.log.event import About, Event
from moldwright.log.ids import EditionId, MoldId
from moldwright.materials import Library
from moldwright.materials.kinds import Resin, Rubber
from moldwright.materials.mold_life import casts_of_glove, look_after_days
from moldwright.materials.words import Chemistry, Kind
from moldwright.ranges import Range
from moldwright.records.editions.edition import Edition
from moldwright.records.editions.read import editions
from moldwright.records.find import find
from moldwright.records.molds.mold import Mold, mold_of
from moldwright.records.molds.next_glove import GloveFacts, NextGlove, next_glove
from moldwright.records.molds.plan_facts import MoldPlan, PlansRead
from moldwright.records.molds.runs import MoldRun, runs_of_molds
from moldwright.records.molds.shrink import MoldShrink, measured_shrink, shrink_pct
from moldwright.records.shop import Shop
from moldwright.records.told import day_of
from moldwright.records.within import all_within
from moldwright.text.shown import short


@dataclass(frozen=True, slots=True)
class MoldKnown:
    """A mold with all that is reckoned of it.

    Parameters
    ----------
    mold, runs : itself, and the runs that made it or cast from it.
    drawn : casts drawn, those before the records included.
    last_ms : when the last was drawn, or it was made [ms].
    lasts : casts that it gives in all, None where nobody knows; `lasts_from`: whose figure that is.
    shrink : as it was measured; `planned_pct`: as its plan expects it [%].
    editions : names of what it casts for; `wanted`: numbers that are left in them, None where it is for none.
    next : when the next glove should be made.
    look_first : it lay so long that it is looked over before the next cast.
    """

    mold: Mold
    runs: tuple[MoldRun, ...]
    drawn: int
    last_ms: int
    lasts: Range | None
    lasts_from: str
    shrink: MoldShrink | None
    planned_pct: Range | None
    editions: tuple[str, ...]
    wanted: int | None
    lead_days: int | None
    next: NextGlove
    look_first: bool


def molds(shop: Shop, known: Library, today: date) -> tuple[MoldKnown, ...]:
    """All molds of the register, the oldest first.

    Parameters
    ----------
    shop : the store.
    known : the materials' sheets.
    today : the day to reckon from.
    """
    with shop.reading() as connection:
        events = all_within(connection, About.MOLD)
    plans = PlansRead(shop)
    runs, open_ = runs_of_molds(shop, plans), {each.id: each for each in editions(shop)}
    by_mold = ((MoldId(id_), tuple(same)) for id_, same in groupby(events, key=lambda event: event.subject))
    found = (_known(same, runs.get(id_, ()), open_, plans, known, today) for id_, same in by_mold)
    return tuple(sorted((each for each in found if each), key=lambda each: (each.mold.made_ms, each.mold.id)))


def mold_known(shop: Shop, known: Library, today: date, id_: MoldId) -> MoldKnown:
    """One mold.

    Parameters
    ----------
    shop : the store.
    known : the materials' sheets.
    today : the day to reckon from.
    id_ : which.

    Raises InputRefused ("not-kept").
    """
    plans = PlansRead(shop)
    runs, open_ = runs_of_molds(shop, plans, id_).get(id_, ()), {each.id: each for each in editions(shop)}
    found = _known(shop.events_of(id_), runs, open_, plans, known, today)
    if found is None:
        remedy = "`moldwright mold list` tells what there is."
        raise InputRefused("not-kept", id_, "a mold of this shop", "", remedy)
    return found


def mold_meant(shop: Shop, written: str) -> MoldId:
    """The mold that is meant.

    Parameters
    ----------
    shop : the store.
    written : its name, its id or its short code.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    with shop.reading() as connection:
        events = all_within(connection, About.MOLD)
    every = (mold_of(same) for _, same in groupby(events, key=lambda event: event.subject))
    wanted = written.strip().casefold()
    named = [mold for mold in every if mold is not None and mold.name.casefold() == wanted]
    if len(named) > 1:
        codes = ", ".join(short_code(mold.id) for mold in named)
        raise InputRefused("code-of-several", short(written), "one mold", "", f"Write its code: {codes}.")
    return named[0].id if named else MoldId(find(shop, About.MOLD, written))


def _known(
    events: tuple[Event, ...],
    runs: tuple[MoldRun, ...],
    open_: Mapping[EditionId, Edition],
    plans: PlansRead,
    known: Library,
    today: date,
) -> MoldKnown | None:
    mold = mold_of(events, [problem for run in runs for problem in run.problems])
    if mold is None:
        return None
    plan = plans.get(mold.plan)
    casts = [cast for run in runs for cast in run.casts]
    drawn = mold.drawn_before + len(casts)
    rubber = _rubber(mold, known)
    lasts, told_by = _lasts(mold, rubber, _cast_in(mold, runs, plan, plans, known))
    for_ = [open_[id_] for id_ in dict.fromkeys(run.edition for run in runs) if id_ is not None and id_ in open_]
    wanted = sum(each.left(series) for each in for_ for series in Series) if for_ else None
    lead = plan.mold_days if plan else None
    on = tuple(day_of(cast.at_ms) for cast in casts)
    last_ms = max([mold.made_ms, *(cast.at_ms for cast in casts)])
    looked_ms = max([last_ms, *(look.at_ms for look in mold.looks if look.run is None)])
    return MoldKnown(
        mold=mold,
        runs=runs,
        drawn=drawn,
        last_ms=last_ms,
        lasts=lasts,
        lasts_from=told_by,
        shrink=_shrink(mold, runs, plans),
        planned_pct=plan.shrink_pct if plan else None,
        editions=tuple(each.name for each in for_),
        wanted=wanted,
        lead_days=lead,
        next=next_glove(GloveFacts(mold.state, mold.retired is not None, lasts, drawn, on, wanted, lead), today),
        look_first=(today - day_of(looked_ms)).days >= look_after_days(rubber),
    )


def _lasts(mold: Mold, rubber: Chemistry | None, cast: Sequence[Chemistry]) -> tuple[Range | None, str]:
    """Of several things that are cast in it that which wears it soonest."""
    if mold.lasts is not None:
        return Range.exactly(float(mold.lasts)), "told by the maker"
    if rubber is None or not cast:
        return None, ""
    figure = min((casts_of_glove(rubber, each) for each in cast), key=lambda figure: figure.likely)
    return figure.range, figure.source


def _rubber(mold: Mold, known: Library) -> Chemistry | None:
    sheet = _sheet(known, Kind.RUBBER, mold.rubber)
    return sheet.chemistry if isinstance(sheet, Rubber) else None


def _cast_in(
    mold: Mold, runs: tuple[MoldRun, ...], plan: MoldPlan | None, plans: PlansRead, known: Library
) -> list[Chemistry]:
    """What is cast in it of late, else by its plan, else as the maker told; none where no sheet is at hand."""
    latest = (plans.get(runs[-1].plan) if runs else None) or plan
    names = latest.names(Kind.RESIN) if latest else (mold.cast,)
    return [sheet.chemistry for name in names if isinstance(sheet := _sheet(known, Kind.RESIN, name), Resin)]


def _sheet(known: Library, kind: Kind, name: str) -> object:
    wanted = name.casefold()
    sheets = known.sheets[kind].items()
    return next((sheet for id_, sheet in sheets if wanted in (id_, sheet.name.casefold())), None)


def _shrink(mold: Mold, runs: tuple[MoldRun, ...], plans: PlansRead) -> MoldShrink | None:
    told = list(mold.measured)
    for run in runs:
        plan = plans.get(run.plan)
        if plan is not None:
            heights = [cast.height_mm for cast in run.casts if cast.height_mm is not None]
            told += [shrink_pct(height, plan.height_mm) for height in heights]
    return measured_shrink(told)
