"""The desk's app for tests of its acts: called as its own pages call it, with the token of the session."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from moldwright.records.shop import Shop
from moldwright.web.app import create_app
from moldwright.web.doors import guard
from moldwright.web.doors.visitor import Role, Visitor
from moldwright.web.settings import Settings


class Desk:
    """A desk's client with the token of its session."""

    def __init__(self, client: TestClient) -> None:
        self.client = client
        page = client.get("/", headers={"accept": "text/html"}).text
        token = re.search(r'name="token" content="([^"]*)"', page)
        assert token is not None
        self.headers = {"X-Token": token[1]}

    @property
    def shop(self) -> Shop:
        found: Shop = self.client.app.state.shop  # type: ignore[attr-defined]
        return found

    def post(self, path: str, **body: object) -> dict[str, object]:
        answer = self.client.post(path, json=body, headers=self.headers)
        assert answer.status_code == 200, answer.text
        told: dict[str, object] = answer.json()
        return told

    def get(self, path: str, **query: str) -> str:
        answer = self.client.get(path, params=query)
        assert answer.status_code == 200, answer.text
        return answer.text

    def refused(self, path: str, **body: object) -> tuple[int, str]:
        answer = self.client.post(path, json=body, headers=self.headers)
        return answer.status_code, answer.json()["error"]["code"]


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    settings = Settings(str(tmp_path / "shop.db"), None, tmp_path / "desk")
    with TestClient(create_app(settings), base_url="http://localhost:8477") as client:
        yield Desk(client)


class Roles:
    """Whoever calls has the role that `now` says."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.now = Role.OWNER
        monkeypatch.setattr(guard, "Visitor", self._visitor)

    def _visitor(self, _role: Role, *rest: Any, **more: Any) -> Visitor:
        return Visitor(self.now, *rest, **more)


@pytest.fixture
def roles(monkeypatch: pytest.MonkeyPatch) -> Roles:
    return Roles(monkeypatch)
