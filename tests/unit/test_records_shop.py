"""The store: what is acknowledged is there, once."""

from __future__ import annotations

import random

import pytest

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.any_events import Noted
from moldwright.log.codes import short_code
from moldwright.log.edition_events import NumberGiven, Series
from moldwright.log.event import About, Event
from moldwright.log.ids import NumberedId, RunId, SubjectId
from moldwright.records.clock import BenchClock
from moldwright.records.find import find
from moldwright.records.shop import Shop

RUN = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))
OTHER = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c073990"))


def notes(count: int, subject: SubjectId = RUN) -> list[Event]:
    clock = BenchClock("tablet 1", "by hand")
    return [clock.event(About.RUN, subject, Noted(f"note {number}")) for number in range(count)]


def test_what_is_sent_twice_and_in_any_order_is_there_once_in_its_order(shop: Shop) -> None:
    sent = notes(1200)
    mixed = [*sent, *sent[:300]]
    random.Random(9).shuffle(mixed)
    kept = shop.append(mixed)
    assert (len(kept.new), len(kept.known)) == (1200, 300)
    assert list(shop.events_of(RUN)) == sent
    assert shop.append(sent).new == ()


def test_another_event_with_an_id_that_is_taken_is_refused_and_nothing_of_its_batch_is_kept(shop: Shop) -> None:
    first, second = notes(2)
    shop.append([first])
    forged = Event(first.id, first.about, first.subject, first.at_ms, first.bench, first.by, Noted("another"))
    with pytest.raises(RecordConflict, match="event-differs"):
        shop.append([second, forged])
    assert shop.events_of(RUN) == (first,)


def test_a_bench_goes_on_from_its_newest_id(shop: Shop) -> None:
    sent = notes(3)
    shop.append(sent)
    clock = BenchClock("tablet 1", now=lambda: 5, last_ms=shop.last_ms("tablet 1"))
    assert clock.event(About.RUN, RUN, Noted("later")).id > sent[-1].id
    assert shop.last_ms("nobody's") == 0


def test_a_thing_is_found_by_id_urn_and_short_code(shop: Shop) -> None:
    shop.append([*notes(1), *notes(1, OTHER)])
    for written in (RUN, f"urn:uuid:{RUN}", short_code(RUN), short_code(RUN).lower().replace("-", "")):
        assert find(shop, About.RUN, written) == RUN
    for written in ("", "FFFF-FFFF", "%", "398", f"{RUN}0"):
        with pytest.raises(InputRefused):
            find(shop, About.RUN, written)


def test_a_number_is_taken_with_its_event_or_neither_is_kept(shop: Shop) -> None:
    clock = BenchClock("tablet 1")
    given = [
        clock.event(About.EDITION, RUN, NumberGiven(Series.NUMBERED, 7, NumberedId(clock.new_id()))) for _ in range(2)
    ]
    shop.append(given[:1])
    with pytest.raises(RecordConflict, match="number-given"):
        shop.append([*notes(1, OTHER), given[1]])
    assert shop.events_of(OTHER) == ()
    assert shop.append(given[:1]).known == (given[0].id,)
    assert shop.events_of(RUN) == (given[0],)
