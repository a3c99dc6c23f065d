"""A desk that answers a test, and a browser of the test that is signed in at it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fastapi import FastAPI
from fastapi.testclient import TestClient

from moldwright.web.app import create_app
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
