"""Numbers under concurrent users, on both engines: all distinct, none skipped, none without its event."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from pathlib import Path

import pytest
from sqlalchemy import select

from moldwright.errors import RecordConflict
from moldwright.log.edition_events import NumberGiven, PieceState, Series
from moldwright.log.event import About
from moldwright.log.ids import EditionId, PlanId, RunId, SubjectId
from moldwright.log.run_events import Started
from moldwright.records.clock import BenchClock
from moldwright.records.editions.numbers import CastTold, give_number
from moldwright.records.editions.open import open_edition
from moldwright.records.editions.pieces import move_piece
from moldwright.records.editions.read import edition
from moldwright.records.shop import Shop, open_shop
from moldwright.records.store.tables import NUMBER

CLIENTS, EACH = 20, 5
CLOCK = BenchClock("bench 0")


def at_once(place: str, act: object) -> list[object]:
    """What each of twenty clients with its own connection gets; a refusal by its code."""

    def client(number: int) -> object:
        with closing(open_shop(place)) as shop:
            try:
                return act(shop, BenchClock(f"bench {number}"), number)  # type: ignore[operator]
            except RecordConflict as error:
                return error.code

    with ThreadPoolExecutor(CLIENTS) as pool:
        return list(pool.map(client, range(1, CLIENTS + 1)))


def claims_tell_what_events_tell(shop: Shop, id_: EditionId) -> None:
    with shop.reading() as connection:
        rows = {(row.series, row.number, row.piece, row.event) for row in connection.execute(select(NUMBER))}
    events = {
        (event.body.series.value, event.body.number, event.body.piece, event.id)
        for event in shop.events_of(id_)
        if isinstance(event.body, NumberGiven)
    }
    assert rows == events


def test_next_free_numbers_are_all_distinct_and_none_is_skipped(shop: Shop, shop_at: str) -> None:
    id_ = open_edition(shop, CLOCK, "otter", CLIENTS * EACH, 3).id
    got = at_once(shop_at, lambda each, clock, _: [give_number(each, clock, id_).number for _ in range(EACH)])
    numbers = [number for each in got for number in each]  # type: ignore[attr-defined]
    assert sorted(numbers) == list(range(1, CLIENTS * EACH + 1))
    claims_tell_what_events_tell(shop, id_)


def test_of_twenty_who_choose_one_number_one_gets_it(shop: Shop, shop_at: str) -> None:
    id_ = open_edition(shop, CLOCK, "otter", 9).id
    got = at_once(shop_at, lambda each, clock, _: give_number(each, clock, id_, number=7).number)
    assert Counter(got) == {7: 1, "number-given": CLIENTS - 1}
    claims_tell_what_events_tell(shop, id_)


def test_twelve_numbers_for_twenty_who_choose_and_take_the_next(shop: Shop, shop_at: str) -> None:
    """Of twelve numbers all are given once; the eight who come last are refused."""
    id_ = open_edition(shop, CLOCK, "otter", 12).id

    def act(each: Shop, clock: BenchClock, number: int) -> int:
        try:
            chosen = random.Random(number).randint(1, 12) if number % 2 else None
            return give_number(each, clock, id_, number=chosen).number
        except RecordConflict as error:
            if error.code == "edition-full":
                raise
            return give_number(each, clock, id_).number

    got = Counter(at_once(shop_at, act))
    assert got == Counter([*range(1, 13), *["edition-full"] * 8])
    claims_tell_what_events_tell(shop, id_)


def test_one_cast_gets_one_number_though_all_number_it_in_two_editions(shop: Shop, shop_at: str) -> None:
    run = RunId(SubjectId(CLOCK.new_id()))
    shop.append([CLOCK.event(About.RUN, run, Started(PlanId("0" * 64), "otter", 1))])
    ids = [open_edition(shop, CLOCK, name, 30).id for name in ("large", "small")]
    got = at_once(
        shop_at, lambda each, clock, number: give_number(each, clock, ids[number % 2], cast=CastTold(run, 1)).number
    )
    assert Counter(got) == {1: 1, "cast-numbered": CLIENTS - 1}


def test_what_all_sell_at_once_is_sold_once(shop: Shop, shop_at: str) -> None:
    id_ = open_edition(shop, CLOCK, "otter", 1).id
    piece = give_number(shop, CLOCK, id_).id
    got = at_once(
        shop_at, lambda each, clock, number: move_piece(each, clock, id_, piece, PieceState.SOLD, f"{number}").state
    )
    assert Counter(got) == {PieceState.SOLD: 1, "piece-elsewhere": CLIENTS - 1}


def test_all_open_one_edition_and_there_is_one(shop_at: str) -> None:
    got = at_once(shop_at, lambda each, clock, _: open_edition(each, clock, "otter", 3).size)
    assert Counter(got) == {3: 1, "edition-named": CLIENTS - 1}


CLIENT = """
import sys
from moldwright.log.edition_events import Series
from moldwright.records.clock import BenchClock
from moldwright.records.editions.numbers import give_number
from moldwright.records.shop import open_shop
shop, clock = open_shop(sys.argv[1]), BenchClock(f"bench {sys.argv[3]}")
while True:
    print(give_number(shop, clock, sys.argv[2]).number, flush=True)
"""


@contextmanager
def client(place: str, id_: EditionId, number: int, said: Path) -> Iterator[subprocess.Popen[bytes]]:
    with said.open("wb") as out:
        found = subprocess.Popen([sys.executable, "-c", CLIENT, place, id_, str(number)], stdout=out)
    try:
        yield found
    finally:
        found.kill()
        found.wait()


def test_killed_clients_leave_no_number_without_its_event(shop: Shop, shop_at: str, tmp_path: Path) -> None:
    """What a client was told is there, and so is every number before the highest but none twice."""
    id_ = open_edition(shop, CLOCK, "otter", 100_000).id
    chance = random.Random(8)
    said = [tmp_path / f"said-{number}" for number in range(4)]
    for start in (0, 2):
        with client(shop_at, id_, start, said[start]) as one, client(shop_at, id_, start + 1, said[start + 1]) as two:
            wait_for(said[start : start + 2])
            for each in (one, two):
                time.sleep(chance.uniform(0.0, 0.3))
                os.kill(each.pid, signal.SIGKILL)
    told = [int(line) for each in said for line in each.read_text().splitlines()]
    last = give_number(shop, CLOCK, id_).number
    assert len(set(told)) == len(told) >= 4
    assert set(told) <= edition(shop, id_).spent(Series.NUMBERED) == set(range(1, last + 1))
    claims_tell_what_events_tell(shop, id_)


def wait_for(said: list[Path]) -> None:
    """Until each client has a number."""
    for _ in range(1200):
        if all(each.stat().st_size for each in said):
            return
        time.sleep(0.05)
    pytest.fail("the clients gave no number in a minute")
