"""A desk that is open to a network: nobody gets past its door unknown, each does what their role allows, no more.

Every route that the app has is called, whoever wrote it; addresses are those of documentation (RFC 5737, RFC 3849).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from fastapi import APIRouter, FastAPI
from fastapi.testclient import TestClient
from starlette.types import ASGIApp, Receive, Scope, Send
from tests.at_desk import COOKIE, SetClock, known_as, settings_in

from moldwright.errors import ComputationFailed
from moldwright.web import app as web_app
from moldwright.web.app import create_app
from moldwright.web.doors.doors import Doors
from moldwright.web.doors.needs import GuardedRoute, guarded_routes
from moldwright.web.doors.secrets import new_secret
from moldwright.web.doors.state import CameBy
from moldwright.web.doors.visitor import Role
from moldwright.web.page import Page
from moldwright.web.settings import LOOPBACK

SITE = "http://192.0.2.1:8477"
TABLET = ("192.0.2.7", 50_000)
METHODS = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "PROPFIND")
OPEN = {"/door", "/door/trust", "/api/door/in", "/api/door/join", "/api/door/authority"}
"""What who is not signed in may call: the door, and what a tablet needs before it trusts the connection."""
PARAMETER = re.compile(r"\{[^}]*\}")


@pytest.fixture
def clock() -> SetClock:
    return SetClock()


@pytest.fixture
def doors(tmp_path: Path, clock: SetClock) -> Doors:
    return Doors(tmp_path / "desk", clock)


@pytest.fixture
def app(tmp_path: Path, doors: Doors) -> FastAPI:
    hosts = (*LOOPBACK, "desk.local")
    return create_app(replace(settings_in(tmp_path), lan=True, hosts=hosts), doors)


@pytest.fixture
def tablet(app: FastAPI) -> Iterator[TestClient]:
    with TestClient(app, base_url=SITE, client=TABLET, follow_redirects=False, raise_server_exceptions=False) as found:
        yield found


def routes_of(app: FastAPI) -> list[tuple[str, str, GuardedRoute]]:
    """Every method and path of the app, each parameter filled with something."""
    found = [(method, PARAMETER.sub("x", each.path), each) for each in guarded_routes(app) for method in each.methods]
    assert {"/", "/shop", "/api/files", "/files/x"} <= {path for _, path, _ in found}
    return found


def test_every_call_of_somebody_unknown_is_refused(app: FastAPI, tablet: TestClient) -> None:
    paths = {path for _, path, _ in routes_of(app)} | {"/api/openapi.json", "/nothing", "/api/nothing", "/docs"}
    assert paths > OPEN
    for path in sorted(paths - OPEN):
        for method in METHODS:
            answer = tablet.request(method, path)
            door = (answer.status_code, answer.headers.get("location")) == (303, "/door")
            assert answer.status_code == 401 or (door and method in ("GET", "HEAD")), (method, path, answer)
            assert "set-cookie" not in answer.headers


@pytest.mark.parametrize(
    "path",
    [
        "//shop", "/shop/", "/SHOP", "/built/../shop", "/built/%2e%2e/shop", "/door/../shop", "/door/", "/door;/shop",
        "/%2fshop", "/door%00", "/built", "/api/../door/../shop", "/built//../shop", "/door%2f..%2fshop",
    ],
)  # fmt: skip
def test_no_way_of_writing_a_path_gets_past_the_door(tablet: TestClient, path: str) -> None:
    answer = tablet.get(f"{SITE}{path}")
    assert answer.status_code in (303, 401, 404), answer.text
    assert "This device" not in answer.text


def test_only_what_is_listed_here_is_open(app: FastAPI) -> None:
    assert {each.path for each in guarded_routes(app) if each.role is None} == OPEN


def test_a_route_that_tells_no_role_keeps_the_desk_shut(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    router = APIRouter()
    inner = APIRouter()
    inner.add_api_route("/careless", lambda: None, methods=["POST"])
    router.include_router(inner)
    monkeypatch.setattr(web_app, "all_pages", lambda: {"careless": Page(router)})
    with pytest.raises(ComputationFailed, match="route-unguarded: /careless"):
        create_app(settings_in(tmp_path))


def test_each_role_does_what_it_may_and_no_more(app: FastAPI, tablet: TestClient, doors: Doors) -> None:
    for method, path, route in routes_of(app):
        for role in Role:
            answer = tablet.request(method, path, headers=known_as(doors, role) | {"origin": SITE})
            if route.role is not None and role < route.role:
                code = answer.json()["error"]["code"] if "json" in answer.headers["content-type"] else ""
                assert (answer.status_code, code or "role-too-small") == (403, "role-too-small"), (method, path, role)
            else:
                assert answer.status_code not in (401, 403), (method, path, role, answer.text)
                assert answer.status_code < 500, (method, path, role, answer.text)
        doors.sessions.end(lambda _: True)


def test_no_act_goes_without_the_token_of_its_session(app: FastAPI, tablet: TestClient, doors: Doors) -> None:
    for method, path, route in routes_of(app):
        if method in ("GET", "HEAD") or route.role is None:
            continue
        mine, other = known_as(doors, Role.OWNER), known_as(doors, Role.OWNER)
        for token in ("", "0" * 64, other["x-token"]):
            answer = tablet.request(method, path, headers=mine | {"x-token": token})
            assert answer.json()["error"]["code"] == "token-missing", (method, path)


@pytest.mark.parametrize("site", ["http://elsewhere.example", "null", "https://192.0.2.1:8477", "http://192.0.2.1"])
def test_no_other_site_acts_for_who_is_signed_in(tablet: TestClient, doors: Doors, site: str) -> None:
    headers = known_as(doors, Role.OWNER) | {"origin": site}
    assert tablet.delete("/api/sessions", headers=headers).json()["error"]["code"] == "other-site"
    fetched = known_as(doors, Role.OWNER) | {"sec-fetch-site": "same-site", "sec-fetch-mode": "cors"}
    assert tablet.delete("/api/sessions", headers=fetched).json()["error"]["code"] == "other-site"


def test_forged_foreign_and_ended_sessions_open_nothing(tablet: TestClient, doors: Doors, clock: SetClock) -> None:
    real = doors.sessions.begin(Role.VIEW, "tablet", CameBy.INVITATION)
    ended = doors.sessions.begin(Role.VIEW, "tablet", CameBy.INVITATION)
    name = next(each.name for each in doors.sessions.all() if each.hash == doors.sessions.of(ended).hash)  # type: ignore[union-attr]
    doors.sessions.end(lambda each: each.name == name)
    machine = doors.sessions.begin(Role.OWNER, "desk", CameBy.MACHINE)
    kept = doors.sessions.of(real)
    assert kept is not None
    forged = ["", new_secret(), real[:-1], real.swapcase(), kept.hash, kept.name, ended, machine, "x" * 5000, "\u00e9"]
    for secret in forged:
        answer = tablet.get("/shop", headers={"cookie": f"{COOKIE}={secret}".encode()})  # type: ignore[dict-item]
        assert answer.status_code == 303, secret
    other = tablet.get("/shop", headers={"cookie": f"session={real}; session-8478={real}; __Host-session-8477={real}"})
    assert other.status_code == 303
    assert tablet.get("/shop", headers={"cookie": f"{COOKIE}={real}"}).status_code == 200
    clock.now_ms += 31 * 86_400_000
    assert tablet.get("/shop", headers={"cookie": f"{COOKIE}={real}"}).status_code == 303


@pytest.mark.parametrize(
    ("peer", "site", "more", "here"),
    [
        (("127.0.0.1", 1), "http://localhost:8477", {}, True),
        (("::1", 1), "http://[::1]:8477", {}, True),
        (("::ffff:127.0.0.1", 1), "http://127.0.0.1:8477", {}, True),
        (("127.0.0.1", 1), SITE, {}, False),
        (("127.0.0.1", 1), "http://desk.local:8477", {}, False),
        (("127.0.0.1", 1), "http://localhost:8477", {"x-forwarded-for": "192.0.2.7"}, False),
        (("127.0.0.1", 1), "http://localhost:8477", {"forwarded": "for=192.0.2.7"}, False),
        (TABLET, "http://localhost:8477", {}, False),
        (TABLET, SITE, {"x-forwarded-for": "127.0.0.1"}, False),
    ],
)  # fmt: skip
def test_only_who_sits_at_the_machine_is_the_owner_without_a_passphrase(
    app: FastAPI, peer: tuple[str, int], site: str, more: dict[str, str], here: bool
) -> None:
    with TestClient(app, base_url=site, client=peer, follow_redirects=False) as client:
        assert client.get("/shop", headers=more).status_code == (200 if here else 303)


def arriving_at(app: ASGIApp, address: str) -> ASGIApp:
    async def arrived(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http":
            scope["server"] = (address, 8477)
        await app(scope, receive, send)

    return arrived


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("192.0.2.1:8477", 200), ("192.0.2.1", 200), ("desk.local:8477", 200), ("DESK.LOCAL", 200),
        ("192.0.2.2:8477", 421), ("elsewhere.example", 421), ("desk.local.elsewhere.example", 421),
        ("192.0.2.1.elsewhere.example", 421), ("3221225985", 421), ("[::ffff:192.0.2.1]", 200), ("", 421),
    ],
)  # fmt: skip
def test_the_desk_answers_to_its_own_names_alone(app: FastAPI, host: str, status: int) -> None:
    """A foreign name that points here is no name of ours; an address is, if the call arrived at it."""
    with TestClient(arriving_at(app, "::ffff:192.0.2.1"), base_url=SITE, client=TABLET) as client:
        assert client.get("/door", headers={"host": host}).status_code == status
