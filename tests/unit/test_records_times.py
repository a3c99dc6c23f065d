"""Clocks that are wrong: ids rise all the same, events are kept in a sensible order, and the doubt is told."""

from __future__ import annotations

from store_events import RUN, kept

from moldwright.log.any_events import Noted
from moldwright.log.event import About
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.doubts import TimeDoubt, doubts
from moldwright.records.shop import Shop

MINUTE, HOUR, YEAR = 60_000, 3_600_000, 31_557_600_000
NOON = 1_800_000_000_000
"""2027-01-15 08:00 UTC."""


def bench(*readings: int, last_ms: int = 0) -> BenchClock:
    """A bench whose clock says these, one after the other."""
    said = iter(readings)
    return BenchClock("tablet 1", now=lambda: next(said), last_ms=last_ms)


def times(clock: BenchClock, count: int) -> list[tuple[int, str]]:
    found = [clock.event(About.RUN, RUN, Noted(f"{number}")) for number in range(count)]
    return [(event.at_ms, event.id) for event in found]


def test_a_clock_that_is_set_right_by_minutes_goes_on_in_order() -> None:
    found = times(bench(NOON, NOON - 5 * MINUTE, NOON + MINUTE), 3)
    assert [at for at, _ in found] == [NOON, NOON, NOON + MINUTE]
    assert sorted(found) == found


def test_a_clock_that_was_years_ahead_is_believed_once_it_is_set_right_and_ids_rise_all_the_same() -> None:
    (first, one), (second, two) = times(bench(NOON + 4 * YEAR, NOON), 2)
    assert (first, second) == (NOON + 4 * YEAR, NOON)
    assert two > one


def test_a_clock_that_was_never_set_goes_on_from_the_last_one() -> None:
    """After a flat battery it says 1970: what is written then follows what the bench wrote before."""
    found = times(bench(5, 65_000, last_ms=NOON), 2)
    assert [at for at, _ in found] == [NOON + 1, NOON + 1]
    assert sorted(found) == found


def test_doubts_of_events_by_hand() -> None:
    clock = bench(NOON + 3 * HOUR, NOON, NOON)
    ahead, back = (clock.event(About.RUN, RUN, Noted(name)) for name in ("ahead", "back"))
    typed = bench(NOON).event(About.RUN, RUN, Noted("from paper"), NOON - YEAR)
    slight = bench(NOON + 9 * MINUTE).event(About.RUN, RUN, Noted("slight"))
    found = doubts([ahead, back, typed, slight], NOON)
    assert [(each.event, each.what, each.by_ms) for each in found] == [
        (ahead.id, TimeDoubt.AHEAD, 3 * HOUR),
        (back.id, TimeDoubt.SET_BACK, 3 * HOUR),
    ]


def test_a_doubtful_event_is_kept_and_told(shop: Shop) -> None:
    clock = bench(now_ms() + YEAR, now_ms())
    ahead, back = (clock.event(About.RUN, RUN, Noted(name)) for name in ("ahead", "back"))
    told = shop.append([ahead, back]).doubts
    assert [each.what for each in told] == [TimeDoubt.AHEAD, TimeDoubt.SET_BACK]
    assert shop.doubts == [*told]
    assert kept(shop) == [back, ahead]
