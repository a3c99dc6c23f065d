"""Starting a run of a plan."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.log.event import About, Event
from moldwright.log.ids import EditionId, MoldId, RunId, SubjectId
from moldwright.log.run_events import Started
from moldwright.plan.json_text import plan_from_json
from moldwright.records.clock import BenchClock
from moldwright.records.editions.open import NewEdition, open_edition_within
from moldwright.records.editions.read import edition as edition_of_shop
from moldwright.records.runs.opened import OpenRun, opened_by
from moldwright.records.shop import Shop, append_within
from moldwright.ways import Deed

MOST_CASTS = 10_000
"""Casts of one run at the most: our own, far above what one mold gives."""


def start_run(
    shop: Shop,
    clock: BenchClock,
    plan_text: str,
    casts: int | None = None,
    mold: MoldId | None = None,
    edition: EditionId | NewEdition | None = None,
    batch: int = 1,
) -> OpenRun:
    """Start a run of a plan; the plan is kept with it.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    plan_text : of the plan.json.
    casts : how many it is for, None: as many as the plan's edition; 0: the mold alone.
    mold : the one on the shelf that it casts from, None: it makes its mold.
    edition : whose numbers its casts get; one that is to be opened is opened with the run, or neither is; None: none.
    batch : casts of one day.

    Raises InputRefused ("casts-out-of-range", "not-kept", and what is wrong with the plan), and as `open_edition`.
    """
    plan = plan_from_json(plan_text)
    count = plan.count if casts is None else casts
    _check("casts", count, 0)
    _check("casts of a day", batch, 1)
    if mold is not None and not shop.events_of(mold):
        remedy = "Look which there are"
        raise InputRefused("not-kept", mold, "a mold of this shop", "", remedy, Deed.SEE_MOLDS)
    run, kept = RunId(SubjectId(clock.new_id())), shop.keep_plan(plan_text)

    def started(edition: EditionId | None) -> Event:
        return clock.event(About.RUN, run, Started(kept, plan.name, count, batch, mold, edition))

    if isinstance(edition, NewEdition):
        with shop.writing() as connection:
            event = started(open_edition_within(connection, clock, edition).id)
            append_within(connection, [event])
    else:
        if edition is not None:
            edition_of_shop(shop, edition)
        event = started(edition)
        shop.append([event])
    return opened_by(shop, run, [event], event.at_ms)


def _check(what: str, count: int, least: int) -> None:
    if not least <= count <= MOST_CASTS:
        remedy = "Write how many casts this run is for; another one can be started for more."
        raise InputRefused("casts-out-of-range", count, f"{least} to {MOST_CASTS}", what, remedy)
