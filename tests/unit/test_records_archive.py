"""Everything goes out and comes back, whichever engine it lay in: to the byte."""

from __future__ import annotations

import hashlib
import json
import zipfile
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from job_plan_sample import sample_plan
from postgres_server import Server
from shops import EMPTY
from sqlalchemy import select
from varied_shop import HOSTILE, NEWER, documents, fill

from moldwright.archive.lines import EventLine, comes_back, event_in, event_text
from moldwright.archive.read import opened_archive
from moldwright.archive.restore import restore
from moldwright.archive.save import backup, export
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.any_events import Noted, Unread
from moldwright.log.event import About
from moldwright.log.ids import RunId, SubjectId
from moldwright.log.json_text import compact
from moldwright.records.clock import BenchClock
from moldwright.records.editions.numbers import give_number
from moldwright.records.editions.read import editions
from moldwright.records.files.check import FileFault, file_findings
from moldwright.records.files.kept import place_of
from moldwright.records.shop import Shop, open_shop
from moldwright.records.store.tables import EVENT, FILE, NUMBER, PLAN

RUN = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))
Another = Callable[[str], Shop]


@pytest.fixture
def another(tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[Another]:
    """Makes one more empty store of an engine."""
    made: list[Shop] = []

    def of(engine: str) -> Shop:
        place = str(tmp_path / f"other-{len(made)}.db")
        if engine == "postgresql":
            server: Server = request.getfixturevalue("postgres")
            place = server.url(server.database(EMPTY))
        made.append(open_shop(place, tmp_path / f"other-{len(made)}.files"))
        return made[-1]

    yield of
    for each in made:
        each.close()


def put_back(archive: Path, into: Shop) -> None:
    with opened_archive(archive) as found:
        restore(into, found, unreadable=True)


def rows(shop: Shop) -> dict[str, list[tuple[object, ...]]]:
    """All that a store holds, but for the order in which it came."""
    with shop.reading() as connection:
        return {
            table.name: sorted(
                map(tuple, connection.execute(select(*(c for c in table.c if c.name != "arrival")))), key=repr
            )
            for table in (EVENT, PLAN, FILE, NUMBER)
        }


@pytest.mark.parametrize("engine", ["sqlite", "postgresql"])
def test_out_back_and_out_again_is_the_same_to_the_byte(
    shop: Shop, another: Another, tmp_path: Path, engine: str
) -> None:
    fill(shop, sample_plan())
    export(shop, tmp_path / "first.zip")
    into = another(engine)
    put_back(tmp_path / "first.zip", into)
    export(into, tmp_path / "second.zip")
    assert (tmp_path / "first.zip").read_bytes() == (tmp_path / "second.zip").read_bytes()
    assert rows(into) == rows(shop)
    assert file_findings(into) == file_findings(shop)


def test_the_numbers_of_an_edition_stay_given(shop: Shop, another: Another, tmp_path: Path) -> None:
    fill(shop, sample_plan(), rounds=1)
    export(shop, tmp_path / "a.zip")
    into = another("sqlite")
    put_back(tmp_path / "a.zip", into)
    edition, clock = next(each.id for each in editions(into) if each.name == "Otter"), BenchClock("new")
    with pytest.raises(RecordConflict, match="number-given"):
        give_number(into, clock, edition, number=7)
    assert give_number(into, clock, edition).number == 3


@pytest.mark.parametrize("body", [*HOSTILE, NEWER])
def test_any_body_comes_back_to_the_byte_and_its_line_is_one_line_of_json(body: str) -> None:
    line = EventLine("i", "run", "s", "k", 5, "b", "", body)
    text = event_text(line)
    assert "\n" not in text
    assert event_in(text) == line
    assert isinstance(json.loads(text), dict)


def test_a_body_stands_as_an_object_where_that_loses_nothing() -> None:
    """Which do is decided by hand: one spelling of each number, no key twice, an object."""
    objects = {"{}", '{"a":1}', '{"a":100000.0}', '{"a":-0.0}', '{"a":12345678901234567890123}', '{"body":{}}'}
    objects |= {
        '{"a":"\\u0000"}',
        '{"a":0.30000000000000004}',
        '{"a":"ä"}',
        '{"a":"\u2028"}',
        "{" + '"a":{' * 900 + "}" * 901,
    }
    assert {body for body in HOSTILE if comes_back(body)} == objects


def test_what_is_written_while_it_is_read_is_not_in_it_and_waits_for_nothing(shop: Shop, tmp_path: Path) -> None:
    """The archive is of the moment when it began, as long as it takes."""
    clock = BenchClock("one")
    shop.append(clock.event(About.RUN, RUN, Noted(f"note {n}")) for n in range(3000))
    told: list[str] = []

    def meanwhile(stage: str, _: float) -> None:
        if "writing" in stage:
            shop.append([clock.event(About.RUN, RUN, Noted("meanwhile"))])
            told.append(stage)

    kept = export(shop, tmp_path / "a.zip", meanwhile)
    assert kept.events == 3000
    assert len(told) == 3
    assert len(shop.events_of(RUN)) == 3003


def test_what_is_lost_or_damaged_is_told_and_the_rest_is_kept(shop: Shop, another: Another, tmp_path: Path) -> None:
    fill(shop, sample_plan(), rounds=1)
    lost, hurt = sorted(row.hash for row in rows_of_files(shop))[:2]
    place_of(shop.files, lost).unlink()
    place_of(shop.files, hurt).write_bytes(b"gone")
    told = export(shop, tmp_path / "a.zip")
    assert set(told.files_missing) == {lost, hurt}
    assert told.files == len(documents())
    into = another("sqlite")
    put_back(tmp_path / "a.zip", into)
    export(into, tmp_path / "b.zip")
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()
    missing = {each.file for each in file_findings(into) if each.fault is FileFault.MISSING}
    assert missing == {lost, hurt}


def rows_of_files(shop: Shop) -> list[object]:
    with shop.reading() as connection:
        return list(connection.execute(select(FILE.c.hash)))


def test_a_store_that_holds_something_takes_no_archive(shop: Shop, tmp_path: Path) -> None:
    shop.append([BenchClock("one").event(About.RUN, RUN, Noted("there"))])
    export(shop, tmp_path / "a.zip")
    with opened_archive(tmp_path / "a.zip") as found, pytest.raises(InputRefused, match="shop-not-empty"):
        restore(shop, found)
    assert len(shop.events_of(RUN)) == 1


def test_an_event_that_cannot_be_read_is_refused_unless_it_is_wanted(
    shop: Shop, another: Another, tmp_path: Path
) -> None:
    clock = BenchClock("one")
    shop.append([clock.event(About.RUN, RUN, Noted("fine")), clock.event(About.RUN, RUN, Unread("noted", "{}"))])
    export(shop, tmp_path / "a.zip")
    into = another("sqlite")
    with opened_archive(tmp_path / "a.zip") as found, pytest.raises(InputRefused, match="archive-event-unreadable"):
        restore(into, found)
    assert rows(into) == {"event": [], "plan": [], "file": [], "number": []}
    with opened_archive(tmp_path / "a.zip") as found:
        assert restore(into, found, unreadable=True).unreadable == 1


def test_a_backup_has_its_day_and_time_and_never_takes_the_place_of_another(shop: Shop, tmp_path: Path) -> None:
    now = datetime(2026, 11, 27, 9, 5, 7)
    paths = [backup(shop, tmp_path, now)[0] for _ in range(3)]
    names = ["shop-2026-11-27-090507.zip", "shop-2026-11-27-090507-2.zip", "shop-2026-11-27-090507-3.zip"]
    assert [path.name for path in paths] == names
    with pytest.raises(InputRefused, match="file-there"):
        export(shop, paths[0])
    with pytest.raises(InputRefused, match="folder-missing"):
        backup(shop, tmp_path / "stick", now)


def test_any_zip_program_and_sha256sum_can_check_it(shop: Shop, tmp_path: Path) -> None:
    """By the standard library's zip reader and hashlib, in the form of coreutils' `sha256sum -c`."""
    fill(shop, sample_plan(), rounds=1)
    export(shop, tmp_path / "a.zip")
    with zipfile.ZipFile(tmp_path / "a.zip") as archive:
        assert archive.testzip() is None
        sums = dict(reversed(line.split("  ")) for line in archive.read("SHA256SUMS").decode().splitlines())
        assert set(sums) == set(archive.namelist()) - {"SHA256SUMS"}
        assert all(hashlib.sha256(archive.read(name)).hexdigest() == told for name, told in sums.items())
        lines = archive.read("events.jsonl").decode().split("\n")[:-1]
        ids = [json.loads(line)["id"] for line in lines]
    assert ids == sorted(ids)
    assert len(ids) == len(rows(shop)["event"])


@pytest.mark.parametrize("fault", [OSError(28, "No space left on device"), KeyboardInterrupt()], ids=["full", "ctrl-c"])
def test_an_end_in_the_middle_leaves_no_half_archive(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: BaseException
) -> None:
    def ended(*_: object) -> None:
        raise fault

    monkeypatch.setattr("moldwright.archive.container.Parts.finish", ended)
    with pytest.raises((InputRefused, KeyboardInterrupt)):
        export(shop, tmp_path / "a.zip")
    assert [path.name for path in tmp_path.iterdir() if "zip" in path.name] == []


def test_an_end_in_the_middle_of_a_restore_leaves_the_store_empty(shop: Shop, another: Another, tmp_path: Path) -> None:
    fill(shop, sample_plan(), rounds=1)
    export(shop, tmp_path / "a.zip")

    def stopped(stage: str, _: float) -> None:
        if "copying" in stage:
            raise KeyboardInterrupt

    for engine in ("sqlite", "postgresql"):
        into = another(engine)
        with opened_archive(tmp_path / "a.zip") as found, pytest.raises(KeyboardInterrupt):
            restore(into, found, True, stopped)
        assert rows(into) == {"event": [], "plan": [], "file": [], "number": []}
        assert not into.files.exists()
        put_back(tmp_path / "a.zip", into)
        assert rows(into) == rows(shop)


def test_a_stop_after_all_is_kept_takes_nothing_away(
    shop: Shop, tmp_path: Path, another: Another, monkeypatch: pytest.MonkeyPatch
) -> None:
    fill(shop, sample_plan(), rounds=1)
    export(shop, tmp_path / "a.zip")
    into = another("sqlite")
    commit = into.engine.dialect.do_commit

    def stopped(connection: Any) -> None:
        commit(connection)
        raise KeyboardInterrupt

    monkeypatch.setattr(into.engine.dialect, "do_commit", stopped)
    with opened_archive(tmp_path / "a.zip") as found, pytest.raises(KeyboardInterrupt):
        restore(into, found, unreadable=True)
    monkeypatch.undo()
    assert rows(into) == rows(shop)
    assert file_findings(into) == file_findings(shop)


def test_compact_and_the_line_agree() -> None:
    tree = {"ä": [1.5, None, True, {"b": "\u2028"}]}
    assert comes_back(compact(tree))


def test_stores_are_closed(tmp_path: Path) -> None:
    with closing(open_shop(str(tmp_path / "a.db"))) as made:
        assert export(made, tmp_path / "empty.zip").events == 0
