"""The database itself: its pages, its links, its tables."""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy import inspect
from sqlalchemy.exc import DBAPIError

from moldwright.records.check.finding import Amiss, Found
from moldwright.records.shop import Shop
from moldwright.records.store.engine import SQLITE
from moldwright.records.store.tables import METADATA

SOUND = "ok"
MOST = 20


def database_cases(shop: Shop) -> Iterator[Found]:
    """What is amiss with pages, links and tables. PostgreSQL looks after its own pages and links.

    Parameters
    ----------
    shop : the store.
    """
    with shop.reading() as connection:
        if connection.dialect.name == SQLITE:
            try:
                told = connection.exec_driver_sql(f"PRAGMA integrity_check({MOST})").scalars().all()
                yield from ((Amiss.DATABASE, " ".join(line.split())) for line in told if line != SOUND)
                for table, row, other, _ in connection.exec_driver_sql("PRAGMA foreign_key_check").all()[:MOST]:
                    yield Amiss.LINK, f"{table}, row {row}, to {other}"
            except DBAPIError as error:
                yield Amiss.DATABASE, str(error.orig)
        seen = inspect(connection)
        there = set(seen.get_table_names())
        for table in METADATA.sorted_tables:
            columns = {column["name"] for column in seen.get_columns(table.name)} if table.name in there else set()
            if lacking := sorted(set(table.columns.keys()) - columns):
                yield Amiss.TABLES, f"{table.name} lacks {', '.join(lacking)}"
