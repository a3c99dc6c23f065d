"""Sessions at the desk: their cookie, the token of their acts, what is kept of them, when they end.

Attributes of the cookie: draft-ietf-httpbis-rfc6265bis, 4.1.2 and 4.1.3.2; safe methods: RFC 9110, 9.2.1.
"""

from __future__ import annotations

import json
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from tests.at_desk import HERE, META, SetClock, settings_in

from moldwright.web.app import create_app
from moldwright.web.doors.doors import Doors
from moldwright.web.doors.file import DoorFile
from moldwright.web.doors.sessions import MOST_OF_MACHINE, Sessions
from moldwright.web.doors.state import CameBy
from moldwright.web.doors.visitor import Role

HTML = {"accept": "text/html"}
DAY_MS = 86_400_000


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    with TestClient(create_app(settings_in(tmp_path)), base_url=HERE) as found:
        yield found


def token_in(text: str) -> str:
    found = META.search(text)
    assert found
    return found[1]


def test_a_page_begins_a_session_whose_cookie_no_script_and_no_other_site_gets(client: TestClient) -> None:
    cookie = client.get("/", headers=HTML).headers["set-cookie"]
    name, *attributes = (part.strip() for part in cookie.split(";"))
    assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= set(attributes)
    assert not any(each.startswith("Domain") for each in attributes)
    assert len(name.partition("=")[2]) >= 43, "256 bits in base64 are 43 letters"
    assert "set-cookie" not in client.get("/", headers=HTML).headers, "one session is enough"


def test_under_https_the_cookie_s_name_binds_it_to_this_host(tmp_path: Path) -> None:
    """`__Host-`: only with Secure, Path=/ and without Domain does a browser take it."""
    settings = settings_in(tmp_path)
    object.__setattr__(settings, "secure", True)
    with TestClient(create_app(settings), base_url="https://localhost:8477") as client:
        cookie = client.get("/", headers=HTML).headers["set-cookie"]
    assert cookie.startswith("__Host-")
    assert "; Secure" in cookie
    assert "; Path=/;" in cookie
    assert "Domain" not in cookie


def test_an_act_needs_the_token_of_its_own_session(client: TestClient, tmp_path: Path) -> None:
    token = token_in(client.get("/", headers=HTML).text)
    acts = {wrong: client.post("/api/nothing", headers={"x-token": wrong}) for wrong in ("", "0" * 64, token[:-1])}
    assert {answer.json()["error"]["code"] for answer in acts.values()} == {"token-missing"}
    assert client.post("/api/nothing", headers={"x-token": token}).json()["error"]["code"] == "page-missing"
    client.cookies.clear()
    other = token_in(client.get("/", headers=HTML).text)
    assert other != token
    assert client.post("/api/nothing", headers={"x-token": token}).status_code == 403


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH"])
def test_no_method_that_changes_something_goes_without_a_token(client: TestClient, method: str) -> None:
    client.get("/", headers=HTML)
    assert client.request(method, "/").status_code == 403


def test_what_is_kept_opens_nothing_and_is_for_its_user_alone(client: TestClient, tmp_path: Path) -> None:
    client.get("/", headers=HTML)
    kept = tmp_path / "desk" / "doors" / "doors.json"
    text = kept.read_text()
    secret = next(iter(client.cookies.values()))
    token = token_in(client.get("/").text)
    assert len(json.loads(text)["sessions"]) == 1
    assert secret not in text
    assert token not in text
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600
    assert stat.S_IMODE(kept.parent.stat().st_mode) == 0o700


def test_a_script_that_reads_begins_no_session(client: TestClient) -> None:
    assert "set-cookie" not in client.get("/").headers
    assert "set-cookie" not in client.get("/api/openapi.json", headers=HTML).headers


def test_a_session_ends_when_its_device_is_not_seen_for_thirty_days_or_after_half_a_year(tmp_path: Path) -> None:
    """The figures of `docs/desk.md`."""
    clock = SetClock()
    sessions = Sessions(DoorFile(tmp_path), clock)
    idle, used = (sessions.begin(Role.BENCH, name, CameBy.INVITATION) for name in ("idle", "used"))
    began = clock.now_ms
    for day in range(1, 181):
        clock.now_ms = began + day * DAY_MS - 1
        assert (sessions.of(idle) is not None) == (day <= 30)
        found = sessions.of(used)
        assert found is not None
        sessions.seen(found.name)
    clock.now_ms = began + 180 * DAY_MS
    assert sessions.of(used) is None


def test_who_was_seen_is_kept_every_five_minutes_and_not_at_every_call(tmp_path: Path) -> None:
    clock = SetClock()
    doors = Doors(tmp_path / "desk", clock)
    with TestClient(create_app(settings_in(tmp_path), doors), base_url=HERE) as client:
        client.get("/", headers=HTML)
        kept = doors.file.path.stat().st_mtime_ns, doors.sessions.all()[0].seen_ms
        clock.now_ms += 299_000
        client.get("/")
        assert (doors.file.path.stat().st_mtime_ns, doors.sessions.all()[0].seen_ms) == kept
        clock.now_ms += 1000
        client.get("/")
        assert doors.sessions.all()[0].seen_ms == clock.now_ms


def test_browsers_of_the_machine_do_not_pile_up_and_push_no_tablet_out(tmp_path: Path) -> None:
    clock = SetClock()
    sessions = Sessions(DoorFile(tmp_path), clock)
    tablet = sessions.begin(Role.BENCH, "tablet", CameBy.INVITATION)
    for _ in range(MOST_OF_MACHINE + 5):
        clock.now_ms += 1
        newest = sessions.begin(Role.OWNER, "desk", CameBy.MACHINE)
    assert len(sessions.all()) == MOST_OF_MACHINE + 1
    assert sessions.of(tablet) is not None
    assert sessions.of(newest) is not None


def test_two_desks_on_one_folder_see_each_other_s_changes(tmp_path: Path) -> None:
    one, other = (Sessions(DoorFile(tmp_path), SetClock()) for _ in range(2))
    secret = one.begin(Role.VIEW, "tablet", CameBy.INVITATION)
    assert other.of(secret) is not None
    other.end(lambda _: True)
    assert one.of(secret) is None


def test_a_second_device_of_one_name_is_numbered(tmp_path: Path) -> None:
    """What a device strikes out goes by its name, so no two have one; browsers on the machine itself are one device.
    The longest name is shortened for its number: an entry's device has 80 letters (`records.runs.sent`)."""
    clock = SetClock()
    sessions = Sessions(DoorFile(tmp_path), clock)

    def device(secret: str) -> str:
        found = sessions.of(secret)
        assert found is not None
        return found.device

    first, second, third = (sessions.begin(Role.BENCH, "tablet", CameBy.INVITATION) for _ in range(3))
    assert [device(each) for each in (first, second, third)] == ["tablet", "tablet 2", "tablet 3"]
    assert {device(sessions.begin(Role.OWNER, "desk", CameBy.MACHINE)) for _ in range(2)} == {"desk"}
    assert device(sessions.begin(Role.BENCH, "desk", CameBy.INVITATION)) == "desk 2"
    own = sessions.of(second)
    assert own is not None
    sessions.rename(own.name, "tablet", "")
    assert device(second) == "tablet 2"
    sessions.rename(own.name, "by the scale", "")
    sessions.rename(own.name, "by the scale", "Kim")
    assert device(second) == "by the scale"
    assert device(sessions.begin(Role.BENCH, "tablet", CameBy.INVITATION)) == "tablet 2"
    sessions.end(lambda each: each.device == "tablet")
    assert device(sessions.begin(Role.BENCH, "tablet", CameBy.INVITATION)) == "tablet"
    long = [device(sessions.begin(Role.BENCH, "x" * 80, CameBy.INVITATION)) for _ in range(2)]
    assert len(set(long)) == 2
    assert max(map(len, long)) <= 80


def test_a_file_that_is_none_of_ours_is_refused_and_not_taken_for_open_doors(tmp_path: Path) -> None:
    sessions = Sessions(DoorFile(tmp_path), SetClock())
    sessions.begin(Role.VIEW, "tablet", CameBy.INVITATION)
    (tmp_path / "doors" / "doors.json").write_text('{"sessions": 3}')
    with pytest.raises(Exception, match="doors-damaged"):
        sessions.all()
