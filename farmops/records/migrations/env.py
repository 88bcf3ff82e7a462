"""Alembic's entry: runs the migrations on the connection it is handed."""

from __future__ import annotations

from alembic import context

from farmops.records.tables import metadata

context.configure(connection=context.config.attributes["connection"], target_metadata=metadata)
context.run_migrations()
