"""An archive from anybody: cut off, altered, packed to burst, made to write elsewhere; refused, and nothing is left."""

from __future__ import annotations

import hashlib
import io
import json
import random
import warnings
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from job_plan_sample import sample_plan
from sqlalchemy import select
from varied_shop import fill

from moldwright.archive.read import opened_archive
from moldwright.archive.restore import restore
from moldwright.archive.save import export
from moldwright.errors import InputRefused
from moldwright.log.any_events import Noted
from moldwright.log.event import About
from moldwright.log.ids import RunId, SubjectId
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop, open_shop
from moldwright.records.store.tables import EVENT, FILE, PLAN

RUN = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))
SEAL = b"moldwright-archive SHA-256 "
Parts = dict[str, bytes]


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A sound archive of a varied shop."""
    home = tmp_path_factory.mktemp("whole")
    shop = open_shop(str(home / "shop.db"))
    fill(shop, sample_plan(), rounds=1)
    export(shop, home / "a.zip")
    shop.close()
    return (home / "a.zip").read_bytes()


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A sound archive of two notes."""
    home = tmp_path_factory.mktemp("small")
    shop, clock = open_shop(str(home / "shop.db")), BenchClock("one")
    shop.append(clock.event(About.RUN, RUN, Noted(text)) for text in ("first", "second"))
    export(shop, home / "a.zip")
    shop.close()
    return (home / "a.zip").read_bytes()


def parts_of(archive: bytes) -> Parts:
    with zipfile.ZipFile(io.BytesIO(archive)) as opened:
        return {name: opened.read(name) for name in opened.namelist()}


def forged(parts: list[tuple[str, bytes]], sums: bytes | None = None, method: int = zipfile.ZIP_DEFLATED) -> bytes:
    """An archive with these parts, summed and sealed as the page on the format tells, by the standard library."""
    told = "".join(f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in sorted(parts)).encode()
    out = io.BytesIO()
    with warnings.catch_warnings(), zipfile.ZipFile(out, "w", method) as opened:
        warnings.simplefilter("ignore")
        for name, data in [*parts, ("SHA256SUMS", told if sums is None else sums)]:
            opened.writestr(name, data, zipfile.ZIP_STORED if name.startswith("files/") else method)
        opened.comment = SEAL + b"0" * 64
    body = out.getvalue()[:-64]
    return body + hashlib.sha256(body).hexdigest().encode()


def refused(shop: Shop, archive: bytes, tmp_path: Path) -> InputRefused:
    """How it is refused; the store is as empty as before."""
    (tmp_path / "stranger.zip").write_bytes(archive)
    with pytest.raises(InputRefused) as caught, opened_archive(tmp_path / "stranger.zip") as found:
        restore(shop, found)
    with shop.reading() as connection:
        assert [connection.execute(select(table)).first() for table in (EVENT, PLAN, FILE)] == [None] * 3
    assert not shop.files.exists()
    assert {path.name for path in tmp_path.iterdir()} <= {"stranger.zip", "shop.db", "shop.db-wal", "shop.db-shm"}
    assert caught.value.remedy
    return caught.value


def test_what_is_forged_here_as_it_should_be_is_taken(shop: Shop, whole: bytes, tmp_path: Path) -> None:
    parts = parts_of(whole)
    parts.pop("SHA256SUMS")
    (tmp_path / "a.zip").write_bytes(forged(list(parts.items())))
    with opened_archive(tmp_path / "a.zip") as found:
        assert restore(shop, found, unreadable=True).events == parts["events.jsonl"].count(b"\n")


def test_every_byte_counts(small: bytes, tmp_path: Path) -> None:
    """Each single byte altered, once; where in the file does not matter: names, times, tables, gaps, seal."""
    path = tmp_path / "a.zip"
    chance = random.Random(9)
    for at in range(len(small)):
        path.write_bytes(small[:at] + bytes([small[at] ^ chance.randrange(1, 256)]) + small[at + 1 :])
        with pytest.raises(InputRefused, match=r"archive-(damaged|foreign)"), opened_archive(path):
            pass


def test_every_end_counts(small: bytes, tmp_path: Path) -> None:
    path = tmp_path / "a.zip"
    for length in range(len(small)):
        path.write_bytes(small[:length])
        with pytest.raises(InputRefused, match=r"archive-(damaged|foreign)"), opened_archive(path):
            pass
    path.write_bytes(small + b"\n")
    with pytest.raises(InputRefused, match="archive-damaged"), opened_archive(path):
        pass


@pytest.mark.parametrize("name", [
    "../evil", "/etc/passwd", "files/../../evil", "files\\..\\evil", "C:\\evil", "files/", "plans/", "evil.txt",
    "files/" + "A" * 64, "files/" + "a" * 63, "plans/" + "a" * 64, "files/" + "a" * 64 + "/x",
    "files/" + "a" * 64 + "\n",
])  # fmt: skip
def test_a_part_with_any_other_name_is_refused(shop: Shop, small: bytes, tmp_path: Path, name: str) -> None:
    parts = [*parts_of(small).items(), (name, b"evil")]
    archive = forged([(n, d) for n, d in parts if n != "SHA256SUMS"])
    assert refused(shop, archive, tmp_path).code == "archive-damaged"


def test_two_parts_of_one_name_are_refused(shop: Shop, small: bytes, tmp_path: Path) -> None:
    parts = [(name, data) for name, data in parts_of(small).items() if name != "SHA256SUMS"]
    error = refused(shop, forged([*parts, ("events.jsonl", b"")]), tmp_path)
    assert "two parts" in str(error.actual)


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("plans/" + "a" * 64 + ".json", "archive-bomb"),
        ("archive.json", "archive-bomb"),
        ("events.jsonl", "archive-damaged"),
        ("plans.jsonl", "archive-damaged"),
    ],
)
def test_what_swells_beyond_measure_is_refused(shop: Shop, small: bytes, tmp_path: Path, name: str, code: str) -> None:
    """Deflate packs zeros to a thousandth: 50 MB lie in 50 kB. Of a list no more is read than its first line."""
    parts = {**parts_of(small), name: bytes(50_000_000)}
    parts.pop("SHA256SUMS")
    assert refused(shop, forged(list(parts.items())), tmp_path).code == code


def test_a_list_longer_than_there_are_parts_is_not_read_to_its_end(shop: Shop, whole: bytes, tmp_path: Path) -> None:
    """A line of files.jsonl two hundred thousand times."""
    parts = parts_of(whole)
    parts.pop("SHA256SUMS")
    parts["files.jsonl"] = parts["files.jsonl"].partition(b"\n")[0] + b"\n"
    parts["files.jsonl"] *= 200_000
    assert refused(shop, forged(list(parts.items())), tmp_path).code == "archive-damaged"
    about(files=200_000)(parts)
    assert "more or fewer" in str(refused(shop, forged(list(parts.items())), tmp_path).actual)


def about(**changed: object) -> Callable[[Parts], None]:
    def change(parts: Parts) -> None:
        parts["archive.json"] = json.dumps({**json.loads(parts["archive.json"]), **changed}).encode()

    return change


def lines(change: Callable[[list[bytes]], list[bytes]], name: str = "events.jsonl") -> Callable[[Parts], None]:
    def changed(parts: Parts) -> None:
        parts[name] = b"\n".join([*change(parts[name].split(b"\n")[:-1]), b""])

    return changed


def put(old: bytes, new: bytes, name: str = "events.jsonl") -> Callable[[Parts], None]:
    def changed(parts: Parts) -> None:
        assert old in parts[name]
        parts[name] = parts[name].replace(old, new)

    return changed


def plan_of_another_text(parts: Parts) -> None:
    name = next(each for each in parts if each.startswith("plans/"))
    parts[name] += b" "


def last_file_longer(rows: list[bytes]) -> list[bytes]:
    """Those before it are laid by then, and are gone again."""
    last = json.loads(rows[-1])
    told = {**last, "bytes": last["bytes"] + 1}
    return [*rows[:-1], json.dumps(told, ensure_ascii=False, separators=(",", ":")).encode()]


def file_of_other_bytes(parts: Parts) -> None:
    name = next(each for each in parts if each.startswith("files/"))
    parts[name] = parts[name][:-1] + b"?"


def without(start: str) -> Callable[[Parts], None]:
    def changed(parts: Parts) -> None:
        parts.pop(next(each for each in parts if each.startswith(start)))

    return changed


SEVEN, BEFORE = b'"at_ms":7,"at":"1970-01-01T00:00:00.007Z"', b'"at_ms":-7,"at":"1969-12-31T23:59:59.993Z"'
REFUSED: dict[str, tuple[Callable[[Parts], None], str]] = {
    "newer": (about(version=2), "archive-newer"),
    "other format": (about(format="another"), "archive-foreign"),
    "version in words": (about(version="1"), "archive-foreign"),
    "no count": (about(events=None), "archive-damaged"),
    "an event less than told": (about(events=3), "archive-damaged"),
    "a shop without an id": (about(shop={"id": "../x", "made_ms": 0}), "archive-damaged"),
    "no json": (put(b"{", b"(", "archive.json"), "archive-damaged"),
    "nested json": (put(b"{", b"[" * 100_000, "archive.json"), "archive-damaged"),
    "a blank more": (put(b'"kind":', b'"kind": '), "archive-damaged"),
    "a field more": (put(b'"kind":', b'"more":1,"kind":'), "archive-damaged"),
    "a time that does not fit": (put(b'"at":"1970', b'"at":"1971'), "archive-damaged"),
    "in another order": (lines(lambda each: each[::-1]), "archive-damaged"),
    "one twice": (lines(lambda each: [each[0], *each]), "archive-damaged"),
    "one left out": (lines(lambda each: each[1:]), "archive-damaged"),
    "no line end": (lambda parts: parts.update({"events.jsonl": parts["events.jsonl"][:-1]}), "archive-damaged"),
    "no letters": (put(b"tablet", b"\xff\xfe"), "archive-damaged"),
    "an unknown thing": (put(b'"about":"run"', b'"about":"hat"'), "archive-event-unreadable"),
    "an unreadable body": (put(b':21.50', b':\\"warm\\"'), "archive-event-unreadable"),
    "a long name of a bench": (put(b'"bench":"tablet 1"', b'"bench":"%s"' % (b"x" * 81)), "archive-unfit"),
    "half letters": (put(b'"bench":"tablet 1"', b'"bench":"\\ud800"'), "archive-damaged"),
    "nothing of a letter": (put(b'"bench":"tablet 1"', b'"bench":"\\u0000"'), "archive-unfit"),
    "a time that cannot be": (put(SEVEN, BEFORE), "archive-unfit"),
    "a file of a long type": (put(b'"type":"', b'"type":"' + b"x" * 80, "files.jsonl"), "archive-unfit"),
    "nothing of a letter in a name": (put(b'"name":"', b'"name":"\\u0000', "files.jsonl"), "archive-unfit"),
    "another plan": (plan_of_another_text, "archive-damaged"),
    "another file": (file_of_other_bytes, "archive-damaged"),
    "a file of another length": (lines(last_file_longer, "files.jsonl"), "archive-damaged"),
    "a file less": (without("files/"), "archive-damaged"),
    "a plan less": (without("plans/"), "archive-damaged"),
    "no events": (without("events.jsonl"), "archive-damaged"),
    "a file unlisted": (lines(lambda each: each[1:], "files.jsonl"), "archive-damaged"),
}  # fmt: skip


@pytest.mark.parametrize("which", REFUSED)
def test_whoever_sums_and_seals_something_else_is_refused(shop: Shop, whole: bytes, tmp_path: Path, which: str) -> None:
    change, code = REFUSED[which]
    parts = parts_of(whole)
    parts.pop("SHA256SUMS")
    change(parts)
    assert refused(shop, forged(list(parts.items())), tmp_path).code == code


def test_sums_that_do_not_fit_are_refused(shop: Shop, small: bytes, tmp_path: Path) -> None:
    parts = parts_of(small)
    sums = parts.pop("SHA256SUMS")
    of_events = hashlib.sha256(parts["events.jsonl"]).hexdigest().encode()
    for wrong in (
        sums.replace(of_events, b"0" * 64),
        sums[:-1],
        sums.replace(b"  ", b" "),
        sums.replace(b"0", b"1"),
        b"",
        sums.split(b"\n")[0] + b"\n",
    ):
        assert refused(shop, forged(list(parts.items()), wrong), tmp_path).code == "archive-damaged"


def test_what_is_no_archive_is_told(shop: Shop, tmp_path: Path) -> None:
    assert refused(shop, b"SQLite format 3\0" + bytes(1000), tmp_path).code == "archive-foreign"
    assert refused(shop, b"", tmp_path).code == "archive-foreign"
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as opened:
        opened.writestr("photo.txt", "x")
    assert refused(shop, out.getvalue(), tmp_path).code == "archive-damaged"
    with pytest.raises(InputRefused, match="archive-missing"), opened_archive(tmp_path / "nowhere.zip"):
        pass
    with pytest.raises(InputRefused, match="archive-missing"), opened_archive(tmp_path):
        pass
