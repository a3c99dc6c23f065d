"""A new, empty store for a test, on each of the two engines."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from postgres_server import NEEDED, MissingError, Server, programs

from moldwright.records.shop import Shop, open_shop

ENGINES = ("sqlite", "postgresql")
EMPTY = "shop_empty"
"""The database with an empty store that the others are copied from."""


@pytest.fixture(scope="session")
def postgres() -> Iterator[Server]:
    """A PostgreSQL server of this process; skipped where there is none, failed where one is needed."""
    try:
        programs()
    except MissingError as error:
        if os.environ.get(NEEDED):
            pytest.fail(f"{error}; {NEEDED} asks for it", pytrace=False)
        pytest.skip(str(error))
    with closing(Server()) as server:
        server.say(f"CREATE DATABASE {EMPTY}")
        open_shop(server.url(EMPTY)).close()
        yield server


@pytest.fixture(params=ENGINES)
def shop_at(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The place of an empty store."""
    if request.param == "sqlite":
        yield str(tmp_path / "shop.db")
        return
    server: Server = request.getfixturevalue("postgres")
    name = server.database(EMPTY)
    yield server.url(name)
    server.drop(name)


@pytest.fixture
def shop(shop_at: str, tmp_path: Path) -> Iterator[Shop]:
    """An empty store."""
    with closing(open_shop(shop_at, tmp_path / "shop.files")) as found:
        yield found
