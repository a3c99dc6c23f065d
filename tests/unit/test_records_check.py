"""`shop check` finds what is amiss, each tampering by its own kind, and nothing in a sound store."""

from __future__ import annotations

import json
import zlib
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

import pytest
from sqlalchemy import insert, text
from store_events import RUN, notes

from moldwright.errors import InputRefused
from moldwright.log.any_events import Attached, Noted, Undone
from moldwright.log.edition_events import NumberGiven, Series
from moldwright.log.event import About, Event
from moldwright.log.ids import EditionId, EventId, LotId, NumberedId, PlanId, SubjectId
from moldwright.log.run_events import CupRef, Started, Weighed
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import PartKind
from moldwright.plan.plan import SCHEMA_VERSION
from moldwright.records.check.finding import Amiss, Gravity
from moldwright.records.check.whole import checked
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.files.keep import keep_file
from moldwright.records.shop import Shop, append_within, open_shop
from moldwright.records.store.tables import PLAN

CLOCK = BenchClock("tablet 1", "Kim")
LOT, EDITION = LotId(SubjectId(CLOCK.new_id())), EditionId(SubjectId(CLOCK.new_id()))
PLAN_TEXT = json.dumps({"schema_version": SCHEMA_VERSION}).encode()
PLAN_ID = PlanId(sha256(PLAN_TEXT).hexdigest())
YEAR_MS = 31_557_600_000


class At(NamedTuple):
    """Where a store is, and where its files are."""

    place: str
    files: Path


def sound_store(place: At) -> dict[str, Event]:
    """A store with one of each that a check looks at."""
    cup = CupRef(MixId("coat-1.cup-1"))
    piece = NumberedId(CLOCK.new_id())
    with closing(open_shop(*place)) as shop:
        photo = keep_file(shop, b"lot label, written by hand\n", "label.txt")
        bodies = {
            "started": Started(PLAN_ID, "otter", 12),
            "weighed": Weighed(cup, PartKind.A, 82.8, 83.0, lot=LOT),
            "noted": Noted("warm"),
            "attached": Attached(photo, "label"),
        }
        events = {name: CLOCK.event(About.RUN, RUN, body) for name, body in bodies.items()}
        events["undone"] = CLOCK.event(About.RUN, RUN, Undone(events["noted"].id))
        given = CLOCK.event(About.EDITION, EDITION, NumberGiven(Series.NUMBERED, 17, piece))
        with shop.writing() as connection:
            append_within(connection, [*events.values(), given])
            kept = {"id": PLAN_ID, "name": "otter", "kept_ms": 5, "packed": zlib.compress(PLAN_TEXT)}
            connection.execute(insert(PLAN), kept)
    return {**events, "given": given}


@pytest.fixture
def place(shop_at: str, tmp_path: Path) -> At:
    return At(shop_at, tmp_path / "files")


def found(place: At) -> dict[Amiss, int]:
    return {each.kind: each.count for each in checked(*place).findings}


@contextmanager
def tampering(place: At) -> Iterator[Callable[..., None]]:
    """Orders that no part of the software ever gives."""
    with closing(open_shop(*place)) as shop, shop.writing() as connection:
        yield lambda order, **values: connection.execute(text(order), values)  # type: ignore[misc]


def test_a_sound_store_has_nothing_to_tell(place: At) -> None:
    sound_store(place)
    told = checked(*place)
    assert (told.findings, told.sound, told.events, told.subjects) == ((), True, 6, 2)


@pytest.mark.parametrize(
    ("order", "expected"),
    [
        ("UPDATE event SET mass_g = 8.3 WHERE kind = 'weighed'", Amiss.ALTERED),
        ("UPDATE event SET lot = NULL WHERE kind = 'weighed'", Amiss.ALTERED),
        ("UPDATE event SET undoes = NULL WHERE kind = 'undone'", Amiss.ALTERED),
        ("UPDATE event SET body = '{' WHERE kind = 'noted'", Amiss.UNREADABLE),
        ("UPDATE event SET body = '{\"text\": 5}' WHERE kind = 'noted'", Amiss.UNREADABLE),
        ("UPDATE event SET about = 'moon' WHERE kind = 'noted'", Amiss.UNREADABLE),
        ("UPDATE event SET at_ms = 9000 WHERE kind = 'noted'", Amiss.EARLY),
        ("UPDATE event SET kind = 'danced' WHERE kind = 'noted'", Amiss.UNKNOWN),
        ("UPDATE plan SET packed = :bytes", Amiss.PLAN_DAMAGED),
        ("DELETE FROM plan", Amiss.PLAN_MISSING),
        ("DELETE FROM number", Amiss.NUMBER),
        ("UPDATE number SET number = 18", Amiss.NUMBER),
        ("UPDATE number SET piece = 'another'", Amiss.NUMBER),
        ("DELETE FROM file", Amiss.FILE_NEVER),
    ],
)
def test_a_tampered_row_is_told(place: At, order: str, expected: Amiss) -> None:
    sound_store(place)
    with tampering(place) as do:
        do(order, **({"bytes": b"no plan"} if ":bytes" in order else {}))
    told = checked(*place)
    counts = {each.kind: each.count for each in told.findings}
    assert counts.pop(expected) == 1
    assert set(counts) <= {Amiss.FILE_STRANGE}, counts
    assert told.sound == (expected.gravity is not Gravity.CONTRADICTION)


def test_a_field_that_came_later_or_is_newer_is_no_contradiction(place: At) -> None:
    sound_store(place)
    with tampering(place) as do:
        do("UPDATE event SET body = :body WHERE kind = 'noted'", body='{"text":"warm","newer":[1]}')
    assert found(place) == {}
    with tampering(place) as do:
        do("UPDATE event SET body = :body WHERE kind = 'noted'", body='{"text":"warm","turn":0.0}')
    assert found(place) == {Amiss.UNREADABLE: 1}


def test_lines_through_nothing_and_through_another_things_event_are_told(place: At) -> None:
    events = sound_store(place)
    early = CLOCK.event(About.RUN, RUN, Undone(EventId(CLOCK.new_id())))
    stray = CLOCK.event(About.EDITION, EDITION, Undone(events["weighed"].id))
    with closing(open_shop(*place)) as shop:
        shop.append([early, stray])
    assert found(place) == {Amiss.EARLY_LINE: 1, Amiss.STRAY_LINE: 1}


def test_times_are_told_by_bench(place: At) -> None:
    sound_store(place)
    clock = BenchClock("tablet 2", now=lambda: now_ms() + YEAR_MS)
    late = BenchClock("tablet 2", last_ms=now_ms() + YEAR_MS)
    sent = [clock.event(About.RUN, RUN, Noted("a year ahead")), late.event(About.RUN, RUN, Noted("set right"))]
    with closing(open_shop(*place)) as shop:
        shop.append(sent)
    told = checked(*place)
    assert [(each.kind, each.which) for each in told.findings] == [
        (Amiss.AHEAD, (f"{sent[0].id} by tablet 2",)),
        (Amiss.SET_BACK, (f"{sent[1].id} by tablet 2",)),
    ]
    assert told.sound


def test_lost_and_changed_files_are_told(place: At) -> None:
    sound_store(place)
    (kept,) = (path for path in place.files.rglob("*") if path.is_file())
    kept.write_bytes(b"something else")
    assert found(place) == {Amiss.FILE_DAMAGED: 1}
    kept.unlink()
    assert found(place) == {Amiss.FILE_MISSING: 1}
    (place.files / "sandwich.jpg").write_bytes(b"butter")
    assert found(place) == {Amiss.FILE_MISSING: 1, Amiss.FILE_STRANGE: 1}


def test_a_damaged_page_hides_nothing_else(tmp_path: Path) -> None:
    """One page of the events is spoiled: the rest is looked at all the same."""
    place = tmp_path / "shop.db"
    sound_store(At(str(place), tmp_path / "shop.files"))
    with closing(open_shop(str(place))) as shop:
        shop.append(notes(400))
    data = bytearray(place.read_bytes())
    middle = data.index(b"200 resin") // 4096 * 4096
    data[middle : middle + 4096] = b"\x55" * 4096
    place.write_bytes(data)
    told = checked(str(place))
    assert not told.sound
    kinds = {each.kind for each in told.findings}
    assert kinds & {Amiss.DATABASE, Amiss.UNREADABLE}
    assert Amiss.PLAN_DAMAGED not in kinds


def test_one_finder_that_fails_ends_no_other(place: At) -> None:
    def fails(shop: Shop) -> Iterator[tuple[Amiss, str]]:
        raise InputRefused("files-folder-untold", "a store on a server")
        yield Amiss.LINK, ""

    def tells(shop: Shop) -> Iterator[tuple[Amiss, str]]:
        yield Amiss.LINK, "here"

    sound_store(place)
    told = checked(*place, (fails, tells))
    assert [each.kind for each in told.findings] == [Amiss.LINK, Amiss.UNSEEN]


def test_a_place_without_a_store_is_refused_and_none_is_made(tmp_path: Path) -> None:
    with pytest.raises(InputRefused, match="shop-missing"):
        checked(str(tmp_path / "shop.db"))
    assert list(tmp_path.iterdir()) == []
    (tmp_path / "shop.db").touch()
    with pytest.raises(InputRefused, match="shop-missing"):
        checked(str(tmp_path / "shop.db"))
    (tmp_path / "shop.db").write_bytes(b"resin\n" * 999)
    with pytest.raises(InputRefused, match="shop-foreign"):
        checked(str(tmp_path / "shop.db"))


def test_codes_stand_once() -> None:
    assert len({kind.code for kind in Amiss}) == len(Amiss)
