"""What alembic runs: the steps that a store lacks, in the transaction that `migrate` began."""

from __future__ import annotations

from alembic import context

from moldwright.records.store.schema import VERSION
from moldwright.records.store.tables import METADATA

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=METADATA,
    version_table=VERSION.name,
    transactional_ddl=True,
)
with context.begin_transaction():
    context.run_migrations()
