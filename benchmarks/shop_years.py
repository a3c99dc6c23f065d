"""A shop of ten years, made up: runs of one plan with all that is written at the bench, lots that come and go, molds,
editions with their numbers, recipes. Rows are made by the store's own function and put in by thousands.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import chain, islice
from typing import Any

from sqlalchemy import insert

from moldwright.bench.acts import PlannedAct, planned_acts
from moldwright.log.any_events import Noted, Undone
from moldwright.log.edition_events import EditionOpened, NumberGiven, Series
from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EditionId, EventId, LotId, MoldId, PieceId, PlanId, RecipeId, RunId, SubjectId
from moldwright.log.lot_events import LotCounted, LotDiscarded, LotOpened, LotReceived, Stuff
from moldwright.log.mold_events import MoldInspected, MoldMade, MoldState
from moldwright.log.recipe_events import RecipeKept, RecipeKind, RecipePart
from moldwright.log.run_events import Begun, CastMeasured, CupRef, Done, Ended, Poured, ShopAir, Started, Weighed
from moldwright.plan.needs import NeedUnit
from moldwright.plan.plan import Plan
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop
from moldwright.records.store.rows import row_of
from moldwright.records.store.tables import EVENT, NUMBER

YEARS, RUNS, EVENTS, LOTS, EDITIONS, RECIPES = 10, 5_000, 1_000_000, 3_000, 400, 200
BEGIN_MS = 1_477_000_000_000
"""October 2016."""
DAY_MS = 86_400_000
SPAN_MS = YEARS * 365 * DAY_MS
AT_ONCE = 5_000
UNDER_WAY = 6
"""Runs that go on; the others have ended."""
STUFFS = tuple(
    Stuff(kind, f"{kind}-{number}") for kind in ("rubber-a", "rubber-b", "resin-a", "powder") for number in (1, 2)
)


@dataclass(slots=True)
class MadeUp:
    """A shop in the making: its chance, the clock of its bench, and what it has."""

    plan: Plan
    plan_id: PlanId
    chance: random.Random = field(default_factory=lambda: random.Random(10))
    now_ms: int = BEGIN_MS
    clock: BenchClock = field(init=False)
    lots: list[LotId] = field(default_factory=list)
    runs: list[RunId] = field(default_factory=list)
    claims: list[dict[str, Any]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.bench("tablet 1")

    def bench(self, name: str) -> None:
        """Another bench begins to write, ten years ago."""
        self.now_ms = BEGIN_MS
        self.clock = BenchClock(name, "Kim", now=lambda: self.now_ms)

    def new(self) -> SubjectId:
        return SubjectId(self.clock.new_id())

    def event(self, about: About, subject: SubjectId, body: Body, at_ms: int) -> Event:
        self.now_ms = at_ms
        return self.clock.event(about, subject, body, at_ms)


def fill(shop: Shop, made: MadeUp, tell: Callable[[str], None]) -> int:
    """Put the ten years in; how many events they are."""
    count = 0
    events = chain(lots(made), editions(made), recipes(made), runs(made))
    while part := list(islice(events, AT_ONCE)):
        with shop.writing() as connection:
            connection.execute(insert(EVENT), [row_of(event) for event in part])
        count += len(part)
        if count % 100_000 == 0:
            tell(f"    {count:,} events")
    with shop.writing() as connection:
        connection.execute(insert(NUMBER), made.claims)
    return count


def lots(made: MadeUp) -> Iterator[Event]:
    """Lots, one after the other over the years: received, opened, counted once, mostly used up."""
    made.bench("tablet 1")
    for number in range(LOTS):
        at_ms = BEGIN_MS + number * SPAN_MS // LOTS
        made.now_ms = at_ms
        lot = LotId(made.new())
        made.lots.append(lot)
        stuff = made.chance.choice(STUFFS)
        received = LotReceived(stuff, 5000.0, NeedUnit.GRAM, "2016-10-20", f"L{number}", "a supplier", life_days=365)
        yield made.event(About.LOT, lot, received, at_ms)
        yield made.event(About.LOT, lot, LotOpened("2016-10-21"), at_ms + DAY_MS)
        if number % 3 == 0:
            yield made.event(About.LOT, lot, LotCounted(3000.0), at_ms + 9 * DAY_MS)
        if number < LOTS - 100:
            yield made.event(About.LOT, lot, LotDiscarded("used up"), at_ms + 60 * DAY_MS)


def editions(made: MadeUp) -> Iterator[Event]:
    """Editions with a mold each and a dozen numbers, which are claimed once all events are in."""
    made.bench("tablet 2")
    for number in range(EDITIONS):
        at_ms = BEGIN_MS + number * SPAN_MS // EDITIONS
        edition, mold = EditionId(made.new()), MoldId(made.new())
        yield made.event(About.MOLD, mold, MoldMade(f"mold {number}", rubber="silicone", stored="shelf 2"), at_ms)
        yield made.event(About.MOLD, mold, MoldInspected(MoldState.GOOD), at_ms + DAY_MS)
        yield made.event(About.EDITION, edition, EditionOpened(f"piece {number}", 12), at_ms)
        for piece in range(1, 13):
            given = NumberGiven(Series.NUMBERED, piece, PieceId(made.new()))
            event = made.event(About.EDITION, edition, given, at_ms + piece * DAY_MS)
            row = {"edition": edition, "series": given.series.value, "number": piece, "piece": given.piece}
            made.claims.append({**row, "event": event.id})
            yield event


def recipes(made: MadeUp) -> Iterator[Event]:
    """Recipes of metals as they were mixed."""
    made.bench("tablet 3")
    for number in range(RECIPES):
        parts = tuple(RecipePart(stuff, made.chance.randrange(1, 5000) / 10) for stuff in STUFFS[:3])
        kept = RecipeKept(f"bronze {number}", RecipeKind.METAL, parts)
        yield made.event(About.RECIPE, RecipeId(made.new()), kept, BEGIN_MS + number * DAY_MS)


def runs(made: MadeUp) -> Iterator[Event]:
    """Runs, several a week, till there are as many events as wanted."""
    made.bench("tablet 4")
    acts = planned_acts(made.plan, 8, 4)
    each = EVENTS // RUNS
    for number in range(RUNS):
        at_ms = BEGIN_MS + number * SPAN_MS // RUNS
        made.now_ms = at_ms
        run = RunId(made.new())
        made.runs.append(run)
        yield from islice(run_events(made, run, acts, at_ms), each - 1)
        if number < RUNS - UNDER_WAY:
            yield made.event(About.RUN, run, Ended(), made.now_ms + 60_000)


def run_events(made: MadeUp, run: RunId, acts: tuple[PlannedAct, ...], at_ms: int) -> Iterator[Event]:
    """What is written in one run: every act begun and done, every cup weighed from lots that stood open then."""
    mixes = {mix.id: mix for mix in made.plan.mixes}
    open_lots = made.lots[max(0, (at_ms - BEGIN_MS) * LOTS // SPAN_MS - 20) :][:20]
    yield made.event(About.RUN, run, Started(made.plan_id, "otter", 8, 4), at_ms)
    for number, planned in enumerate(acts):
        at_ms += made.chance.randrange(60_000, 1_800_000)
        yield made.event(About.RUN, run, Begun(planned.act.step, planned.act.turn), at_ms)
        if number % 12 == 0:
            yield made.event(About.RUN, run, ShopAir(made.chance.uniform(18, 26), 50.0), at_ms)
        for id_ in planned.step.mixes:
            cup = CupRef(id_, planned.act.turn)
            for part in mixes[id_].parts:
                mass_g = round(part.mass_g * made.chance.uniform(0.99, 1.01), 1)
                body = Weighed(cup, part.kind, part.mass_g, mass_g, lot=made.chance.choice(open_lots))
                weighed = made.event(About.RUN, run, body, at_ms + 5_000)
                yield weighed
                if made.chance.random() < 0.02:
                    yield made.event(About.RUN, run, Undone(EventId(weighed.id), "misread"), at_ms + 6_000)
                    yield made.event(About.RUN, run, body, at_ms + 7_000)
            yield made.event(About.RUN, run, Poured(cup), at_ms + 90_000)
        yield made.event(About.RUN, run, Done(planned.act.step, planned.act.turn), at_ms + 120_000)
        if number % 9 == 0:
            yield made.event(About.RUN, run, Noted("stirred well, a few bubbles at the rim"), at_ms + 130_000)
    yield made.event(About.RUN, run, CastMeasured(1, 1830.0), at_ms + 200_000)
