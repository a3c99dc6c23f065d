"""docs/archive.md is enough to read an archive: its lines are run, and a reader written from the page alone agrees."""

from __future__ import annotations

import hashlib
import json
import re
import uuid
import zipfile
from dataclasses import is_dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from job_plan_sample import sample_plan
from varied_shop import documents, fill

from moldwright.archive import layout
from moldwright.archive.lines import event_in
from moldwright.archive.save import export
from moldwright.log.any_events import Noted, Undone
from moldwright.log.event import About
from moldwright.log.ids import LotId, RunId, SubjectId
from moldwright.log.kinds import KINDS
from moldwright.log.run_events import CupRef, Weighed
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import PartKind
from moldwright.records.clock import BenchClock
from moldwright.records.files.keep import attach, keep_file
from moldwright.records.shop import Shop
from moldwright.store.shape import hints

PAGE = (Path(__file__).parents[2] / "docs" / "archive.md").read_text(encoding="utf-8")
RUN, LOT = (RunId(SubjectId(f"017f22e2-79b0-7cc3-98c4-dc0c0c07398{n}")) for n in (1, 2))


def reader_of_the_page() -> Any:
    (code,) = re.findall(r"```python\n(.*?)```", PAGE, flags=re.DOTALL)
    assert len(code.splitlines()) <= 25
    names: dict[str, Any] = {}
    exec(code, names)
    return names["read"]


def test_the_readers_lines_on_the_page_find_what_was_written(shop: Shop, tmp_path: Path) -> None:
    clock = BenchClock("tablet 1", "Kim")
    weighed = Weighed(CupRef(MixId("coat-1.cup-1")), PartKind.A, 32.4, 32.5, 64.9, lot=LotId(LOT))
    first = clock.event(About.RUN, RUN, weighed, 1645557742000)
    wrong = clock.event(About.RUN, RUN, Noted("nonsense\u2028 in two"))
    shop.append([first, wrong, clock.event(About.RUN, RUN, Undone(wrong.id, "typed twice"))])
    file = keep_file(shop, "Größe 青".encode(), "../note.txt")
    attach(shop, clock, About.RUN, RUN, file, "a note")
    export(shop, tmp_path / "a.zip")
    events, files = reader_of_the_page()(tmp_path / "a.zip")
    assert [event["kind"] for event in events] == ["weighed", "undone", "attached"]
    told = events[0]
    assert (told["about"], told["subject"], told["bench"], told["by"]) == ("run", RUN, "tablet 1", "Kim")
    assert (told["body"]["mass_g"], told["body"]["reads_g"], told["body"]["part"]) == (32.5, 64.9, "A")
    assert told["body"]["lot"] == LOT
    assert told["at"] == "2022-02-22T19:22:22.000Z"
    assert events[2]["body"]["file"] == file
    assert files[file]["data"].decode() == "Größe 青"
    assert (files[file]["name"], files[file]["type"]) == ("note.txt", "text/plain")


def test_a_reader_of_the_standard_library_finds_every_promise_of_the_page_kept(shop: Shop, tmp_path: Path) -> None:
    """Ids by `uuid`, times by `datetime`, hashes by `hashlib`, the zip by `zipfile`."""
    fill(shop, sample_plan(), rounds=1)
    export(shop, tmp_path / "a.zip")
    data = (tmp_path / "a.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "a.zip") as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
        seal, times = archive.comment.decode(), {info.date_time for info in archive.infolist()}
    assert seal == "moldwright-archive SHA-256 " + hashlib.sha256(data[:-64]).hexdigest()
    assert times == {(1980, 1, 1, 0, 0, 0)}
    about = json.loads(parts["archive.json"])
    rows = {name: [json.loads(each) for each in parts[name].split(b"\n")[:-1]] for name in about["fields"]}
    assert {name.partition(".")[0]: len(found) for name, found in rows.items()} == {
        name: about[name] for name in ("events", "files", "plans")
    }
    for name, found in rows.items():
        wanted = about["fields"][name]
        assert all([{"body_text": "body"}.get(key, key) for key in row] == wanted for row in found)
    for row in rows["events.jsonl"]:
        assert uuid.UUID(row["id"]).version == 7
        if row["at"]:
            assert datetime.fromtimestamp(row["at_ms"] // 1000, UTC).isoformat()[:19] == row["at"][:19]
    assert {row["name"] for row in rows["files.jsonl"]} == set(documents())
    for row in rows["files.jsonl"]:
        assert hashlib.sha256(parts["files/" + row["sha256"]]).hexdigest() == row["sha256"]
    for row in rows["plans.jsonl"]:
        text = parts[f"plans/{row['sha256']}.json"]
        assert (len(text), json.loads(text)["name"]) == (row["bytes"], row["name"])


def test_the_page_tells_every_part_and_every_field() -> None:
    for name in layout.FIXED:
        assert f"`{name}`" in PAGE
    for field in {field for told in layout.FIELDS.values() for field in told} | {layout.BODY_TEXT}:
        assert f"| `{field}` |" in PAGE


def test_the_example_of_the_page_is_a_line_of_the_format() -> None:
    (example,) = re.findall(r"```json\n(.*?)```", PAGE, flags=re.DOTALL)
    line = event_in(re.sub(r"\n *", "", example))
    assert (line.kind, json.loads(line.body)["mass_g"]) == ("weighed", 32.5)


def test_the_kinds_of_the_page_hold_what_it_says() -> None:
    rows = re.findall(
        r"^\| (`[^|]+) \| ([^|]+) \|$", PAGE.partition("| kind | body |")[2].partition("##")[0], re.MULTILINE
    )
    assert len(rows) >= 8
    for kinds, told in rows:
        for kind in re.findall("`([a-z-]+)`", kinds):
            assert set(re.findall("`([a-z_]+)`", told)) <= fields_in(KINDS[kind]), kind


def fields_in(kind: type) -> set[str]:
    """The fields of a kind and of what it holds."""
    found = set(hints(kind))
    for inner in hints(kind).values():
        if isinstance(inner, type) and is_dataclass(inner):
            found |= fields_in(inner)
    return found
