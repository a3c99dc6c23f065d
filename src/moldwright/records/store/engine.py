"""The database behind the records: one SQLite file, or PostgreSQL by its URL."""

from __future__ import annotations

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
        return create_engine(make_url(place).set(drivername="postgresql+psycopg"), pool_pre_ping=True)
    engine = create_engine(f"sqlite:///{Path(place)}", connect_args={"timeout": WAIT_S, "isolation_level": None})
    event.listen(engine, "connect", _prepared)
    event.listen(engine, "begin", _begun)
    return engine


def _prepared(connection: Any, _record: Any) -> None:
    """WAL, so that readers do not stop a writer; FULL, so that what is acknowledged is on the disk."""
    for setting in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
        connection.execute(f"PRAGMA {setting}")


def _begun(connection: Any) -> None:
    """One that writes takes the right to at once: none can be caught between reading and writing."""
    reading = connection.get_execution_options().get(READING)
    connection.exec_driver_sql("BEGIN" if reading else "BEGIN IMMEDIATE")
