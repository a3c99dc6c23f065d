"""A store brought to the newest tables: in one transaction, by one bench at a time, a copy of the old one kept."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, Engine, insert, select, text

from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.store.copy import copied
from moldwright.records.store.engine import SQLITE
from moldwright.records.store.schema import newest, version_of
from moldwright.records.store.tables import SHOP

STEPS = Path(__file__).parent / "migrations"
VERSIONS = (STEPS / "versions",)
"""Folders with steps."""
LOCK = 0x6D6F6C64
"""The number of PostgreSQL's lock that one who migrates holds: "mold" in ASCII."""


def migrate(engine: Engine, place: str) -> None:
    """Make the tables, or bring those of an earlier version forward; killed in the middle, all is as before.

    Parameters
    ----------
    engine : the store's database.
    place : where it is; of a file with an older store a copy is kept beside it.
    """
    with engine.begin() as connection:
        if connection.dialect.name != SQLITE:
            connection.execute(text("SELECT pg_advisory_xact_lock(:number)"), {"number": LOCK})
        version = version_of(connection)
        if version == newest():
            return
        if version and connection.dialect.name == SQLITE:
            copied(Path(place), Path(f"{place}.before-{newest()}"))
        command.upgrade(_config(connection), "head")
        _named(connection)


def _config(connection: Connection) -> Config:
    config = Config()
    config.set_main_option("script_location", str(STEPS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    config.set_main_option("version_locations", ":".join(map(str, VERSIONS)).replace("%", "%%"))
    config.attributes["connection"] = connection
    return config


def _named(connection: Connection) -> None:
    """A store that has no name yet gets one, which its archives carry."""
    if connection.execute(select(SHOP.c.id)).first() is None:
        connection.execute(insert(SHOP), {"id": BenchClock("").new_id(), "made_ms": now_ms()})
