"""The desk's app: who may call it, under which name, and what every answer carries."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from moldwright.errors import InputRefused
from moldwright.web.app import create_app
from moldwright.web.doors.headers import POLICY
from moldwright.web.serve import refuse_unusable
from moldwright.web.settings import Settings


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    settings = Settings(str(tmp_path / "shop.db"), None, tmp_path / "desk")
    with TestClient(create_app(settings), base_url="http://localhost:8477") as found:
        yield found


def test_today_is_served_with_a_strict_policy(client: TestClient) -> None:
    answer = client.get("/")
    assert answer.status_code == 200
    assert "<title>Today · Moldwright</title>" in answer.text
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


CROSS = {"sec-fetch-site": "cross-site"}
LINK = CROSS | {"sec-fetch-mode": "navigate", "sec-fetch-dest": "document"}


@pytest.mark.parametrize(
    "host", ["localhost.elsewhere.example", "127.0.0.1.elsewhere.example:8477", "", "[::1]evil", "::1"]
)
def test_names_that_only_look_like_this_machine_s_are_refused(client: TestClient, host: str) -> None:
    assert client.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("host", ["localhost", "LOCALHOST:8477", "127.0.0.1:1", "[::1]:8477", "[::1]"])
def test_every_name_of_this_machine_is_taken_on_any_port(client: TestClient, host: str) -> None:
    assert client.get("/", headers={"host": host}).status_code == 200


@pytest.mark.parametrize("origin", ["null", "https://localhost:8477", "http://localhost:8478", "http://localhost"])
def test_only_the_very_same_origin_may_act(client: TestClient, origin: str) -> None:
    """An origin is scheme, host and port (RFC 6454, 4)."""
    assert client.post("/", headers={"origin": origin}).json()["error"]["code"] == "other-site"


def test_what_another_site_takes_in_is_refused_and_its_links_come_in_anew(client: TestClient) -> None:
    """Fetch Metadata Request Headers (W3C): a picture, a frame or a script of another site; a link is led round."""
    assert client.get("/", headers=CROSS | {"sec-fetch-mode": "no-cors"}).status_code == 403
    assert client.get("/", headers=LINK | {"sec-fetch-dest": "iframe"}).status_code == 403
    answer = client.get("http://localhost:8477//elsewhere.example/x?y=%22%3E", headers=LINK)
    assert answer.status_code == 200
    assert 'content="0;url=http://localhost:8477//elsewhere.example/x?y=%22%3E"' in answer.text
    assert "set-cookie" not in answer.headers


def test_a_data_folder_that_cannot_be_written_is_told_before_anything_listens(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(InputRefused, match="data-unwritable"):
        refuse_unusable(Settings(str(tmp_path / "shop.db"), None, tmp_path / "file" / "desk"))
    with pytest.raises(InputRefused, match="shop-unopenable"):
        refuse_unusable(Settings(str(tmp_path / "file" / "shop.db"), None, tmp_path / "desk"))
    refuse_unusable(Settings(str(tmp_path / "shop.db"), None, tmp_path / "desk"))
    assert not list((tmp_path / "desk").iterdir())
