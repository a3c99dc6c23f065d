"""The tables of the store, one schema for both engines.

`event` is the only one that is written to at the bench, and its rows never change. `lot`, `mass_g` and `undoes` repeat
what its body says, so that the database can add up and skip without reading bodies; they are written with the row, by
`row_of` alone.

A change here is a step of `migrations/versions` too; a test holds that both give the same tables.
"""

from __future__ import annotations

from sqlalchemy import BigInteger, Column, Float, ForeignKey, Index, Integer, LargeBinary, MetaData, String, Table, Text

WHOLE = BigInteger().with_variant(Integer, "sqlite")
"""A whole number; SQLite counts rows by its own type only."""
METADATA = MetaData()

SHOP = Table(
    "shop",
    METADATA,
    Column("id", String(36), primary_key=True),
    Column("made_ms", BigInteger, nullable=False),
)
EVENT = Table(
    "event",
    METADATA,
    Column("arrival", WHOLE, primary_key=True, autoincrement=True),
    Column("id", String(36), nullable=False, unique=True),
    Column("about", String(10), nullable=False),
    Column("subject", String(36), nullable=False),
    Column("kind", String(40), nullable=False),
    Column("at_ms", BigInteger, nullable=False),
    Column("bench", String(80), nullable=False),
    Column("by", String(80), nullable=False),
    Column("body", Text, nullable=False),
    Column("lot", String(36)),
    Column("mass_g", Float),
    Column("undoes", String(36)),
)
_WEIGHED, _STRUCK = EVENT.c.lot.is_not(None), EVENT.c.undoes.is_not(None)
Index("event_of_subject", EVENT.c.subject, EVENT.c.at_ms)
Index("event_of_bench", EVENT.c.bench, EVENT.c.id)
Index("event_of_kind", EVENT.c.about, EVENT.c.kind, EVENT.c.at_ms)
_LOT = (EVENT.c.lot, EVENT.c.at_ms, EVENT.c.id, EVENT.c.mass_g)
Index("event_of_lot", *_LOT, sqlite_where=_WEIGHED, postgresql_where=_WEIGHED)
Index("event_undoing", EVENT.c.undoes, sqlite_where=_STRUCK, postgresql_where=_STRUCK)
PLAN = Table(
    "plan",
    METADATA,
    Column("id", String(64), primary_key=True),
    Column("name", Text, nullable=False),
    Column("kept_ms", BigInteger, nullable=False),
    Column("packed", LargeBinary, nullable=False),
)
FILE = Table(
    "file",
    METADATA,
    Column("hash", String(64), primary_key=True),
    Column("size", BigInteger, nullable=False),
    Column("type", String(80), nullable=False),
    Column("name", Text, nullable=False),
    Column("kept_ms", BigInteger, nullable=False),
)
NUMBER = Table(
    "number",
    METADATA,
    Column("edition", String(36), primary_key=True),
    Column("series", String(20), primary_key=True),
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("piece", String(36), nullable=False, unique=True),
    Column("event", String(36), ForeignKey(EVENT.c.id), nullable=False, unique=True),
)
