"""Which version of the tables a store has, and how it comes to this one's."""

from __future__ import annotations

from importlib import import_module

from sqlalchemy import Column, Connection, Engine, MetaData, String, Table, inspect, select

from moldwright.errors import InputRefused
from moldwright.records.store.engine import reading_options

KNOWN = ("0001",)
"""All versions of the tables, oldest first, by the names of their steps."""
VERSION = Table("moldwright_version", MetaData(), Column("version_num", String(32), primary_key=True))
"""Where a store's version stands; alembic keeps it."""
MIGRATE = "moldwright.records.store.migrate"


def newest() -> str:
    """The version of the tables that this version of the software works with."""
    return KNOWN[-1]


def version_of(connection: Connection) -> str:
    """The version of a store's tables, "" for an empty database.

    Parameters
    ----------
    connection : to it.

    Raises InputRefused ("shop-newer", "shop-foreign"); nothing is touched.
    """
    tables = inspect(connection).get_table_names()
    if not tables:
        return ""
    rows = connection.execute(select(VERSION.c.version_num)).scalars().all() if VERSION.name in tables else ()
    if len(rows) != 1:
        remedy = "Name another file, or an empty database: this one is left as it is."
        raise InputRefused("shop-foreign", f"tables {', '.join(sorted(tables)[:5])}", "a shop's records", "", remedy)
    if rows[0] not in KNOWN:
        remedy = "A newer Moldwright has worked on it: use that one here too. Nothing was touched."
        raise InputRefused("shop-newer", f"records of version {rows[0]}", newest(), "", remedy)
    return str(rows[0])


def brought_up(engine: Engine, place: str) -> None:
    """Bring a store to the newest tables; an empty database becomes a store.

    Parameters
    ----------
    engine : its database.
    place : where it is, for the copy that is kept of an older one.

    What does it is loaded only where there is something to do: it takes longer than opening a store.
    """
    with engine.execution_options(**reading_options(engine)).connect() as connection:
        version = version_of(connection)
    if version != newest():
        import_module(MIGRATE).migrate(engine, place)
