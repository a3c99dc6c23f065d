"""Molds of the shop with all that is reckoned of them, and which one is meant by what a person types."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import groupby

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.edition_events import Series
from moldwright.log.event import About, Event
from moldwright.log.ids import EditionId, MoldId
from moldwright.log.mold_events import MoldState
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
from moldwright.records.molds.runs import MoldRun, molds_for, runs_of_molds
from moldwright.records.molds.shrink import MoldShrink, measured_shrink, shrink_pct
from moldwright.records.shop import Shop
from moldwright.records.told import day_of
from moldwright.records.within import all_within
from moldwright.text.shown import short
from moldwright.ways import Deed
from moldwright.words.speaker import say


@dataclass(frozen=True, slots=True)
class MoldKnown:
    """A mold with all that is reckoned of it.

    Parameters
    ----------
    mold, runs : itself, and the runs that made it or cast from it.
    editions : that its runs are for.
    facts : casts drawn, numbers left and the like, by which the next glove is reckoned; `lasts_from`: whose figure the
        casts are that it gives.
    next : when the next glove should be made.
    last_ms : when the last cast was drawn, or it was made [ms].
    look_first : it lay so long that it is looked over before the next cast; `look_from`: the day from which it is so,
        if nobody casts from it or looks it over till then.
    shrink : as it was measured; `planned_pct`: as its plan expects it [%].
    """

    mold: Mold
    runs: tuple[MoldRun, ...]
    editions: tuple[Edition, ...]
    facts: GloveFacts
    lasts_from: str
    next: NextGlove
    last_ms: int
    look_first: bool
    look_from: date
    shrink: MoldShrink | None
    planned_pct: Range | None

    @property
    def usable(self) -> bool:
        """Whether it can be cast from."""
        return not self.facts.retired and self.mold.state not in (MoldState.TORN, MoldState.SPENT)


def molds(shop: Shop, known: Library, today: date, retired: bool = False) -> tuple[MoldKnown, ...]:
    """The molds of the register, the oldest first.

    Parameters
    ----------
    shop : the store.
    known : the materials' sheets.
    today : the day to reckon from.
    retired : those too that are out of use.
    """
    events = {mold.id: events for mold, events in _registered(shop) if retired or mold.retired is None}
    return _all_known(shop, known, today, events)


def mold_known(shop: Shop, known: Library, today: date, id_: MoldId) -> MoldKnown:
    """One mold; where it is for an edition the others of that are looked at too, as they share its numbers.

    Parameters
    ----------
    shop : the store.
    known : the materials' sheets.
    today : the day to reckon from.
    id_ : which.

    Raises InputRefused ("not-kept").
    """
    registered = {mold.id: (mold, events) for mold, events in _registered(shop)}
    if id_ not in registered:
        remedy = "Look which there are"
        raise InputRefused("not-kept", id_, "a mold of this shop", "", remedy, Deed.SEE_MOLDS)
    (alone,) = _all_known(shop, known, today, {id_: registered[id_][1]})
    if not alone.editions:
        return alone
    beside = molds_for(shop, [each.id for each in alone.editions])
    wanted = {each: registered[each][1] for each in registered if each == id_ or each in beside}
    return next(each for each in _all_known(shop, known, today, wanted) if each.mold.id == id_)


def mold_meant(shop: Shop, written: str) -> MoldId:
    """The mold that is meant.

    Parameters
    ----------
    shop : the store.
    written : its name, its id or its short code.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    wanted = written.strip().casefold()
    named = [mold for mold, _ in _registered(shop) if mold.name.casefold() == wanted]
    if len(named) > 1:
        codes = ", ".join(short_code(mold.id) for mold in named)
        raise InputRefused(
            "code-of-several", short(written), "one mold", "", say("Write its code: {codes}.", codes=codes)
        )
    return named[0].id if named else MoldId(find(shop, About.MOLD, written))


def _registered(shop: Shop) -> Iterator[tuple[Mold, tuple[Event, ...]]]:
    """Every mold by what was written of itself, and that."""
    with shop.reading() as connection:
        every = all_within(connection, About.MOLD)
    for _, same in groupby(every, key=lambda event: event.subject):
        events = tuple(same)
        mold = mold_of(events)
        if mold is not None:
            yield mold, events


def _all_known(
    shop: Shop, known: Library, today: date, events: Mapping[MoldId, tuple[Event, ...]]
) -> tuple[MoldKnown, ...]:
    plans = PlansRead(shop)
    runs, open_ = runs_of_molds(shop, plans, frozenset(events)), {each.id: each for each in editions(shop)}
    found = [_known(same, runs.get(id_, ()), open_, plans, known, today) for id_, same in events.items()]
    return tuple(
        _beside(each, found, today) for each in sorted(found, key=lambda each: (each.mold.made_ms, each.mold.id))
    )


def _beside(known: MoldKnown, every: Sequence[MoldKnown], today: date) -> MoldKnown:
    """The next glove once it is known what other molds of its editions give yet."""
    ids = {edition.id for edition in known.editions}
    beside = [each for each in every if each is not known and ids & {edition.id for edition in each.editions}]
    usable = [each.next.left.low for each in beside if each.usable and each.next.left is not None]
    if not usable:
        return known
    facts = replace(known.facts, others=sum(usable))
    return replace(known, facts=facts, next=next_glove(facts, today))


def _known(
    events: tuple[Event, ...],
    runs: tuple[MoldRun, ...],
    open_: Mapping[EditionId, Edition],
    plans: PlansRead,
    known: Library,
    today: date,
) -> MoldKnown:
    mold = mold_of(events, [problem for run in runs for problem in run.problems])
    assert mold is not None
    plan = plans.get(mold.plan)
    rubber = _rubber(mold, known)
    lasts, told_by = _lasts(mold, rubber, _cast_in(mold, runs, plan, plans, known), plan)
    for_ = [open_[id_] for id_ in dict.fromkeys(run.edition for run in runs) if id_ is not None and id_ in open_]
    drawn_ms = [cast.at_ms for run in runs for cast in run.casts]
    facts = GloveFacts(
        state=mold.state,
        retired=mold.retired is not None,
        lasts=lasts,
        drawn=mold.drawn_before + len(drawn_ms),
        drawn_on=tuple(map(day_of, drawn_ms)),
        wanted=sum(each.left(series) for each in for_ for series in Series) if for_ else None,
        lead_days=plan.mold_days if plan else None,
    )
    last_ms = max([mold.made_ms, *drawn_ms])
    looked_ms = max([last_ms, *(look.at_ms for look in mold.looks if look.run is None)])
    look_from = day_of(looked_ms) + timedelta(days=look_after_days(rubber))
    return MoldKnown(
        mold=mold,
        runs=runs,
        editions=tuple(for_),
        facts=facts,
        lasts_from=told_by,
        next=next_glove(facts, today),
        last_ms=last_ms,
        look_first=today >= look_from,
        look_from=look_from,
        shrink=_shrink(mold, runs, plans),
        planned_pct=plan.shrink_pct if plan else None,
    )


def _lasts(
    mold: Mold, rubber: Chemistry | None, cast: Sequence[Chemistry], plan: MoldPlan | None
) -> tuple[Range | None, str]:
    """Of several things that are cast in it that which wears it soonest; of a mold with a plan by what wears it."""
    if mold.lasts is not None:
        return Range.exactly(float(mold.lasts)), "told by the maker"
    if rubber is None or not cast:
        return None, ""
    figure = min((casts_of_glove(rubber, each) for each in cast), key=lambda figure: figure.likely)
    if plan is None:
        return figure.range, figure.source
    low, likely, high = plan.life
    return Range(figure.low * low, figure.likely * likely, figure.high * high), f"{figure.source}, by its plan"


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
