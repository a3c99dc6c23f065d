"""A desk that answers a test, a browser of the test that is signed in at it, and a clock that the test sets."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient

from moldwright.records.shop import Shop
from moldwright.web.app import create_app
from moldwright.web.doors import guard
from moldwright.web.doors.doors import Doors
from moldwright.web.doors.secrets import token_of
from moldwright.web.doors.state import CameBy
from moldwright.web.doors.visitor import Role, Visitor
from moldwright.web.settings import Settings

HERE = "http://localhost:8477"
META = re.compile(r'<meta name="token" content="([0-9a-f]*)">')


def settings_in(folder: Path) -> Settings:
    """A desk's settings with everything of it in one folder."""
    return Settings(str(folder / "shop.db"), None, folder / "desk")


@contextmanager
def at_desk(settings: Settings) -> Iterator[TestClient]:
    """A browser on the machine itself: it has opened a page, holds its cookie, and sends its token along."""
    with TestClient(create_app(settings), base_url=HERE) as client:
        sign_in_here(client)
        yield client


def sign_in_here(client: TestClient) -> None:
    """Open a page as a browser does, and send the page's token along from then on."""
    answer = client.get("/", headers={"accept": "text/html"})
    found = META.search(answer.text)
    assert found
    client.headers["x-token"] = found[1]


def app_of(client: TestClient) -> FastAPI:
    """The app that a test's client calls."""
    assert isinstance(client.app, FastAPI)
    return client.app


class SetClock:
    """A clock that a test sets."""

    def __init__(self) -> None:
        self.now_ms = 1_800_000_000_000

    def __call__(self) -> int:
        return self.now_ms


COOKIE = "session-8477"
"""Of a session at a desk on this port, without HTTPS."""


def known_as(doors: Doors, role: Role, way: CameBy = CameBy.INVITATION, device: str = "tablet") -> dict[str, str]:
    """Headers of a device that is signed in."""
    secret = doors.sessions.begin(role, device, way)
    return {"cookie": f"{COOKIE}={secret}", "x-token": token_of(secret)}


class DeskHand:
    """A browser at the machine itself, whose acts are told whether they should succeed."""

    def __init__(self, client: TestClient, place: str) -> None:
        self.client, self.place = client, place

    @property
    def shop(self) -> Shop:
        """The records that the desk itself has open."""
        found: Shop = app_of(self.client).state.shop
        return found

    def __call__(self, path: str, status: int = 200, **body: Any) -> Any:
        answer = self.client.post(path, json=body)
        assert answer.status_code == status, answer.text
        return answer.json()

    def add(self, amount: str = "1 kg", **more: Any) -> Any:
        """A lot of rubber, taken in."""
        return self("/api/lots", material="addition-cure-a10-slow-a", amount=amount, **more)["lot"]

    def refused(self, path: str, **body: Any) -> tuple[int, str]:
        """An act that is not taken: its status, and the code of the refusal."""
        answer = self.client.post(path, json=body)
        return answer.status_code, answer.json()["error"]["code"]

    def get(self, path: str, **query: str) -> str:
        """A page's text."""
        answer = self.client.get(path, params=query or None)
        assert answer.status_code == 200, answer.text
        return answer.text


@contextmanager
def hand_at(place: str, folder: Path) -> Iterator[DeskHand]:
    """A hand at a desk on a store: a file, or PostgreSQL's URL."""
    with at_desk(Settings(place, folder / "shop.files", folder / "desk")) as client:
        yield DeskHand(client, place)


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[DeskHand]:
    """A hand at a desk with nothing in it."""
    with hand_at(str(tmp_path / "shop.db"), tmp_path) as hand:
        yield hand


class Roles:
    """Whoever calls has the role that `now` says."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.now = Role.OWNER
        monkeypatch.setattr(guard, "Visitor", self._visitor)

    def _visitor(self, _role: Role, *rest: Any, **more: Any) -> Visitor:
        return Visitor(self.now, *rest, **more)


@pytest.fixture
def roles(monkeypatch: pytest.MonkeyPatch) -> Roles:
    """The owner, till a test says otherwise."""
    return Roles(monkeypatch)
