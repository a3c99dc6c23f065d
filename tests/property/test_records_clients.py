"""Twenty clients at once, some events sent twice, in any order: the store is as if one had sent them in order."""

from __future__ import annotations

import random
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import func, select

from moldwright.log.any_events import Noted, Undone
from moldwright.log.event import About, Body, Event, order_of
from moldwright.log.ids import EventId, LotId, RunId, SubjectId
from moldwright.log.run_events import CupRef, ShopAir, Weighed
from moldwright.log.standing import standing
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import PartKind
from moldwright.records.check.whole import checked
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop, open_shop
from moldwright.records.stock.weighed import weighed_since
from moldwright.records.store.tables import EVENT

CLIENTS, RUNS, LOTS = 20, 50, 12
BEGIN_MS = 1_800_000_000_000
"""2027-01-15 08:00 UTC."""


def written(count: int, chance: random.Random) -> list[Event]:
    """What twenty benches wrote, in the order in which it happened: weighings, air, notes, lines through some of it."""
    said = iter(range(BEGIN_MS, BEGIN_MS + 1000 * count, 1000))
    benches = [BenchClock(f"tablet {number}", now=lambda: at_ms) for number in range(CLIENTS)]
    at_ms = BEGIN_MS
    runs = [RunId(SubjectId(benches[0].new_id())) for _ in range(RUNS)]
    lots = [LotId(SubjectId(benches[0].new_id())) for _ in range(LOTS)]
    events: list[Event] = []
    for at_ms in said:  # noqa: B007 (the benches' clocks say it)
        bodies: list[Body] = [Noted("warm"), ShopAir(21.5, 48.0)]
        mass_g = chance.randrange(1, 4000) / 8
        weighed = Weighed(CupRef(MixId("coat-1.cup-1")), PartKind.A, 80.0, mass_g, lot=chance.choice(lots))
        body = chance.choice([*bodies, weighed, weighed])
        run = chance.choice(runs)
        if events and chance.random() < 0.05:
            struck = chance.choice(events)
            run, body = RunId(struck.subject), Undone(EventId(struck.id))
        events.append(chance.choice(benches).event(About.RUN, run, body))
    return events


def sent(events: Sequence[Event], chance: random.Random) -> list[list[Event]]:
    """A tenth of the events twice, all shuffled, in batches of 1 to 60."""
    mixed = [*events, *chance.sample(events, len(events) // 10)]
    chance.shuffle(mixed)
    batches = []
    while mixed:
        size = chance.randint(1, 60)
        batches.append(mixed[:size])
        mixed = mixed[size:]
    return batches


def deliver(place: str, batches: Sequence[Sequence[Event]]) -> Counter[str]:
    """Twenty clients with a connection each; how many events were new, and how many known."""

    def client(number: int) -> Counter[str]:
        told: Counter[str] = Counter()
        with closing(open_shop(place)) as shop:
            for batch in batches[number::CLIENTS]:
                kept = shop.append(batch)
                told.update(new=len(kept.new), known=len(kept.known))
        return told

    with ThreadPoolExecutor(CLIENTS) as pool:
        return sum(pool.map(client, range(CLIENTS)), Counter())


def weighed_by_hand(events: Sequence[Event]) -> dict[str, float]:
    """Grams by lot of what no line goes through; masses are eighths of a gram, so that sums are exact."""
    struck = {event.body.event for event in events if isinstance(event.body, Undone)}
    sums: dict[str, float] = defaultdict(float)
    for event in events:
        if isinstance(event.body, Weighed) and event.body.lot and event.id not in struck:
            sums[event.body.lot] += event.body.mass_g
    return dict(sums)


def by_subject(events: Sequence[Event]) -> Iterator[tuple[SubjectId, list[Event]]]:
    sorted_: dict[SubjectId, list[Event]] = defaultdict(list)
    for event in sorted(events, key=order_of):
        sorted_[event.subject].append(event)
    yield from sorted_.items()


def same(shop: Shop, events: Sequence[Event]) -> None:
    """The state is that of the events in order, and no event is there twice."""
    for subject, expected in by_subject(events):
        found = shop.events_of(subject)
        assert list(found) == expected
        assert standing(found) == standing(expected)
    sums = weighed_by_hand(events)
    with shop.reading() as connection:
        counted = connection.execute(select(func.count(), func.count(EVENT.c.id.distinct()))).one()
        assert tuple(counted) == (len(events), len(events))
        left = weighed_since(connection, {LotId(SubjectId(lot)): (0, "") for lot in sums})
    assert left == sums


def all_together(place: str, files: Path, count: int, seed: int) -> None:
    chance = random.Random(seed)
    events = written(count, chance)
    told = deliver(place, sent(events, chance))
    assert told == Counter(new=count, known=count // 10)
    with closing(open_shop(place)) as shop:
        same(shop, events)
    assert checked(place, files).sound


def test_two_thousand_events_of_twenty_clients(shop_at: str, tmp_path: Path) -> None:
    all_together(shop_at, tmp_path, 2_000, 9)


@pytest.mark.slow
def test_fifty_thousand_events_of_twenty_clients(shop_at: str, tmp_path: Path) -> None:
    all_together(shop_at, tmp_path, 50_000, 10)
