"""The database behind the records: one SQLite file, or PostgreSQL by its URL."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path
from typing import Any

from sqlalchemy import Engine, create_engine, event
from sqlalchemy.engine import make_url

WAIT_S = 10.0
"""How long a bench waits for another that is writing."""
SQLITE = "sqlite"
READING = "reading"
"""The option of a connection that only reads."""


def engine_for(place: str) -> Engine:
    """The engine of a store.

    Parameters
    ----------
    place : a file's path, or a URL that begins with "postgresql".
    """
    if "://" in place:
        served = create_engine(make_url(place).set(drivername="postgresql+psycopg"), pool_pre_ping=True)
        event.listen(served, "connect", _waited_for)
        return served
    engine = create_engine(f"sqlite:///{Path(place)}", connect_args={"timeout": WAIT_S, "isolation_level": None})
    event.listen(engine, "connect", _prepared)
    event.listen(engine, "begin", _begun)
    return engine


def _prepared(connection: Any, _record: Any) -> None:
    """FULL, so that what is acknowledged is on the disk."""
    for setting in ("synchronous=FULL", "foreign_keys=ON"):
        connection.execute(f"PRAGMA {setting}")


def _begun(connection: Any) -> None:
    """One that writes takes the right to at once: none can be caught between reading and writing."""
    reading = connection.get_execution_options().get(READING)
    connection.exec_driver_sql("BEGIN" if reading else "BEGIN IMMEDIATE")


def _waited_for(connection: Any, _record: Any) -> None:
    """PostgreSQL answers when it is on the disk, whatever the server does for others."""
    with connection.cursor() as cursor:
        cursor.execute("SET synchronous_commit TO on")
    connection.commit()


def write_ahead(engine: Engine) -> None:
    """A log beside the file, so that who reads does not stop who writes; it stays so for whoever opens it.

    Parameters
    ----------
    engine : of a store that is ours.
    """
    if engine.dialect.name != SQLITE:
        return
    with closing(engine.raw_connection()) as connection:
        cursor = connection.cursor()
        if cursor.execute("PRAGMA journal_mode").fetchone() != ("wal",):
            cursor.execute("PRAGMA journal_mode=WAL")
