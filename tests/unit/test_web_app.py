"""The desk's app: who may call it, under which name, and what every answer carries."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from moldwright.web.app import create_app
from moldwright.web.doors.headers import POLICY
from moldwright.web.settings import Settings


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    settings = Settings(str(tmp_path / "shop.db"), None, tmp_path / "desk")
    with TestClient(create_app(settings), base_url="http://localhost:8477") as found:
        yield found


def test_today_is_served_with_a_strict_policy(client: TestClient) -> None:
    answer = client.get("/")
    assert answer.status_code == 200
    assert "<h1>Today</h1>" in answer.text
    assert answer.headers["content-security-policy"] == POLICY
    assert "unsafe" not in POLICY


def test_another_host_s_name_is_refused(client: TestClient) -> None:
    """A page elsewhere may let its own name point at this machine (DNS rebinding)."""
    answer = client.get("/", headers={"host": "elsewhere.example:8477"})
    assert answer.status_code == 421


def test_an_act_that_another_site_asks_for_is_refused(client: TestClient) -> None:
    answer = client.post("/", headers={"origin": "http://elsewhere.example"})
    assert answer.status_code == 403
    assert answer.json()["error"]["code"] == "other-site"


def test_what_is_not_there_is_told_in_the_form_that_was_asked_for(client: TestClient) -> None:
    assert client.get("/api/nothing").json()["error"]["code"] == "page-missing"
    page = client.get("/nothing")
    assert (page.status_code, page.headers["content-type"]) == (404, "text/html; charset=utf-8")
