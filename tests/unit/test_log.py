"""Events as JSON and back, and their ids: RFC 9562."""

from __future__ import annotations

import json
from uuid import UUID

import pytest

from moldwright.errors import InputRefused
from moldwright.log.any_events import Noted, Undone, Unread
from moldwright.log.event import About
from moldwright.log.ids import SubjectId
from moldwright.log.json_text import body_of, body_text, kind_of
from moldwright.log.kinds import KINDS, NAMES
from moldwright.log.run_events import CupRef, ShopAir, Weighed
from moldwright.log.standing import standing
from moldwright.log.uuid7 import is_uuid7, time_ms, uuid7
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import PartKind
from moldwright.records.clock import BenchClock

RUN_ID = SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")
WEIGHED = Weighed(CupRef(MixId("coat-1.cup-1")), PartKind.A, 32.4, 32.5, 64.9)


def test_an_id_is_read_by_the_standard_library_as_version_7() -> None:
    """The fields lie where RFC 9562, 5.7 puts them, as `uuid.UUID` reads version and variant."""
    made = UUID(uuid7(1_700_000_000_123, (1 << 74) - 1))
    assert (made.version, made.variant) == (7, "specified in RFC 4122")
    assert time_ms(str(made)) == 1_700_000_000_123
    assert is_uuid7(str(made))
    assert not is_uuid7(str(UUID(int=made.int & ~(0xF << 76) | 4 << 76)))


def test_ids_of_a_bench_rise_though_its_clock_is_set_back() -> None:
    times = iter([1000, 1000, 1000, 400, 400, 1001, 900])
    clock = BenchClock("one", now=lambda: next(times))
    ids = [clock.new_id() for _ in range(7)]
    assert ids == sorted(ids)
    assert len(set(ids)) == 7
    assert [time_ms(each) for each in ids] == [1000, 1000, 1000, 1000, 1000, 1001, 1001]


def test_a_body_comes_back_from_its_text() -> None:
    assert body_of("weighed", body_text(WEIGHED)) == WEIGHED
    assert kind_of(WEIGHED) == "weighed"


def test_a_field_that_came_later_has_its_default_and_one_that_is_newer_still_is_passed_over() -> None:
    tree = json.loads(body_text(WEIGHED))
    older = {name: tree[name] for name in ("cup", "part", "target_g", "mass_g")}
    older["cup"] = {"mix": "coat-1.cup-1"}
    assert body_of("weighed", json.dumps(older)) == Weighed(CupRef(MixId("coat-1.cup-1")), PartKind.A, 32.4, 32.5)
    assert body_of("shop-air", '{"temperature_c": 21.5, "pressure_hpa": 1000}') == ShopAir(21.5)


def test_an_unknown_kind_is_kept_as_it_came() -> None:
    assert body_of("torque", '{"nm": 2}') == Unread("torque", '{"nm": 2}')
    assert body_text(Unread("torque", '{"nm": 2}')) == '{"nm": 2}'


@pytest.mark.parametrize("text", ["", "{", "[]", '{"temperature_c": "warm"}', "{}", "null", "[" * 5000])
def test_a_torn_body_is_refused(text: str) -> None:
    with pytest.raises(InputRefused, match="event-unreadable"):
        body_of("shop-air", text)


def test_every_kind_has_one_name() -> None:
    assert len(NAMES) == len(KINDS)


def test_what_has_a_line_through_it_counts_in_nothing_and_a_line_through_a_line_takes_nothing_back() -> None:
    clock = BenchClock("tablet 1")
    first, second = (clock.event(About.RUN, RUN_ID, Noted(text)) for text in ("a", "b"))
    line = clock.event(About.RUN, RUN_ID, Undone(first.id))
    again = clock.event(About.RUN, RUN_ID, Undone(line.id))
    for events in ([first, second, line], [again, line, second, first, line, second]):
        assert standing(events) == (second,)
