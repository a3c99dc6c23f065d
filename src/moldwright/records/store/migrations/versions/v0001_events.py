"""The first tables: events, plans, files, numbers, and the store's own name."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
WHOLE = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def upgrade() -> None:
    """Make them."""
    op.create_table(
        "shop",
        sa.Column("id", sa.String(36), primary_key=True),
        sa.Column("made_ms", sa.BigInteger, nullable=False),
    )
    _make_event()
    op.create_table(
        "plan",
        sa.Column("id", sa.String(64), primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("kept_ms", sa.BigInteger, nullable=False),
        sa.Column("packed", sa.LargeBinary, nullable=False),
    )
    op.create_table(
        "file",
        sa.Column("hash", sa.String(64), primary_key=True),
        sa.Column("size", sa.BigInteger, nullable=False),
        sa.Column("type", sa.String(80), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("kept_ms", sa.BigInteger, nullable=False),
    )
    op.create_table(
        "number",
        sa.Column("edition", sa.String(36), primary_key=True),
        sa.Column("series", sa.String(20), primary_key=True),
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("piece", sa.String(36), nullable=False, unique=True),
        sa.Column("event", sa.String(36), sa.ForeignKey("event.id"), nullable=False, unique=True),
    )


def _make_event() -> None:
    op.create_table(
        "event",
        sa.Column("arrival", WHOLE, primary_key=True, autoincrement=True),
        sa.Column("id", sa.String(36), nullable=False, unique=True),
        sa.Column("about", sa.String(10), nullable=False),
        sa.Column("subject", sa.String(36), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("at_ms", sa.BigInteger, nullable=False),
        sa.Column("bench", sa.String(80), nullable=False),
        sa.Column("by", sa.String(80), nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("lot", sa.String(36)),
        sa.Column("mass_g", sa.Float),
        sa.Column("undoes", sa.String(36)),
    )
    op.create_index("event_of_subject", "event", ["subject", "at_ms"])
    op.create_index("event_of_bench", "event", ["bench", "id"])
    op.create_index("event_of_kind", "event", ["about", "kind", "at_ms"])
    weighed, struck = sa.text("lot IS NOT NULL"), sa.text("undoes IS NOT NULL")
    columns = ["lot", "at_ms", "id", "mass_g"]
    op.create_index("event_of_lot", "event", columns, sqlite_where=weighed, postgresql_where=weighed)
    op.create_index("event_undoing", "event", ["undoes"], sqlite_where=struck, postgresql_where=struck)
