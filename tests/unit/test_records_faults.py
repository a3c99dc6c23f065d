"""What can go wrong with a file of records, on real conditions: a clear refusal, and nothing that was kept is lost."""

from __future__ import annotations

import resource
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, closing, contextmanager
from pathlib import Path
from types import SimpleNamespace

import pytest
from sqlalchemy import event as hooks
from store_events import RUN, filled, kept, notes, somebody

from moldwright.errors import InputRefused
from moldwright.log.any_events import Noted
from moldwright.log.event import About, Event
from moldwright.log.ids import EventId
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop, open_shop
from moldwright.records.store import engine

KILOBYTE = 1024
HOLDER = """
import sqlite3, sys
held = sqlite3.connect(sys.argv[1], isolation_level=None)
held.execute("BEGIN IMMEDIATE")
print("held", flush=True)
sys.stdin.read()
"""
KILLED = """
import os, signal, sys
from store_events import notes
from moldwright.records.shop import open_shop
shop = open_shop(sys.argv[1])
for event in notes(50):
    shop.append([event])
    print(event.id, flush=True)
with shop.writing() as connection:
    from moldwright.records.shop import append_within
    append_within(connection, notes(50, "tablet 2"))
    os.kill(os.getpid(), signal.SIGKILL)
"""


@contextmanager
def page_limit(place: Path) -> Iterator[Shop]:
    """SQLite's own limit on the pages of a file, for the first half of the test."""
    with closing(open_shop(str(place))) as shop:

        def limited(connection: sqlite3.Connection, _: object) -> None:
            connection.execute("PRAGMA max_page_count=60")

        shop.engine.dispose()
        hooks.listen(shop.engine, "connect", limited)
        yield shop
        hooks.remove(shop.engine, "connect", limited)
        shop.engine.dispose()


@contextmanager
def file_limit(place: Path) -> Iterator[Shop]:
    """The system's limit on the size of a file (RLIMIT_FSIZE)."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    with closing(open_shop(str(place))) as shop:
        resource.setrlimit(resource.RLIMIT_FSIZE, (400 * KILOBYTE, before[1]))
        try:
            yield shop
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, before)


@contextmanager
def small_disk(place: Path) -> Iterator[Shop]:
    """A disk of half a megabyte, in memory; more room comes afterwards."""
    mount = ["mount", "-t", "tmpfs", "-o", "size=512k", "tmpfs", str(place.parent)]
    if subprocess.run(mount, check=False, capture_output=True).returncode:
        pytest.skip("this account may mount nothing; the two other limits are tried")
    try:
        with closing(open_shop(str(place))) as shop:
            yield shop
            subprocess.run(["mount", "-o", "remount,size=9m", str(place.parent)], check=True)
        again = shutil.copytree(place.parent, place.parent.parent / "copy")
    finally:
        subprocess.run(["umount", str(place.parent)], check=True)
    shutil.copytree(again, place.parent, dirs_exist_ok=True)


@pytest.mark.parametrize(
    ("limit", "codes"),
    [(page_limit, {"shop-full"}), (file_limit, {"shop-full", "shop-disk-fails"}), (small_disk, {"shop-full"})],
)
def test_a_full_disk_keeps_all_that_was_acknowledged(
    tmp_path: Path, limit: Callable[[Path], AbstractContextManager[Shop]], codes: set[str]
) -> None:
    (tmp_path / "disk").mkdir()
    place = tmp_path / "disk" / "shop.db"
    with limit(place) as shop:
        done, refused = filled(shop)
        assert isinstance(refused, InputRefused)
        assert refused.code in codes, refused
        assert len(done) > 5
        assert kept(shop) == done
    with closing(open_shop(str(place))) as shop:
        assert kept(shop) == done
        more = notes(3, "tablet 2")
        assert len(shop.append([*done, *more]).new) == 3
        with shop.reading() as connection:
            assert connection.exec_driver_sql("PRAGMA integrity_check").scalars().all() == ["ok"]


def test_a_file_that_may_only_be_read_is_read() -> None:
    with somebody() as folder:
        place = folder / "shop.db"
        with closing(open_shop(str(place))) as shop:
            shop.append(sent := notes(3))
        place.chmod(0o444)
        with closing(open_shop(str(place))) as shop:
            assert kept(shop) == sent
            with pytest.raises(InputRefused, match="shop-read-only"):
                shop.append(notes(1, "tablet 2"))
            assert kept(shop) == sent


def test_a_folder_that_may_only_be_read_is_told() -> None:
    with somebody() as folder:
        place = folder / "shop.db"
        with closing(open_shop(str(place))) as shop:
            shop.append(sent := notes(3))
        folder.chmod(0o555)
        with pytest.raises(InputRefused, match="shop-read-only"), closing(open_shop(str(place))) as shop:
            shop.append(notes(1, "tablet 2"))
        with pytest.raises(InputRefused, match="shop-read-only"):
            open_shop(str(folder / "new.db"))
        folder.chmod(0o755)
        with closing(open_shop(str(place))) as shop:
            assert kept(shop) == sent


def test_who_is_locked_out_is_told_and_reads_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engine, "WAIT_S", 0.1)
    place = str(tmp_path / "shop.db")
    with closing(open_shop(place)) as shop:
        sent, late = notes(3), notes(1, "tablet 2")
        shop.append(sent)
        pipe = subprocess.PIPE
        with subprocess.Popen([sys.executable, "-c", HOLDER, place], stdin=pipe, stdout=pipe) as other:
            assert other.stdout is not None
            other.stdout.readline()
            with pytest.raises(InputRefused, match="shop-busy"):
                shop.append(late)
            assert kept(shop) == sent
        assert len(shop.append(late).new) == 1


@pytest.mark.parametrize(
    "content", [b"Bronze 90/10, 640 g, last time too dark\n" * 40, b"SQLite format 3\0" + b"\7" * 5000]
)
def test_a_file_that_is_no_database_is_left_as_it_is(tmp_path: Path, content: bytes) -> None:
    place = tmp_path / "shop.db"
    place.write_bytes(content)
    with pytest.raises(InputRefused, match=r"shop-foreign|shop-damaged"):
        open_shop(str(place))
    assert place.read_bytes() == content


def test_a_folder_in_the_place_of_a_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputRefused, match="shop-unopenable"):
        open_shop(str(tmp_path))


def whole_store(place: Path, count: int = 300) -> list[Event]:
    with closing(open_shop(str(place))) as shop:
        shop.append(sent := notes(count))
    return sent


@pytest.mark.parametrize("where", [0.3, 0.5, 0.7, 0.9])
def test_a_page_with_flipped_bytes_is_told_or_harms_nothing(tmp_path: Path, where: float) -> None:
    """Whatever SQLite and our reading say of it, it is one of our refusals, or the events are what they were."""
    place = tmp_path / "shop.db"
    sent = whole_store(place)
    data = bytearray(place.read_bytes())
    start = int(len(data) * where) // 4096 * 4096
    data[start : start + 4096] = bytes(byte ^ 0xFF for byte in data[start : start + 4096])
    place.write_bytes(data)
    try:
        with closing(open_shop(str(place))) as shop:
            assert kept(shop) == sent
            shop.append(notes(1, "tablet 2"))
    except InputRefused as refused:
        told = refused.code
    else:
        told = ""
    assert told in {"", "shop-damaged", "event-unreadable"}


def test_a_truncated_file_is_told(tmp_path: Path) -> None:
    place = tmp_path / "shop.db"
    whole_store(place)
    with place.open("r+b") as file:
        file.truncate(place.stat().st_size // 2)
    with pytest.raises(InputRefused, match="shop-damaged"), closing(open_shop(str(place))) as shop:
        kept(shop)


def left_by_a_kill(place: Path) -> list[str]:
    """A store of a process that was killed within a transaction: the ids that it had told."""
    done = subprocess.run([sys.executable, "-c", KILLED, str(place)], check=False, capture_output=True, text=True)
    assert done.returncode == -9, done.stderr
    assert Path(f"{place}-wal").stat().st_size > 0
    return done.stdout.split()


def test_the_log_that_a_killed_process_left_is_taken_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTHONPATH", ":".join(sys.path))
    told = left_by_a_kill(tmp_path / "shop.db")
    with closing(open_shop(str(tmp_path / "shop.db"))) as shop:
        assert [event.id for event in kept(shop)] == told


def test_a_file_without_the_log_beside_it_is_an_earlier_state_and_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is only in the log is gone with it: that is why both are moved together (docs/records.md)."""
    monkeypatch.setenv("PYTHONPATH", ":".join(sys.path))
    told = left_by_a_kill(tmp_path / "shop.db")
    (tmp_path / "moved").mkdir()
    shutil.copy(tmp_path / "shop.db", tmp_path / "moved")
    with closing(open_shop(str(tmp_path / "moved" / "shop.db"))) as shop:
        earlier = [event.id for event in kept(shop)]
        assert earlier == told[: len(earlier)]
        shop.append(notes(1, "tablet 3"))


@pytest.mark.parametrize(
    "event",
    [
        Event(EventId("one"), About.RUN, RUN, 5, "tablet", "", Noted("no id")),
        BenchClock("tablet").event(About.RUN, RUN, Noted("half a letter \ud800")),
        BenchClock("tab\0let").event(About.RUN, RUN, Noted("a letter that ends a text")),
        BenchClock("t" * 81).event(About.RUN, RUN, Noted("too long a name")),
        BenchClock("tablet").event(About.RUN, RUN, Noted("before all time"), -1),
        BenchClock("tablet").event(About.RUN, RUN, Noted("after all time"), 1 << 70),
    ],
    ids=["id", "surrogate", "NUL", "long", "before", "after"],
)
def test_what_no_bench_could_have_written_is_refused_alike_by_both(shop: Shop, event: Event) -> None:
    good = notes(1)
    with pytest.raises(InputRefused, match="event-unwritable"):
        shop.append([*good, event])
    assert kept(shop) == []
    assert len(shop.append(good).new) == 1


def test_who_opens_a_file_that_others_read_waits_for_them(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """SQLite refuses at once, and waits for nobody, to put a log beside a file that is being read (its documentation of
    WAL): the first who open a shop together stood in each other's way."""
    place = tmp_path / "shop.db"
    open_shop(str(place)).close()
    with closing(sqlite3.connect(place, isolation_level=None)) as reader:
        assert reader.execute("PRAGMA journal_mode=DELETE").fetchone() == ("delete",)
        reader.execute("BEGIN")
        reader.execute("SELECT count(*) FROM sqlite_master").fetchone()
        waited: list[float] = []

        def end_reading(seconds: float) -> None:
            waited.append(seconds)
            if reader.in_transaction:
                reader.execute("COMMIT")

        monkeypatch.setattr(engine, "time", SimpleNamespace(monotonic=time.monotonic, sleep=end_reading))
        with closing(open_shop(str(place))):
            assert waited
            reader.execute("SELECT count(*) FROM sqlite_master").fetchone()
            assert reader.execute("PRAGMA journal_mode").fetchone() == ("wal",)
