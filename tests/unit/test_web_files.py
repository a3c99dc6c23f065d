"""Files that come in and go out: what they are their bytes tell, none leaves its folder, none is ever a page.

A thousand hostile ones (`tests/hostile.py`) at the desk itself. Source: RFC 9110, 15.5.14 (413), RFC 6266 and RFC 8187
(names), Fetch (WHATWG) 3.6 (nosniff), CSP Level 3 (sandbox); a minimal PNG by the W3C's PNG specification, 5.
"""

from __future__ import annotations

import os
import time
import zlib
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from zipfile import ZipFile

import pytest
from anyio.from_thread import start_blocking_portal
from fastapi.testclient import TestClient
from starlette.types import Message, Scope
from tests.at_desk import app_of, at_desk, settings_in
from tests.hostile import PNG, chunk, hostile_files, hostile_paths

from moldwright.web.doors.files import disposition
from moldwright.web.doors.uploads import FOLDER, sweep

SHOWN = {"image/jpeg", "image/png", "image/heic", "application/pdf", "text/plain; charset=utf-8"}
PIXEL = (
    PNG + chunk(b"IHDR", b"\0\0\0\1\0\0\0\1\x08\0\0\0\0") + chunk(b"IDAT", zlib.compress(b"\0\0")) + chunk(b"IEND", b"")
)
TEXT = b"Lot 4711, opened in March\n"
SHEET = b"%PDF-1.4\n1 0 obj<<>>endobj\ntrailer<<>>\n%%EOF\n"


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A folder in which the desk has one, with files beside it that are none of its business."""
    made = tmp_path / "home" / "maker" / "shop"
    made.mkdir(parents=True)
    for folder in (tmp_path, tmp_path / "home", made):
        (folder / "secret.txt").write_text("canary")
    return made


@pytest.fixture
def client(home: Path) -> Iterator[TestClient]:
    with at_desk(settings_in(home)) as found:
        yield found


def outside(tmp_path: Path, home: Path) -> dict[str, str]:
    """Everything that lies beside what is the desk's own, by its contents."""
    own = (home / "desk", home / "shop.files")
    files = (path for path in tmp_path.rglob("*") if not any(path.is_relative_to(each) for each in own))
    return {str(path): path.read_text() if path.suffix == ".txt" else "" for path in files}


def test_a_thousand_hostile_files_break_nothing_and_leave_no_file_where_none_belongs(
    client: TestClient, home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    working = tmp_path / "working"
    working.mkdir()
    monkeypatch.chdir(working)
    before, kept = outside(tmp_path, home), 0
    files = hostile_files()
    assert len(files) == 1000
    for each in files:
        headers = {"content-type": each.media_type.encode("latin-1")}
        answer = client.put(f"/api/files?name={each.query}", content=each.data, headers=headers)  # type: ignore[arg-type]
        assert answer.status_code in (200, 413, 422), (each.query, each.data[:40], answer.text)
        if answer.status_code == 200:
            kept += 1
            harmless_when_fetched(client, answer.json()["file"], each.query)
    assert outside(tmp_path, home) == before
    assert not list(working.iterdir())
    assert not list((home / "desk" / FOLDER).iterdir())
    assert kept >= 50, "plain texts and PDFs under hostile names are kept: else nothing was tried"
    for path in (home / "shop.files").rglob("*"):
        assert path.is_dir() or path.name == sha256(path.read_bytes()).hexdigest()


def harmless_when_fetched(client: TestClient, file: str, query: str) -> None:
    """What a browser is told of a kept file, under the name that it came with."""
    answer = client.get(f"/files/{file}?name={query}")
    if answer.status_code == 422:
        assert len(query) > 400
        return
    assert answer.status_code == 200
    kind, what = answer.headers["content-type"], answer.headers["content-disposition"]
    assert kind in SHOWN | {"application/octet-stream"}
    assert what.startswith("inline" if kind in SHOWN else "attachment")
    assert answer.headers["x-content-type-options"] == "nosniff"
    policy = answer.headers["content-security-policy"]
    assert policy.startswith("default-src 'none'")
    assert "script-src" not in policy
    assert "sandbox" in policy or kind == "application/pdf"
    assert "set-cookie" not in answer.headers


def test_no_way_of_writing_a_file_s_name_reaches_another(client: TestClient) -> None:
    for path in hostile_paths():
        for before in ("/files/", "/built/", "/files/../", "/api/files/"):
            answer = client.get(f"http://localhost:8477{before}{path}")
            assert answer.status_code < 500, path
            assert "canary" not in answer.text, path


@pytest.mark.parametrize(
    "file", ["0" * 64, "A" * 64, "0" * 63, "%2e%2e", "0" * 62 + "/.", "\u0660" * 64, "0" * 64 + "%0a"]
)
def test_what_is_no_hash_of_a_kept_file_is_not_there(client: TestClient, file: str) -> None:
    assert client.get("/files/" + file).status_code == 404


@pytest.mark.parametrize(
    ("data", "kind", "name"),
    [
        (PIXEL, "image/png", "Lot 4711.html"),
        (SHEET, "application/pdf", "Lot 4711.html"),
        (TEXT, "text/plain; charset=utf-8", "Lot 4711.html.txt"),
        (b"<img src=x onerror=alert(1)>", "text/plain; charset=utf-8", "Lot 4711.html.txt"),
    ],
    ids=["picture", "pdf", "text", "tags"],
)
def test_what_a_file_is_shown_as_its_bytes_decide(client: TestClient, data: bytes, kind: str, name: str) -> None:
    told = client.put("/api/files?name=x.html", content=data, headers={"content-type": "text/html"})
    assert told.status_code == 200
    answer = client.get(f"/files/{told.json()['file']}?name=Lot%204711.html")
    assert answer.content == data
    assert answer.headers["content-type"] == kind
    assert answer.headers["content-disposition"].startswith(f'inline; filename="{name}"')


def test_a_name_cannot_leave_its_header() -> None:
    """RFC 6266: a quoted string of plain letters, and all of it percent-encoded beside (RFC 8187)."""
    told = disposition('a"; filename="b\r\nX: y\\.pdf', inline=False)
    assert "\r" not in told
    assert "\n" not in told
    assert told.count('"') == 2


def test_too_large_is_told_before_anything_is_sent(client: TestClient) -> None:
    answer = client.put("/api/files", content=b"x", headers={"content-length": "900000000"})
    error = answer.json()["error"]
    assert (answer.status_code, error["code"]) == (413, "file-too-large")
    assert (error["actual"], error["limit"], error["unit"]) == (900.0, 40.0, "MB")
    assert error["remedy"]


def test_too_large_is_noticed_where_nothing_was_told(client: TestClient, home: Path) -> None:
    answer = client.put("/api/files", content=(bytes(1_000_000) for _ in range(41)))
    assert (answer.status_code, answer.json()["error"]["limit"]) == (413, 40.0)
    assert not list((home / "desk" / FOLDER).iterdir())


def test_what_is_no_file_may_not_be_endless(client: TestClient) -> None:
    answer = client.post("/api/door/join", content=b'{"code": "' + b"x" * 5_000_000 + b'"}')
    assert (answer.status_code, answer.json()["error"]["limit"]) == (413, 4.0)
    deep = client.post("/api/door/join", content=b"[" * 1_000_000, headers={"content-type": "application/json"})
    assert deep.status_code in {400, 422}


def test_a_file_that_was_sent_by_half_is_gone_and_told(client: TestClient, home: Path) -> None:
    """The sender's Wi-Fi goes: the server says so in place of the rest (ASGI, `http.disconnect`)."""
    parts: list[Message] = [
        {"type": "http.request", "body": b"half", "more_body": True},
        {"type": "http.disconnect"},
    ]
    sent: list[Message] = []
    incoming = home / "desk" / FOLDER
    seen: list[int] = []

    async def receive() -> Message:
        seen.append(len(list(incoming.iterdir())) if incoming.is_dir() else 0)
        return parts.pop(0)

    async def send(message: Message) -> None:
        sent.append(message)

    headers = {"host": "localhost:8477", "x-token": client.headers["x-token"], "cookie": cookie_of(client)}
    scope: Scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": "PUT", "scheme": "http",
        "path": "/api/files", "raw_path": b"/api/files", "query_string": b"", "root_path": "",
        "headers": [(name.encode(), value.encode()) for name, value in headers.items()],
        "client": ("127.0.0.1", 1), "server": ("127.0.0.1", 8477), "state": {},
    }  # fmt: skip
    with start_blocking_portal() as elsewhere:  # in this thread a browser's loop may be running
        elsewhere.call(app_of(client), scope, receive, send)
    assert seen[-1] == 1, "half of it lay there"
    assert not list(incoming.iterdir())
    assert sent[0]["status"] == 400


def cookie_of(client: TestClient) -> str:
    return "; ".join(f"{name}={value}" for name, value in client.cookies.items())


def test_what_a_killed_desk_left_half_sent_is_swept_and_what_comes_in_now_is_not(tmp_path: Path) -> None:
    incoming = tmp_path / FOLDER
    incoming.mkdir()
    for name, age_s in (("old", 86_401), ("new", 60)):
        (incoming / name).write_bytes(b"half")
        os.utime(incoming / name, (time.time() - age_s,) * 2)
    assert sweep(tmp_path) == 1
    assert [path.name for path in incoming.iterdir()] == ["new"]


def test_a_backup_is_whole_and_nothing_of_it_stays(client: TestClient, home: Path, tmp_path: Path) -> None:
    client.put("/api/files?name=note.txt", content=TEXT)
    answer = client.get("/api/backup")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/zip"
    assert "content-encoding" not in answer.headers
    assert answer.headers["content-disposition"].startswith('attachment; filename="shop-')
    assert not list((home / "desk" / FOLDER).iterdir())
    (tmp_path / "taken.zip").write_bytes(answer.content)
    with ZipFile(tmp_path / "taken.zip") as found:
        assert any(found.read(name) == TEXT for name in found.namelist())


def test_a_check_tells_in_the_same_words_as_the_command(client: TestClient, home: Path) -> None:
    assert "<h1>Sound. Nothing to heed.</h1>" in client.get("/shop/check").text
    file = client.put("/api/files?name=note.txt", content=TEXT).json()["file"]
    (home / "shop.files" / file[:2] / file).write_bytes(b"changed")
    text = client.get("/shop/check").text
    assert "<h1>Not sound.</h1>" in text
    assert "A kept file is not what it was (file-damaged)" in text
